// What is not done, and what is not put on: words that no step may be read into.
#include "analysis/forms/form_matcher.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;

Match FormMatcher::left_bare() const {
  // `skip the garnish`, `without garnish`
  if (after_any(0, {"skip garnish", "skip the garnish", "without garnish", "without a garnish", "leave bare",
                    "garnish-free", "no garnish needed", "no garnish at all", "no garnishes",
                    "garnish nothing", "serve ungarnished", "ungarnished", "serve without garnish",
                    "nothing on top", "garnish free", "don't garnish"}) == end_)
    return Readings{say("garnish none")};
  return std::nullopt;
}

Match FormMatcher::without_alcohol() const {
  // `0% alcohol`
  bool is_nothing =
      line_.kind(0) == TokenKind::number && line_.text(0).find_first_not_of("0.") == std::string_view::npos;
  if (is_nothing && line_.kind(1) == TokenKind::percent &&
      (end_ == 2 || (end_ == 3 && is_any(2, {"alcohol", "alc", "abv", "vol"}))))
    return Readings{say("alcohol ..0.5 % abv")};
  // `no alcohol`, `alcohol free`: what the drink declares of itself.
  if (after_any(0, {"no alcohol",
                    "alcohol free",
                    "alcohol-free",
                    "non alcoholic",
                    "non-alcoholic",
                    "zero proof",
                    "zero-proof",
                    "without alcohol",
                    "na",
                    "no abv",
                    "non-alc",
                    "non alc",
                    "0 proof",
                    "no booze",
                    "booze-free",
                    "booze free",
                    "0%",
                    "0.0%",
                    "0 % abv",
                    "0% abv"}) == end_)
    return Readings{say("alcohol ..0.5 % abv")};
  return std::nullopt;
}

Match FormMatcher::not_done() const {
  // `not shaken`, `no rim`, `never stirred`: a step in words.
  static constexpr std::string_view done[] = {
      "shaken",     "stirred",           "strained",   "muddled",  "blended",
      "shake",      "shaking",           "stir",       "stirring", "strain",
      "straining",  "muddling",          "muddle",     "rinse",    "rim",
      "salt rim",   "sugar rim",         "float",      "foam",     "dilution",
      "dry shake",  "reverse dry shake", "top",        "flame",    "smoke",
      "melted ice", "double strain",     "fine strain"};
  auto what = after_any(0, {"no", "not", "never", "don't", "do not", "without"});
  if (!what) return std::nullopt;
  auto stop = longest(skip_article(*what), done);
  if (stop != end_ || (is_any(0, {"don't", "do"}) && !is(*what, "double") && !is(*what, "fine")))
    return std::nullopt;
  return Readings{say("do \"" + base::collapse_space(line_.raw(0, end_)) + "\"")};
}

Match FormMatcher::order_in_words() const {
  // `gin first, then tonic`: it changes nothing of what stands above.
  bool has_order = false;
  for (std::size_t i = 1; i < end_ && !has_order; ++i)
    has_order = is_any(i, {"first", "last", "before", "after"});
  if (!has_order) return std::nullopt;
  bool says_order = false, names_one = false;
  std::size_t begin = 0;
  auto names = [&](std::size_t stop) {
    if (stop == begin || (stop == begin + 1 && is(begin, "ice"))) return true;
    names_one = true;
    return poured_already(begin, stop);
  };
  for (std::size_t i = 0; i <= end_; ++i) {
    bool orders = is_any(i, {"first", "last", "then", "next", "after", "before", "finally", "second", "goes",
                             "in", "go", "pour", "slowly"});
    if (i < end_ && !orders && line_.kind(i) != TokenKind::comma) continue;
    if (!names(i)) return std::nullopt;
    says_order = says_order || is_any(i, {"first", "last", "before", "after"});
    begin = i + 1;
  }
  if (!says_order || !names_one || begins_quantity(0) || match_verb(line_, 0)) return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

Match FormMatcher::dry_without_ice() const {
  // `dry shake 10 s, no ice`: what a dry shake is.
  auto dry = verb_at(0, Verb::dry_shake);
  if (!dry) return std::nullopt;
  for (std::size_t i = *dry; i + 1 < end_; ++i) {
    if (after_any(i, {"no ice", "without ice", "with no ice"}) != comma_or_end(i)) continue;
    std::size_t last = i > *dry && line_.kind(i - 1) == TokenKind::comma ? i - 1 : i;
    Reading shake = Reading().copy(line_, 0, last);
    return Readings{with_rest(shake, line_, comma_or_end(i), end_)};
  }
  return std::nullopt;
}

bool FormMatcher::is_discarded(std::size_t first, std::size_t last) const {
  bool away = false;
  for (std::size_t i = first; i < last; ++i) {
    if (line_.kind(i) == TokenKind::comma) continue;
    if (is_any(i, {"dump", "discard", "toss", "tip", "throw", "pour", "empty", "shake", "drain", "bin",
                   "flick", "dumped", "discarded", "tossed", "emptied"}))
      away = true;
    else if (!is_any(i, {"swirl", "roll", "coat",   "out",    "away", "the",      "excess",
                         "rest",  "it",   "and",    "then",   "&",    "leftover", "remainder",
                         "any",   "off",  "around", "inside", "of",   "glass"}))
      return false;
  }
  return away;
}

Match FormMatcher::rinsed_and_emptied() const {
  // `rinse glass with absinthe and dump`: the rinse is poured out, not the drink.
  for (std::size_t i = 2; i + 1 < end_; ++i) {
    bool divides = line_.kind(i) == TokenKind::comma || is_any(i, {"and", "then", "&"});
    if (!divides || !is_discarded(i + 1, end_)) continue;
    std::string away = ", \"" + base::collapse_space(line_.raw(i + 1, end_)) + "\"";
    Readings lines{Reading().copy(line_, 0, i)};
    // `absinthe rinse, dump the rest`
    if (auto rinsed = FormMatcher(line_.part(0, i), context_, in_prep_, state_).rinse_with())
      lines = std::move(*rinsed);
    else if (!verb_at(0, Verb::rinse))
      continue;
    for (auto& one : lines)
      if (one.text.starts_with("rinse ")) one.text += away;
    return lines;
  }
  return std::nullopt;
}

}  // namespace gill::analysis

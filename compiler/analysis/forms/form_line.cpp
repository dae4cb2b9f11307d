#include "analysis/forms/form_line.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/text.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;
using units::Kind;
using units::QuantityReader;

FormLine::FormLine(const LineView& line, const Context& context, bool in_prep, const RecipeState& state)
    : line_(line), context_(context), in_prep_(in_prep), state_(state), end_(line.size()) {
  for (std::size_t i = 0; i < end_; ++i)
    words_.push_back(line.kind(i) == TokenKind::word || line.kind(i) == TokenKind::stray
                         ? base::lower_ascii(line.text(i))
                         : std::string());
  // Forms look some words ahead.
  words_.resize(end_ + 8);
}

const std::string& FormLine::word(std::size_t i) const { return words_[std::min(i, words_.size() - 1)]; }

bool FormLine::is(std::size_t i, std::string_view text) const { return i < end_ && word(i) == text; }

bool FormLine::is_any(std::size_t i, WordList list) const {
  return i < end_ && std::find(list.begin(), list.end(), word(i)) != list.end();
}

std::optional<std::size_t> FormLine::after(std::size_t i, std::string_view phrase) const {
  while (!phrase.empty()) {
    auto space = phrase.find(' ');
    if (!is(i++, phrase.substr(0, space))) return std::nullopt;
    phrase = space == std::string_view::npos ? std::string_view() : phrase.substr(space + 1);
  }
  return i;
}

std::optional<std::size_t> FormLine::after_any(std::size_t i, WordList phrases) const {
  std::optional<std::size_t> best;
  for (auto phrase : phrases)
    if (auto next = after(i, phrase); next && (!best || *next > *best)) best = next;
  return best;
}

std::size_t FormLine::skip_article(std::size_t i) const {
  return is_any(i, {"the", "a", "an", "your"}) ? i + 1 : i;
}

std::size_t FormLine::comma_or_end(std::size_t i) const {
  while (i < end_ && line_.kind(i) != TokenKind::comma) ++i;
  return i;
}

bool FormLine::begins_quantity(std::size_t i) const {
  return i < end_ && QuantityReader::begins_quantity(line_, i);
}

bool FormLine::is_name(symbols::NameSpace space, std::size_t first, std::size_t last) const {
  std::size_t bad = 0;
  return last > first && syntax::is_plain_name(line_, first, last, bad) &&
         context_.names.find(space, syntax::name_text(line_, first, last)).valid();
}

bool FormLine::is_use(std::size_t first, std::size_t last) const {
  if (last <= first) return false;
  if (find_use(LineReader(line_, context_), first, last)) return true;
  // A word with several meanings is a name, too: its reader asks.
  std::size_t bad = 0;
  return syntax::is_plain_name(line_, first, last, bad) &&
         context_.specs.house.asks.contains(base::fold_name(syntax::name_text(line_, first, last)));
}

std::optional<std::string> FormLine::ice_named(std::size_t first, std::size_t last) const {
  if (last <= first) return std::nullopt;
  std::string name = base::fold_name(base::collapse_space(line_.raw(first, last)));
  for (std::string_view start : {"the ", "a ", "one ", "some ", "more ", "extra ", "fresh ", "new ",
                                 "lots of ", "loads of ", "plenty of ", "big block of "})
    if (name.starts_with(start)) name = start == "big block of " ? "block" : name.substr(start.size());
  if (name == "ice" || name == "cubes" || name == "ice cubes" || name == "cubed ice") return "cubed";
  auto known = [&](const std::string& one) {
    return context_.names.find(symbols::NameSpace::ice, one).valid();
  };
  if (known(name)) return name;
  if (name.ends_with(" ice") && known(name.substr(0, name.size() - 4)))
    return name.substr(0, name.size() - 4);
  if (name.ends_with("s") && known(name.substr(0, name.size() - 1))) return name.substr(0, name.size() - 1);
  return std::nullopt;
}

bool FormLine::is_plain_ice(std::size_t first, std::size_t last) const {
  std::string name = base::fold_name(base::collapse_space(line_.raw(first, last)));
  return name == "ice" ||
         (name.ends_with(" ice") && ice_named(first, last) == std::string("cubed") && name != "cubed ice");
}

std::optional<std::size_t> FormLine::verb_at(std::size_t i, Verb verb) const {
  auto found = match_verb(line_, i);
  return found && found->verb == verb && i < end_ ? std::optional(i + found->tokens) : std::nullopt;
}

Reading& FormLine::with_rest(Reading& reading, const LineView& line, std::size_t first, std::size_t last) {
  if (first >= last) return reading;
  if (line.kind(first) != TokenKind::comma) return reading.say(",").copy(line, first, last);
  reading.text += ",";
  return reading.copy(line, first + 1, last);
}

bool FormLine::is_adverb(std::string_view word) {
  static constexpr std::array<std::string_view, 17> adverbs = {
      "hard",   "vigorously", "gently",    "briefly", "well",    "quickly", "slowly", "lightly", "thoroughly",
      "softly", "firmly",     "carefully", "short",   "briskly", "very",    "really", "fast"};
  return std::find(adverbs.begin(), adverbs.end(), word) != adverbs.end();
}

bool FormLine::is_time(std::size_t first, std::size_t last) const {
  if (!begins_quantity(first) || line_.kind(first) == TokenKind::comma) return false;
  std::size_t at = first + 1;
  if (at < last && line_.kind(at) == TokenKind::dots) at += 2;
  auto match = context_.units.match(line_, at);
  return match.unit.valid() && context_.units[match.unit].kind == Kind::time && at + match.tokens == last;
}

std::size_t FormLine::time_stop(std::size_t i, std::size_t stop) const {
  for (std::size_t last = i + 2; last <= stop && last <= i + 5; ++last)
    if (is_time(i, last)) return last;
  return i;
}

std::optional<Use> use_of_amount(const LineView& line, const Context& context) {
  if (line.size() == 0 || !QuantityReader::begins_quantity(line, 0)) return std::nullopt;
  std::size_t at = 0;
  diagnostics::DiagnosticSink silent;
  QuantityReader reader(line, context.units, silent);
  if (!reader.read_number(at)) return std::nullopt;
  LineReader names(line, context);
  if (auto use = find_use(names, at, line.size())) return use;
  auto match = context.units.match(line, at);
  if (!match.unit.valid()) return std::nullopt;
  at += match.tokens;
  if (line.is_word(at, "of")) ++at;
  return find_use(names, at, line.size());
}

bool FormLine::is_amount(std::size_t first, std::size_t last) const {
  return use_of_amount(line_.part(first, last), context_).has_value();
}

std::optional<std::vector<std::pair<std::size_t, std::size_t>>> FormLine::listed_uses(
    std::size_t first, std::size_t last, WordList dividers) const {
  std::vector<std::pair<std::size_t, std::size_t>> stretches;
  for (std::size_t i = first; i <= last; ++i) {
    bool divides = i == last || line_.kind(i) == TokenKind::comma || is_any(i, dividers);
    if (!divides) continue;
    if (i > first && !is_use(first, i)) return std::nullopt;
    if (i > first) stretches.emplace_back(first, i);
    first = i + 1;
  }
  return stretches;
}

std::optional<std::size_t> FormLine::unit_at(std::size_t i) const {
  if (i >= end_ || line_.kind(i) != TokenKind::word) return std::nullopt;
  auto match = context_.units.match(line_, i);
  if (!match.unit.valid()) return std::nullopt;
  Kind kind = context_.units[match.unit].kind;
  if (kind != Kind::volume && kind != Kind::count && kind != Kind::mass) return std::nullopt;
  return i + match.tokens;
}

std::optional<std::string_view> FormLine::number_of(std::string_view word) {
  static const std::map<std::string_view, std::string_view> numbers = {
      {"one", "1"},     {"two", "2"},    {"three", "3"},     {"four", "4"},  {"five", "5"},
      {"six", "6"},     {"seven", "7"},  {"eight", "8"},     {"nine", "9"},  {"ten", "10"},
      {"twelve", "12"}, {"half", "1/2"}, {"quarter", "1/4"}, {"couple", "2"}};
  auto found = numbers.find(word);
  if (found == numbers.end()) return std::nullopt;
  return found->second;
}

}  // namespace gill::analysis

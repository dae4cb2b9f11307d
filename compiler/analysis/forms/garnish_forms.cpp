#include "analysis/forms/form_matcher.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;

Match FormMatcher::top_with() const {
  auto next = after_any(
      0, {"top with", "top up with", "top off with", "top w/", "top up w/", "fill with", "fill up with",
          "fill w/", "fill the glass with", "fill glass with", "fill to the top with", "finish with",
          "lengthen with", "charge with", "top up", "topped with", "topped up with", "finish w/"});
  if (!next) {
    // `tonic water to top`: the name first.
    std::size_t name_end = 1;
    while (name_end < end_ && !is(name_end, "to")) ++name_end;
    auto last = after_any(name_end, {"to top", "to top up", "to fill", "to finish"});
    if (!last || *last != comma_or_end(0) || begins_quantity(0) || !is_use(0, name_end)) return std::nullopt;
    Reading top = say("top");
    top.copy(line_, 0, name_end);
    with_rest(top, line_, *last, end_);
    return Readings{top};
  }
  if (*next >= end_) return std::nullopt;
  std::size_t first = skip_article(*next), stop = comma_or_end(first);
  if (ice_named(first, stop)) return std::nullopt;
  if (after(0, "top with") && is_use(first, stop)) return std::nullopt;  // the language's own
  // `a splash of soda water`, `60 ml soda water`.
  if (auto unit = unit_at(first)) {
    std::size_t name = is(*unit, "of") ? *unit + 1 : *unit;
    if (is_use(name, stop)) {
      Reading top = say("top 1");
      top.copy(line_, first, *unit).copy(line_, name, end_);
      return Readings{top};
    }
  }
  if (!is_use(first, stop) && !begins_quantity(first)) return std::nullopt;
  Reading top = say("top");
  top.copy(line_, first, end_);
  return Readings{top};
}

Match FormMatcher::rinse_with() const {
  std::size_t stop = comma_or_end(0);
  auto next = after_any(
      0, {"rinse with", "rinse glass with", "rinse the glass with", "rinse a glass with", "rinse w/",
          "rinse coupe with", "coat the glass with", "coat glass with", "wash the glass with"});
  if (next && *next < stop) {
    Reading rinse = say("rinse");
    rinse.copy(line_, *next, end_);
    return Readings{rinse};
  }
  if (stop >= 2 && is_any(stop - 1, {"rinse", "wash", "rinsed"}) && is_use(0, stop - 1) && !is_use(0, stop)) {
    Reading rinse = say("rinse");
    rinse.copy(line_, 0, stop - 1);
    with_rest(rinse, line_, stop, end_);
    return Readings{rinse};
  }
  // `5 ml absinthe, to rinse`.
  if (stop < end_ &&
      after_any(stop + 1, {"to rinse", "rinse", "rinsed", "as a rinse", "for rinsing", "rinse the glass"}) ==
          end_ &&
      is_amount(0, stop)) {
    Reading rinse = say("rinse");
    rinse.copy(line_, 0, stop);
    return Readings{rinse};
  }
  return std::nullopt;
}

Match FormMatcher::rim_with() const {
  std::size_t stop = comma_or_end(0);
  bool half = false;
  std::size_t first = 0, last = stop;
  if (auto next =
          after_any(0, {"half rim with", "half rim of", "half rim", "rim half with",
                        "rim half the glass with", "half-rim", "rim half glass with", "half-rim with"})) {
    half = true;
    first = *next;
  } else if (auto full =
                 after_any(0, {"rim with", "rim glass with", "rim the glass with", "rim w/", "rim of"})) {
    first = *full;
  } else if (stop >= 3 && is(stop - 1, "rim") && is(stop - 2, "the")) {
    last = stop - 2;
  } else if (stop >= 2 && is(stop - 1, "rim")) {
    last = stop - 1;
    if (is(0, "half")) half = true, first = 1;
    if (last >= 2 && is(last - 1, "half")) half = true, --last;
  } else {
    return std::nullopt;
  }
  if (first >= last || !is_use(first, last)) return std::nullopt;
  Reading rim = say("rim");
  rim.copy(line_, first, last);
  if (half) rim.text += ", half";
  with_rest(rim, line_, stop, end_);
  return Readings{rim};
}

Match FormMatcher::no_garnish() const {
  if (auto next = after_any(0, {"no garnish", "without garnish", "garnish nothing"}); next && *next == end_)
    return Readings{say("garnish none")};
  return std::nullopt;
}

Match FormMatcher::express() const {
  if (!is_any(0, {"express", "flame"})) return std::nullopt;
  bool flamed = is(0, "flame");
  std::size_t first = skip_article(1), last = first;
  while (last < end_ && line_.kind(last) != TokenKind::comma &&
         !is_any(last, {"and", "over", "on", "then", "oil", "oils", "&"}))
    ++last;
  if (last == first || (flamed && last == end_)) return std::nullopt;
  std::size_t rest = last;
  if (is_any(rest, {"oil", "oils"})) ++rest;
  if (auto over = after_any(rest, {"over the top", "over the drink", "over top", "over drink", "over glass",
                                   "over the glass", "over", "on top"}))
    rest = *over;
  if (rest < end_ && line_.kind(rest) == TokenKind::comma) ++rest;
  bool discard = false;
  if (auto gone = after_any(
          rest, {"and discard", "then discard", "discard", "& discard", "and throw away", "and discard it"}))
    discard = true, rest = *gone;
  bool inside = false;
  if (auto kept = after_any(rest, {"and drop in", "and insert", "and garnish", "drop in", "and drop it in"}))
    inside = true, rest = *kept;
  if (rest != end_) return std::nullopt;
  Reading garnish = say("garnish");
  if (is_use(first, last))
    garnish.copy(line_, first, last);
  else
    return std::nullopt;
  if (flamed && !discard && !inside) return std::nullopt;
  garnish.text += flamed ? ", flamed" : ", expressed";
  if (discard) garnish.text += " and discarded";
  return Readings{garnish};
}

Match FormMatcher::grate() const {
  std::size_t stop = comma_or_end(0);
  std::size_t first = 1, last = stop;
  bool leads = is_any(0, {"grate", "grated", "dust", "shave"});
  if (!leads || stop < 2) return std::nullopt;
  std::string how = is_any(0, {"dust"}) ? "dusted over" : is(0, "shave") ? "shaved over" : "grated over";
  if (is_any(1, {"with", "fresh", "over", "some"})) ++first;
  for (std::size_t i = first; i < stop; ++i)
    if (is_any(i, {"over", "on", "onto"})) {
      last = i;
      break;
    }
  if (!is_use(first, last)) return std::nullopt;
  Reading garnish = say("garnish");
  garnish.copy(line_, first, last);
  garnish.text += ", " + how;
  with_rest(garnish, line_, stop, end_);
  return Readings{garnish};
}

Match FormMatcher::float_amount() const {
  std::size_t stop = comma_or_end(0);
  if (stop < end_ && is_amount(0, stop)) {
    if (after_any(stop + 1, {"float", "floated", "floated on top", "as a float", "float on top", "to float",
                             "on top as a float"}) == end_) {
      Reading floated = say("float");
      floated.copy(line_, 0, stop);
      return Readings{floated};
    }
    if (after_any(stop + 1, {"layered", "layer", "to layer"}) == end_) {
      Reading layered = say("layer");
      layered.copy(line_, 0, stop);
      return Readings{layered};
    }
    if (after_any(stop + 1, {"to top", "top", "top up", "on top", "to finish"}) == end_) {
      Reading top = say("top");
      top.copy(line_, 0, stop);
      return Readings{top};
    }
  }
  if (stop < end_ && is_amount(0, stop) &&
      after_any(stop + 1, {"muddled", "muddle", "lightly muddled", "gently muddled"}) == end_) {
    Reading amount;
    amount.copy(line_, 0, stop);
    Readings lines{amount};
    if (!state_.has_muddled) lines.push_back(say("muddle"));
    return lines;
  }
  if (verb_at(0, Verb::float_) && is(1, "of")) {
    Reading floated = say("float");
    floated.copy(line_, 2, end_);
    return Readings{floated};
  }
  return std::nullopt;
}

std::optional<std::size_t> FormMatcher::garnish_note(std::size_t i, std::string& note, Verb& verb) const {
  struct Note {
    std::string_view words, note;
  };
  static constexpr std::array<Note, 24> notes = {{{"expressed and discarded", "expressed and discarded"},
                                                  {"express and discard", "expressed and discarded"},
                                                  {"expressed & discarded", "expressed and discarded"},
                                                  {"express & discard", "expressed and discarded"},
                                                  {"expressed and dropped in", "expressed and dropped in"},
                                                  {"expressed over the top", "expressed"},
                                                  {"expressed over", "expressed"},
                                                  {"expressed", "expressed"},
                                                  {"express", "expressed"},
                                                  {"squeezed in", "squeezed in"},
                                                  {"squeezed", "squeezed in"},
                                                  {"dropped in", "dropped in"},
                                                  {"grated over", "grated over"},
                                                  {"grated on top", "grated over"},
                                                  {"grated", "grated over"},
                                                  {"on the foam", "on the foam"},
                                                  {"on top", "on top"},
                                                  {"on the top", "on top"},
                                                  {"on a pick", "on a pick"},
                                                  {"on pick", "on a pick"},
                                                  {"on the rim", "on the rim"},
                                                  {"on rim", "on the rim"},
                                                  {"garnish", ""},
                                                  {"to garnish", ""}}};
  if (auto next = after_any(i, {"on the side", "on side"})) {
    verb = Verb::side;
    return next;
  }
  std::optional<std::size_t> best;
  for (const auto& known : notes)
    if (auto next = after(i, known.words); next && (!best || *next > *best)) {
      best = next;
      note = known.note;
    }
  return best;
}

bool FormMatcher::is_garnish_by_kind(std::size_t first, std::size_t last) const {
  auto use = find_use(LineReader(line_, context_), first, last);
  if (!use) return false;
  if (use->item.valid()) return true;
  StockKind kind = context_.specs[use->stock].kind;
  std::string name = base::fold_name(context_.specs[use->stock].head.name);
  for (std::string_view item :
       {" twist", " peel", " zest", " wedge", " wheel", " slice", " leaf", " sprig", " ribbon"})
    if (name.ends_with(item)) return true;
  return state_.has_step && (kind == StockKind::garnish || kind == StockKind::fruit ||
                             kind == StockKind::herb || kind == StockKind::spice);
}

Match FormMatcher::garnish_list() const {
  Verb verb = Verb::garnish;
  std::size_t first = 0;
  bool named = false;
  for (Verb one : {Verb::garnish, Verb::side})
    if (auto at = verb_at(0, one)) {
      verb = one;
      first = is_any(*at, {"with", "w/"}) ? *at + 1 : *at;
      named = true;
    }
  Readings lines;
  std::size_t begin = first;
  bool noted = false;
  for (std::size_t i = first; i <= end_; ++i) {
    bool divides = i == end_ || line_.kind(i) == TokenKind::comma || is_any(i, {"and", "&", "plus", "+"});
    if (!divides) continue;
    std::string note;
    Verb own = verb;
    if (i == begin) {
      begin = i + 1;
      continue;
    }
    // `expressed and discarded` holds an `and` of its own.
    if (auto whole = garnish_note(begin, note, own);
        whole && !lines.empty() && (*whole == end_ || line_.kind(*whole) == TokenKind::comma)) {
      if (!note.empty()) lines.back().text += ", " + note;
      i = *whole;
      begin = i + 1;
      noted = true;
      continue;
    }
    std::size_t last = i, stop = i;
    begin = skip_article(begin);
    for (std::size_t k = begin + 1; k <= i && last == i; ++k)
      if (auto next = garnish_note(k, note, own); next && (*next >= i)) {
        last = k;
        stop = *next;
        noted = true;
      }
    if (is_any(begin, {"flamed", "torched", "flaming", "charred"}) && is_use(begin + 1, last)) {
      note = word(begin);
      noted = true;
      ++begin;
    } else if (is_any(begin, {"long", "big", "large", "small", "wide", "thin", "fresh", "spent", "little"}) &&
               !is_use(begin, last) && is_use(begin + 1, last)) {
      if (note.empty()) note = word(begin);
      noted = true;
      ++begin;
    }
    if (last <= begin || !(is_use(begin, last) || is_amount(begin, last))) return std::nullopt;
    if (!named && last == i && !is_garnish_by_kind(begin, last)) return std::nullopt;
    if (!named && begins_quantity(begin) && last == i) return std::nullopt;
    Reading one = say(info(own).name);
    one.copy(line_, begin, last);
    if (!note.empty()) one.text += ", " + note;
    lines.push_back(one);
    i = std::max(i, stop);
    begin = i + 1;
  }
  if (lines.empty() || (named && lines.size() < 2 && !noted)) return std::nullopt;
  return lines;
}

Match FormMatcher::counted_last() const {
  std::size_t stop = comma_or_end(0);
  for (Verb verb : {Verb::garnish, Verb::side}) {
    auto at = verb_at(0, verb);
    if (!at || stop < *at + 2 || line_.kind(stop - 1) != TokenKind::number || !is_use(*at, stop - 1))
      continue;
    Reading garnish = say(info(verb).name);
    garnish.copy(line_, stop - 1, stop).copy(line_, *at, stop - 1);
    with_rest(garnish, line_, stop, end_);
    return Readings{garnish};
  }
  return std::nullopt;
}

Match FormMatcher::beside() const {
  std::size_t stop = end_;
  // `side shot of prosecco`: the measure is how it is poured.
  if (auto at = verb_at(0, Verb::side)) {
    std::size_t first = skip_article(*at);
    auto unit = unit_at(first);
    if (!unit || !is(*unit, "of") || !is_use(*unit + 1, comma_or_end(*unit))) return std::nullopt;
    Reading side = say("side");
    side.copy(line_, *unit + 1, comma_or_end(*unit));
    side.text += ", \"" + base::collapse_space(line_.raw(first, *unit)) + "\"";
    with_rest(side, line_, comma_or_end(*unit), end_);
    return Readings{side};
  }
  // `salt and lime on the side`: all of them.
  for (std::size_t i = 1; i < end_ && stop == end_; ++i)
    if (after_any(i, {"on the side", "on side", "at the side"}) == end_) stop = i;
  if (stop == end_ || match_verb(line_, 0)) return std::nullopt;
  auto stretches = listed_uses(0, stop, {"and", "&", "plus", "+"});
  if (!stretches || stretches->size() < 2) return std::nullopt;
  Readings lines;
  for (const auto& [begin, last] : *stretches) lines.push_back(say("side").copy(line_, begin, last));
  return lines;
}

}  // namespace gill::analysis

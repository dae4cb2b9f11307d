#include "analysis/forms/form_matcher.h"

#include <algorithm>
#include <array>

#include "analysis/remark.h"
#include "base/any_of.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;

Match FormMatcher::top_with() const {
  // `ginger beer on top`: what is poured lies on nothing; cream does.
  for (std::size_t i = 1; i < comma_or_end(0); ++i) {
    if (!after_any(i, {"on top", "over the top", "over top"}) || begins_quantity(0) || match_verb(line_, 0))
      continue;
    auto use = find_use(LineReader(line_, context_), 0, i);
    if (after_any(i, {"on top", "over the top", "over top"}) != comma_or_end(0) || !use || use->item.valid())
      break;
    const auto& stock = context_.specs[use->stock];
    bool is_long = stock.kind == StockKind::sparkling || stock.kind == StockKind::beer ||
                   stock.kind == StockKind::mixer || stock.kind == StockKind::juice;
    if (stock.is_prep || !is_long || stock.effective_form() != Form::liquid) break;
    Reading top = say("top").copy(line_, 0, i);
    return Readings{with_rest(top, line_, comma_or_end(0), end_)};
  }
  auto next = after_any(0, {"top with",
                            "top up with",
                            "top off with",
                            "top w/",
                            "top up w/",
                            "fill with",
                            "fill up with",
                            "fill w/",
                            "fill the glass with",
                            "fill glass with",
                            "fill to the top with",
                            "finish with",
                            "lengthen with",
                            "charge with",
                            "top up",
                            "topped with",
                            "topped up with",
                            "finish w/",
                            "complete with",
                            "finish off with",
                            "topped off with",
                            "complete up with"});
  if (auto top = next ? std::nullopt : verb_at(0, Verb::top)) {
    // `top slowly with prosecco`
    std::size_t with = *top;
    while (with < end_ && is_adverb(word(with))) ++with;
    if (with > *top && is(with, "with")) next = with + 1;
  }
  if (!next) {
    // `tonic water to top`: the name first.
    std::size_t name_end = 1;
    while (name_end < end_ && !is_any(name_end, {"to", "full", "until", "up", "filled"})) ++name_end;
    auto last = after_any(name_end, {"to top", "to top up", "to fill", "to finish", "to taste", "to the top",
                                     "to the brim", "to fill up", "to lengthen", "full up", "until full",
                                     "up to full", "to full", "filled up"});
    // `soda slowly to the top`
    if (last)
      while (name_end > 1 && is_adverb(word(name_end - 1))) --name_end;
    // `soda top`, `soda top, about 80 ml`, `prosecco on top, 60 ml`
    std::size_t comma = comma_or_end(0);
    bool is_measured = comma < end_ && (begins_quantity(comma + 1) || is(comma + 1, "about"));
    if (!last && comma > 1 && is(comma - 1, "top") && (comma == end_ || is_measured)) {
      last = comma;
      name_end = is(comma - 2, "on") && comma > 2 ? comma - 2 : comma - 1;
      if (name_end == comma - 2 && comma == end_) return std::nullopt;
    }
    if (!last || *last != comma_or_end(0) || begins_quantity(0) || !is_use(0, name_end)) return std::nullopt;
    // Salt and mint are not poured.
    auto use = find_use(LineReader(line_, context_), 0, name_end);
    if (use && !context_.specs[use->stock].is_prep &&
        context_.specs[use->stock].effective_form() != Form::liquid)
      return std::nullopt;
    Reading top = say("top");
    top.copy(line_, 0, name_end);
    with_rest(top, line_, *last, end_);
    return Readings{top};
  }
  if (*next >= end_) return std::nullopt;
  std::size_t first = skip_article(*next), stop = comma_or_end(first);
  if (ice_named(first, stop)) return std::nullopt;
  // `top with the stout`: the stout that stands above, which would be poured twice.
  if (is(*next, "the") && !begins_quantity(first) && poured_already(first, stop)) return std::nullopt;
  if (after(0, "top with") && first == *next && is_use(first, stop))
    return std::nullopt;  // the language's own
  // `top with champagne in a flute`, `top with soda over ice`: where it stands is a line of its own.
  for (std::size_t i = first + 1; i < stop; ++i) {
    if (!is_any(i, {"in", "over"})) continue;
    Readings lines;
    FormMatcher head(line_.part(0, stop), context_, in_prep_, state_);
    if (!is_use(first, i) || !head.vessel(i, lines) || lines.empty()) continue;
    Reading top = say("top");
    top.copy(line_, first, i);
    with_rest(top, line_, stop, end_);
    lines.push_back(top);
    return lines;
  }
  // `top up with chilled champagne`: how cold it is, is read of it next.
  if (is_any(first, {"cold", "chilled", "hot", "boiling", "iced", "ice-cold"}) && !is_use(first, stop) &&
      is_use(first + 1, stop)) {
    Reading top = say("top");
    return Readings{top.copy(line_, first, end_)};
  }
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

Match FormMatcher::poured_last() const {
  // `top with soda, 60 ml`: how much, behind the name.
  std::size_t stop = comma_or_end(0), last = comma_or_end(stop + 1);
  // `top prosecco 60 ml`
  if (auto top = verb_at(0, Verb::top); top && stop == end_ && stop > *top + 2 && !begins_quantity(*top)) {
    std::size_t name = is(*top, "with") ? *top + 1 : *top;
    for (std::size_t i = name + 1; i + 1 < stop; ++i)
      if (line_.kind(i) == TokenKind::number && unit_at(i + 1) == stop && is_use(name, i)) {
        Reading pour = say("top");
        return Readings{pour.copy(line_, i, stop).copy(line_, name, i)};
      }
  }
  bool is_about = is_any(stop + 1, {"about", "approx", "roughly", "around"});
  std::size_t measured = is_about ? stop + 2 : stop + 1;
  // `60 ml or so`
  std::size_t end = end_;
  for (std::size_t i = measured + 2; i < end_ && end == end_; ++i)
    if (after_any(i, {"or so", "or thereabouts", "approx", "ish", "max"}) == end_) end = i, is_about = true;
  if (stop >= end_ || last != end_ || !begins_quantity(measured)) return std::nullopt;
  for (Verb verb : {Verb::top, Verb::float_, Verb::layer}) {
    auto at = verb_at(0, verb);
    if (!at) continue;
    std::size_t name = is_any(*at, {"with", "up"}) ? *at + 1 : *at;
    if (is(name, "with")) ++name;
    std::size_t unit = measured + 1;
    auto measure = unit_at(unit);
    bool warm = is_any(name, {"hot", "boiling", "cold", "chilled"}) && is_use(name + 1, stop);
    if (!measure || *measure != end || !(is_use(name, stop) || warm)) return std::nullopt;
    Reading pour = say(info(verb).name);
    if (is_about) pour.say("about");
    return Readings{pour.copy(line_, measured, end).copy(line_, name, stop)};
  }
  return std::nullopt;
}

Match FormMatcher::rinse_with() const {
  std::size_t stop = comma_or_end(0);
  auto next = after_any(
      0, {"rinse with", "rinse glass with", "rinse the glass with", "rinse a glass with", "rinse w/",
          "rinse coupe with", "rinse of", "quick rinse of", "a rinse of", "rinse with a little", "rinse w",
          "coat the glass with", "coat glass with", "wash the glass with"});
  if (next && *next < stop) {
    Reading rinse = say("rinse");
    rinse.copy(line_, *next, end_);
    return Readings{rinse};
  }
  // `absinthe rinse on a chilled rocks glass`
  for (std::size_t i = 1; i + 1 < stop; ++i) {
    if (!is_any(i, {"rinse", "wash"}) || !is_use(0, i) || !is_any(i + 1, {"on", "in", "into", "to", "of"}))
      continue;
    Readings lines{say("rinse").copy(line_, 0, i)};
    std::size_t glass = skip_article(i + 2);
    if (is(glass, "glass") && glass + 1 == stop && stop == end_) return lines;
    FormMatcher place(line_.part(i + 2, stop), context_, in_prep_, state_);
    auto where = place.bare_glass();
    if (!where || stop != end_) {
      FormMatcher bare(line_.part(glass, stop), context_, in_prep_, state_);
      where = bare.bare_glass();
    }
    if (!where || stop != end_) return std::nullopt;
    for (auto& one : *where) lines.push_back(std::move(one));
    return lines;
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

Match FormMatcher::rimmed_glass() const {
  // `coupe rimmed with salt`, `coupe with a salt rim`, `salt-rimmed coupe`, `half salt-rimmed rocks`
  std::size_t stop = comma_or_end(0);
  auto glass_of = [&](std::size_t first, std::size_t last) -> std::optional<Reading> {
    bool chilled = is_any(first, {"chilled", "cold"}) && first + 1 < last;
    if (chilled) ++first;
    if (last > first + 1 && word(last - 1) == "glass" && !is_name(symbols::NameSpace::glass, first, last))
      --last;
    if (!is_name(symbols::NameSpace::glass, first, last)) return std::nullopt;
    Reading glass = implied("glass");
    glass.copy(line_, first, last);
    if (chilled) glass.text += ", chilled";
    return glass;
  };
  auto rim_of = [&](std::size_t first, std::size_t last, bool half) -> std::optional<Reading> {
    if (!is_use(first, last)) return std::nullopt;
    Reading rim = say("rim").copy(line_, first, last);
    if (half) rim.text += ", half";
    return rim;
  };
  for (std::size_t i = 1; i + 1 < stop; ++i) {
    std::size_t first = 0, last = stop;
    bool half = false;
    if (auto with = after_any(i, {"rimmed with", "rimmed in", "with rim of", "with a rim of",
                                  "half rimmed with", "half-rimmed with"})) {
      first = *with;
      half = is_any(i, {"half", "half-rimmed"});
    } else if (is(i, "with") && is(stop - 1, "rim")) {
      first = skip_article(i + 1);
      half = is(first, "half") || is(stop - 2, "half");
      if (is(first, "half")) ++first;
      last = is(stop - 2, "half") ? stop - 2 : stop - 1;
    } else {
      continue;
    }
    auto glass = glass_of(skip_article(0), i);
    auto rim = first < last ? rim_of(first, last, half) : std::nullopt;
    if (!glass || !rim) return std::nullopt;
    with_rest(*rim, line_, stop, end_);
    return Readings{*glass, *rim};
  }
  // `salted highball`, `sugared coupe`
  if (std::size_t plain = is(0, "half") ? 1 : 0; is_any(plain, {"salted", "sugared"}) && !state_.has_rim)
    if (auto glass = glass_of(plain + 1, stop)) {
      Reading rim = say(is(plain, "salted") ? "rim salt" : "rim sugar");
      if (plain > 0) rim.text += ", half";
      return Readings{with_rest(*glass, line_, stop, end_), rim};
    }
  bool half = is(0, "half");
  std::size_t how = half ? 1 : 0;
  if (const std::string& rimmed = word(how);
      rimmed.ends_with("-rimmed") && how + 1 < stop && !is(how, "half-rimmed")) {
    std::string name = rimmed.substr(0, rimmed.size() - std::string_view("-rimmed").size());
    auto glass = glass_of(how + 1, stop);
    if (!glass || !context_.names.find(symbols::NameSpace::stock, name).valid()) return std::nullopt;
    Reading rim = say("rim").say(name);
    if (half) rim.text += ", half";
    return Readings{with_rest(*glass, line_, stop, end_), rim};
  }
  return std::nullopt;
}

Match FormMatcher::misted() const {
  // `absinthe mist in the glass`, `spritz of absinthe over`, `2 sprays absinthe`
  std::size_t stop = comma_or_end(0);
  auto where = [&](std::size_t i) {
    return i == stop ||
           after_any(i, {"in glass", "in the glass", "over", "over top", "over the top", "on top",
                         "over the drink", "over drink", "to finish", "on glass", "the glass", "glass",
                         "to the glass", "around the glass", "inside the glass"}) == stop;
  };
  for (std::size_t i = 1; i < stop; ++i) {
    if (!is_any(i, {"mist", "spritz", "spray", "misted", "sprayed", "spritzed"}) || !is_use(0, i) ||
        !where(i + 1))
      continue;
    auto use = find_use(LineReader(line_, context_), 0, i);
    if (!use || use->item.valid() ||
        (!context_.specs[use->stock].is_prep && context_.specs[use->stock].effective_form() != Form::liquid))
      return std::nullopt;
    Reading mist = say("mist 1").copy(line_, 0, i);
    return Readings{with_rest(mist, line_, stop, end_)};
  }
  std::size_t first = skip_article(0);
  bool counted = line_.kind(0) == TokenKind::number;
  if (counted) first = 1;
  if (!is_any(first, {"mist", "spritz", "spray", "sprays", "spritzes", "mists"}) || is_use(0, stop))
    return std::nullopt;
  std::size_t name = is_any(first + 1, {"of", "with"}) ? first + 2 : first + 1;
  for (std::size_t last = stop; last > name; --last) {
    auto use = find_use(LineReader(line_, context_), name, last);
    if (!use || use->item.valid() || !where(last)) continue;
    if (!context_.specs[use->stock].is_prep && context_.specs[use->stock].effective_form() != Form::liquid)
      continue;
    if (first == 0 && name == 1) return std::nullopt;  // `mist absinthe` is asked how much
    Reading mist = say("mist");
    if (counted)
      mist.copy(line_, 0, 1);
    else
      mist.say("1");
    mist.copy(line_, name, last);
    return Readings{with_rest(mist, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::put_on() const {
  // `drop a cherry in the bottom`, `place a mint sprig on top`, `tuck in a mint sprig`
  auto next =
      after_any(0, {"drop in", "drop", "place", "lay", "tuck in", "tuck", "hang", "perch", "stick in",
                    "stick", "balance", "rest", "float", "finish with", "pop in", "pop", "add", "put"});
  if (!next || begins_quantity(*next) || (is(0, "rest") && !is_any(*next, {"a", "an", "the"})))
    return std::nullopt;
  std::size_t first = skip_article(*next), stop = comma_or_end(first);
  while (first + 1 < stop && is_size(word(first)) && !is_use(first, first + 1)) ++first;
  // `float pineapple slices and mint`: both of them.
  if (auto both =
          is(0, "float") && !is_use(first, stop) ? listed_uses(first, stop, {"and", "&", "+"}) : std::nullopt;
      both && both->size() > 1) {
    Readings lines;
    for (const auto& [begin, last] : *both) {
      if (!is_garnish_by_kind(begin, last)) return std::nullopt;
      lines.push_back(say("garnish").copy(line_, begin, last).say(", \"floated\""));
    }
    return lines;
  }
  for (std::size_t last = stop; last > first; --last) {
    if (!is_garnish_by_kind(first, last)) continue;
    auto place = last == stop ? std::optional(stop) : place_at(last);
    if (!place && is_any(last, {"in", "on"}) && last + 1 == stop) place = stop;
    bool is_dropped = is_any(0, {"float", "drop", "tuck", "hang", "perch", "pop", "stick", "lay", "balance"});
    if (place != stop || (last == stop && !is_dropped && !is(0, "finish"))) return std::nullopt;
    if (!is_past_mixing() && !state_.has_setting && is_any(0, {"add", "put", "place", "pop"}))
      return std::nullopt;
    Reading garnish = say("garnish").copy(line_, first, last);
    if (last < stop) garnish.text += ", \"" + base::collapse_space(line_.raw(last, stop)) + "\"";
    return Readings{with_rest(garnish, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::stuck_with() const {
  // `lemon slice stuck with cloves`, `1 orange studded with 10 cloves`
  std::size_t stop = comma_or_end(0);
  for (std::size_t i = 1; i + 2 < stop; ++i) {
    if (!is_any(i, {"stuck", "studded", "spiked", "pierced", "skewered", "pinned"}) ||
        !is_any(i + 1, {"with", "in", "on"}))
      continue;
    std::size_t what = skip_article(i + 2);
    if (!is_use(what, stop) && !is_amount(what, stop)) return std::nullopt;
    Reading base_thing, stuck;
    bool counted = line_.kind(0) == TokenKind::number;
    if (counted && is_amount(0, i) && !is_past_mixing()) {
      base_thing.copy(line_, 0, i);
      with_rest(base_thing, line_, stop, end_);
      if (!begins_quantity(what)) return std::nullopt;  // how many, nobody says
      return Readings{base_thing, stuck.copy(line_, what, stop)};
    }
    auto thing = garnish_thing(counted ? 0 : skip_article(0), i, Verb::garnish);
    if (!thing) return std::nullopt;
    with_rest(*thing, line_, stop, end_);
    return Readings{*thing, say("garnish").copy(line_, what, stop)};
  }
  return std::nullopt;
}

Match FormMatcher::rim_with() const {
  std::size_t stop = comma_or_end(0);
  bool half = false;
  std::size_t first = 0, last = stop;
  Readings lines;
  if (auto named = rim_of_glass(stop, lines, half)) {
    first = *named;
  } else if (is_any(0, {"salt", "sugar"}) && after_any(1, {"the rim", "rim", "half the rim", "half rim",
                                                           "the glass", "half the glass"}) == stop) {
    half = is(1, "half");
    last = 1;
  } else if (auto next = after_any(
                 0, {"half a salted rim of", "half rim with", "half rim of", "half rim", "rim half with",
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
  auto add_rim = [&](std::size_t begin, std::size_t end) {
    lines.push_back(say("rim").copy(line_, begin, end));
    if (half) lines.back().text += ", half";
  };
  // `rim sugar, toasted sesame seed`: of both.
  if (stop < end_ && first < last && is_use(first, last) && is_use(stop + 1, comma_or_end(stop + 1))) {
    add_rim(first, last);
    add_rim(stop + 1, comma_or_end(stop + 1));
    with_rest(lines.back(), line_, comma_or_end(stop + 1), end_);
    return lines;
  }
  // `salt + chilli rim`: of both.
  if (auto both = first < last && !is_use(first, last) ? listed_uses(first, last, {"and", "&", "+", "n"})
                                                       : std::nullopt;
      both && both->size() > 1) {
    for (const auto& [begin, end] : *both) add_rim(begin, end);
    with_rest(lines.back(), line_, stop, end_);
    return lines;
  }
  if (first >= last || !is_use(first, last)) return std::nullopt;
  add_rim(first, last);
  with_rest(lines.back(), line_, stop, end_);
  return lines;
}

/// `rim half the coupe with salt`: the glass as an implied line; where the name of what goes on it begins.
std::optional<std::size_t> FormMatcher::rim_of_glass(std::size_t stop, Readings& lines, bool& half) const {
  if (!is(0, "rim")) return std::nullopt;
  std::size_t with = 1;
  while (with < stop && !is_any(with, {"with", "in"})) ++with;
  std::size_t first = 1;
  half = is(first, "half");
  if (half) ++first;
  if (is(first, "of")) ++first;
  first = skip_article(first);
  std::size_t last = with;
  if (last > first + 1 && word(last - 1) == "glass" && !is_name(symbols::NameSpace::glass, first, last))
    --last;
  if (with >= stop || !is_name(symbols::NameSpace::glass, first, last)) return half = false, std::nullopt;
  Reading glass = implied("glass");
  lines.push_back(glass.copy(line_, first, last));
  return with + 1;
}

Match FormMatcher::no_garnish() const {
  if (auto next =
          after_any(0, {"no garnish", "without garnish", "garnish nothing", "no garn", "garnish free",
                        "ungarnished", "no garnish needed", "garnish not needed", "no garnish required",
                        "no garnish please", "no garnish at all", "nothing on top", "ng", "garnish n/a",
                        "garnish nil", "garnish na", "garnish no", "garnish -", "garnish without"});
      next && *next == end_)
    return Readings{say("garnish none")};
  // `no straw`: a word to whoever carries it.
  if (after_any(0, {"no straw", "no straws", "without straw", "without a straw", "no plastic",
                    "no napkin"}) == end_)
    return Readings{say("serve").copy(line_, 0, end_)};
  return std::nullopt;
}

Match FormMatcher::express() const {
  // `lemon oils over the top, discard peel`
  for (std::size_t i = 1; i < comma_or_end(0); ++i) {
    if (!is_any(i, {"oil", "oils"}) || is_use(0, i + 1)) continue;
    auto use = find_use(LineReader(line_, context_), 0, i);
    if (!use || context_.specs[use->stock].kind != StockKind::fruit || begins_quantity(0)) break;
    std::size_t rest = i + 1;
    if (auto over =
            after_any(rest, {"over the top", "over the drink", "over top", "over drink", "over the glass",
                             "over", "on top", "expressed", "expressed over", "only"}))
      rest = *over;
    if (rest < end_ && line_.kind(rest) == TokenKind::comma) ++rest;
    bool gone = false;
    if (auto thrown =
            after_any(rest, {"discard peel", "discard the peel", "discard", "discarded", "bin the peel",
                             "peel discarded", "discard twist", "and discard", "no peel"}))
      gone = true, rest = *thrown;
    if (rest != end_) return std::nullopt;
    Reading oils = say("garnish").copy(line_, 0, i);
    if (!use->item.valid()) oils.say("twist");
    oils.text += gone ? ", expressed and discarded" : ", expressed";
    return Readings{oils};
  }
  if (!is_any(0, {"express", "flame", "squeeze", "spritz", "twist", "torch"}) || is(1, "of"))
    return std::nullopt;
  bool squeezed = is(0, "squeeze");
  bool flamed = is(0, "flame");
  std::size_t first = skip_article(1), last = first;
  while (last < end_ && line_.kind(last) != TokenKind::comma &&
         !is_any(last, {"and", "over", "on", "then", "oil", "oils", "&", "in", "into"}))
    ++last;
  // `flame NAME` is a step of the language's own.
  if (last == first || (flamed && last == end_ && first == 1)) return std::nullopt;
  std::size_t rest = last;
  if (is_any(rest, {"oil", "oils"})) ++rest;
  if (auto over = after_any(
          rest, {"over the top", "over the drink", "over top", "over drink", "over glass", "over the glass",
                 "over", "on top", "in", "into the drink", "into drink", "into the glass", "over it",
                 "across the top", "over the foam", "over the surface"}))
    rest = *over;
  if (rest < end_ && line_.kind(rest) == TokenKind::comma) ++rest;
  bool discard = false;
  if (auto gone = after_any(
          rest, {"and discard", "then discard", "discard", "& discard", "and throw away", "and discard it"}))
    discard = true, rest = *gone;
  if (auto kept = after_any(rest, {"and drop in", "and insert", "and garnish", "drop in", "and drop it in",
                                   "& drop in", "then drop in", "and drop"}))
    rest = *kept;
  if (rest != end_) return std::nullopt;
  Reading garnish = say("garnish");
  if (is_use(first, last))
    garnish.copy(line_, first, last);
  else
    return std::nullopt;
  garnish.text += flamed           ? ", flamed"
                  : is(0, "torch") ? ", torched"
                  : squeezed       ? ", squeezed in"
                                   : ", expressed";
  if (discard) garnish.text += " and discarded";
  return Readings{garnish};
}

Match FormMatcher::grate() const {
  std::size_t stop = comma_or_end(0);
  std::size_t first = 1, last = stop;
  bool leads =
      is_any(0, {"grate", "grated", "dust", "dusted", "shave", "sprinkle", "dusting", "grating", "shaving"});
  if (!leads || stop < 2) return std::nullopt;
  std::string how = is_any(0, {"dust", "dusted", "dusting"}) ? "dusted over"
                    : is_any(0, {"shave", "shaving"})        ? "shaved over"
                    : is(0, "sprinkle")                      ? "sprinkled over"
                                                             : "grated over";
  while (is_any(first, {"with", "fresh", "over", "some", "of", "a", "little", "top", "the", "plenty", "lots",
                        "bit"}) &&
         !is_use(first, stop))
    ++first;
  for (std::size_t i = first; i < stop; ++i)
    if (is_any(i, {"over", "on", "onto"})) {
      last = i;
      break;
    }
  if (!is_use(first, last)) return std::nullopt;
  Reading garnish = say("garnish");
  // A stick of cinnamon is not dusted.
  if (auto ground = ground_of(first, last))
    garnish.say(*ground);
  else
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
  // `3 slices of cucumber muddled`
  for (std::size_t i = 2; i < stop; ++i)
    if (is_amount(0, i) &&
        after_any(i, {"muddled", "lightly muddled", "gently muddled", "muddled in"}) == stop) {
      Readings lines{Reading().copy(line_, 0, i)};
      with_rest(lines.front(), line_, stop, end_);
      if (!state_.has_muddled) lines.push_back(say("muddle"));
      return lines;
    }
  if (stop < end_ && is_amount(0, stop) &&
      after_any(stop + 1, {"muddled", "muddle", "lightly muddled", "gently muddled"}) == end_) {
    Reading amount;
    amount.copy(line_, 0, stop);
    Readings lines{amount};
    if (!state_.has_muddled) lines.push_back(say("muddle"));
    return lines;
  }
  if (auto next = after_any(0, {"lace with", "laced with", "drizzle", "drizzle with", "drizzle over",
                                "drizzle in", "float on", "finish with a float of", "sink"});
      next && begins_quantity(*next)) {
    std::size_t last = *next;
    while (last < stop && !after_any(last, {"over", "on top", "over the top", "on the top", "on", "in"}))
      ++last;
    if (is_amount(*next, last)) {
      Reading floated = say("float");
      floated.copy(line_, *next, last);
      with_rest(floated, line_, stop, end_);
      return Readings{floated};
    }
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
  static constexpr Note notes[] = {{"expressed and discarded", "expressed and discarded"},
                                   {"express and discard", "expressed and discarded"},
                                   {"expressed & discarded", "expressed and discarded"},
                                   {"express & discard", "expressed and discarded"},
                                   {"expressed then discarded", "expressed and discarded"},
                                   {"spray and throw away", "expressed and discarded"},
                                   {"spray and discard", "expressed and discarded"},
                                   {"expressed and thrown away", "expressed and discarded"},
                                   {"twisted over and discarded", "expressed and discarded"},
                                   {"over and away", "expressed and discarded"},
                                   {"over & away", "expressed and discarded"},
                                   {"expressed and dropped", "expressed and dropped in"},
                                   {"expressed & dropped", "expressed and dropped in"},
                                   {"expressed & dropped in", "expressed and dropped in"},
                                   {"express and drop in", "expressed and dropped in"},
                                   {"express & drop in", "expressed and dropped in"},
                                   {"express and drop", "expressed and dropped in"},
                                   {"express & drop", "expressed and dropped in"},
                                   {"twisted", "expressed"},
                                   {"twisted over the glass", "expressed"},
                                   {"twisted over the drink", "expressed"},
                                   {"twisted over drink", "expressed"},
                                   {"twisted over top", "expressed"},
                                   {"twisted over the top", "expressed"},
                                   {"speared", "on a pick"},
                                   {"dropped in the bottom", "dropped in"},
                                   {"dropped to the bottom", "dropped in"},
                                   {"dropped into the drink", "dropped in"},
                                   {"spray", "expressed"},
                                   {"sprayed", "expressed"},
                                   {"twisted over", "expressed"},
                                   {"no stem", "no stem"},
                                   {"stem on", "stem on"},
                                   {"express then discard", "expressed and discarded"},
                                   {"expressed and dropped in", "expressed and dropped in"},
                                   {"expressed and inserted", "expressed and dropped in"},
                                   {"expressed over the top", "expressed"},
                                   {"expressed over", "expressed"},
                                   {"expressed", "expressed"},
                                   {"express", "expressed"},
                                   {"discarded", "discarded"},
                                   {"discard", "discarded"},
                                   {"squeezed in", "squeezed in"},
                                   {"squeezed", "squeezed in"},
                                   {"squeezed and dropped in", "squeezed in"},
                                   {"squeezed & dropped in", "squeezed in"},
                                   {"squeeze & drop in", "squeezed in"},
                                   {"squeezed & dropped", "squeezed in"},
                                   {"squeeze and drop in", "squeezed in"},
                                   {"dropped in", "dropped in"},
                                   {"drop in", "dropped in"},
                                   {"grated over", "grated over"},
                                   {"grated on top", "grated over"},
                                   {"grated", "grated over"},
                                   {"flamed", "flamed"},
                                   {"torched", "torched"},
                                   {"slapped", "slapped"},
                                   {"spanked", "slapped"},
                                   {"floated", "floated"},
                                   {"float", "floated"},
                                   {"sunk", "dropped in"},
                                   {"floating", "floated"},
                                   {"fanned", "fanned"},
                                   {"studded", ""},
                                   {"stuck", ""},
                                   {"charred", "charred"},
                                   {"drizzle", "drizzled"},
                                   {"skewered", "on a pick"},
                                   {"for garnish", ""},
                                   {"as garnish", ""},
                                   {"garnish", ""},
                                   {"to garnish", ""}};
  if (auto next = after_any(i, {"on the side", "on side"}); next && !is(*next, "of")) {
    verb = Verb::side;
    return next;
  }
  std::optional<std::size_t> best;
  for (const auto& known : notes)
    if (auto next = after(i, known.words); next && (!best || *next > *best)) {
      best = next;
      note = known.note;
    }
  // `spritzed and dropped in`, `torched then discarded`
  if (std::size_t done = i + 1;
      !best && i < end_ && word(i).size() > 4 &&
      (word(i).ends_with("ed") || is_any(i, {"twist", "spritz", "spray", "burn"})) &&
      is_any(done, {"and", "&", "then", "+"})) {
    struct Ending {
      std::string_view words, note;
    };
    static constexpr Ending endings[] = {
        {"dropped in", "dropped in"}, {"drop in", "dropped in"},    {"dropped", "dropped in"},
        {"drop", "dropped in"},       {"in", "dropped in"},         {"inserted", "dropped in"},
        {"placed in", "dropped in"},  {"discarded", "discarded"},   {"discard", "discarded"},
        {"binned", "discarded"},      {"thrown away", "discarded"}, {"throw away", "discarded"},
        {"thrown", "discarded"},      {"removed", "discarded"}};
    for (const auto& ending : endings)
      if (auto next = after(done + 1, ending.words); next && (!best || *next > *best)) {
        best = next;
        note = word(i) + " and " + std::string(ending.note);
      }
  }
  if (auto place = place_at(i); place && (!best || *place > *best)) {
    best = place;
    note = base::lower_ascii(base::collapse_space(line_.raw(i, *place)));
    // The name of a glass would be one.
    bool is_named = note.ends_with("mug") || note.ends_with("cup") || note.ends_with("cream");
    if (is_named) note = "\"" + note + "\"";
    if (note == "on pick" || note == "on a stick" || note == "on stick") note = "on a pick";
    if (note == "on the rim" || note == "on rim") note = "on the rim";
    if (note == "on foam") note = "on the foam";
    if (note == "on the top") note = "on top";
  }
  // `clapped`, `bruised`: what was done to it, and no more.
  constexpr std::size_t shortest_word = 5;
  static constexpr std::string_view of_the_build[] = {
      "juiced",  "zested",  "muddled", "strained", "stirred", "blended", "infused",
      "chilled", "salted",  "sugared", "heated",   "warmed",  "topped",  "mixed",
      "floated", "layered", "added",   "rimmed",   "smoked",  "squeezed"};
  if (!best && i < end_ && is_past_mixing() && !base::is_any_of(std::string_view(word(i)), of_the_build) &&
      word(i).size() >= shortest_word && word(i).ends_with("ed") && is_plain_word(i) &&
      (i + 1 == end_ || line_.kind(i + 1) == TokenKind::comma)) {
    note = word(i);
    best = i + 1;
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
  bool is_set = state_.has_step || (state_.has_setting && !state_.liquids.empty());
  return is_set && (kind == StockKind::garnish || kind == StockKind::fruit || kind == StockKind::herb ||
                    kind == StockKind::spice);
}

std::optional<std::string> FormMatcher::ground_of(std::size_t first, std::size_t last) const {
  auto use = find_use(LineReader(line_, context_), first, last);
  if (!use || use->item.valid() || context_.specs[use->stock].kind != StockKind::spice) return std::nullopt;
  const std::string& name = context_.specs[use->stock].head.name;
  for (std::string_view piece : {" stick", " pod", " berry", ""}) {
    if (!name.ends_with(piece)) continue;
    std::string ground = "ground " + name.substr(0, name.size() - piece.size());
    auto id = context_.names.find(symbols::NameSpace::stock, ground);
    if (!id.valid()) continue;
    const std::string& found = context_.names[id].name;
    return found == name ? std::nullopt : std::optional(found);
  }
  return std::nullopt;
}

/// One thing of a garnish, its words from `first` to `last`: `3 raspberries`, `sprig of mint`, `half a
/// passionfruit`; nothing where they name nothing that is known.
std::optional<Reading> FormMatcher::garnish_thing(std::size_t first, std::size_t last, Verb verb) const {
  Reading one = say(info(verb).name);
  first = skip_article(first);
  // `half a lime`: the half of one is a piece of it.
  bool is_half_moon = unit_at(first) && *unit_at(first) > first + 1;
  if (is(first, "half") && last > first + 1 && !is_half_moon) {
    std::size_t name = is(first + 1, "of") ? first + 2 : first + 1;
    name = skip_article(name);
    auto use = find_use(LineReader(line_, context_), name, last);
    if (use && !use->item.valid()) return one.copy(line_, name, last).say("half");
  }
  if (auto number = first < last ? number_of(word(first)) : std::nullopt;
      number && !is_use(first, last) && !is_half_moon) {
    one.say(*number);
    ++first;
    if (is(first, "of")) ++first;
  } else if (line_.kind(first) == TokenKind::number && first + 1 < last) {
    std::size_t name = first + 1;
    if (is(name, "x")) ++name;
    one.copy(line_, first, first + 1);
    first = name;
    if (!is_use(first, last) && !is_amount(first - 1, last) && !unit_at(first) && !is_size(word(first)))
      return std::nullopt;
  }
  // `sprig of mint`, `2 slices of cucumber`, `big sprig of mint`.
  while (first + 1 < last && is_size(word(first)) && !is_use(first, last)) ++first;
  // What is squeezed in is no garnish, unless the line says so.
  if (line_.is_word(first, "squeeze") && verb == Verb::garnish && !verb_at(0, Verb::garnish))
    return std::nullopt;
  if (auto unit = unit_at(first); unit && is(*unit, "of") && is_use(*unit + 1, last)) {
    const auto& known = context_.units[context_.units.match(line_, first).unit];
    // `half moon of orange`: the item by its own name.
    if (known.is_item_word && *unit > first + 1) return one.copy(line_, *unit + 1, last).say(known.symbol);
    if (known.is_item_word) return one.copy(line_, *unit + 1, last).copy(line_, first, *unit);
    // `dash of bitters`: one of it.
    if (!base::is_digit(one.text.back())) one.say("1");
    return one.copy(line_, first, *unit).copy(line_, *unit + 1, last);
  }
  // `big sprig basil`: the item first.
  if (auto unit = unit_at(first); unit && *unit < last && !is_use(first, last) && !is_half_moon &&
                                  context_.units[context_.units.match(line_, first).unit].is_item_word) {
    auto use = find_use(LineReader(line_, context_), *unit, last);
    if (use && !use->item.valid()) return one.copy(line_, *unit, last).copy(line_, first, *unit);
  }
  // `half moon orange`: the item by its own name.
  if (is_half_moon && !is_use(first, last) && is_use(*unit_at(first), last))
    return one.copy(line_, *unit_at(first), last)
        .say(context_.units[context_.units.match(line_, first).unit].symbol);
  if (is_use(first, last) || (unit_at(first) && is_use(*unit_at(first), last)))
    return one.copy(line_, first, last);
  // `3 dashes aromatic`: bitters.
  auto dash = unit_at(first);
  if (!dash || !is_any(first, {"dash", "dashes", "drop", "drops"}) || *dash >= last) return std::nullopt;
  std::string bitters = base::collapse_space(line_.raw(*dash, last)) + " bitters";
  if (!context_.names.find(symbols::NameSpace::stock, bitters).valid()) return std::nullopt;
  return one.copy(line_, first, last).say("bitters");
}

bool FormMatcher::is_size(std::string_view word) {
  static constexpr std::string_view sizes[] = {"long",  "big",   "large",    "small",  "wide",  "thin",
                                               "fresh", "spent", "little",   "nice",   "thick", "good",
                                               "huge",  "giant", "whole",    "single", "extra", "tall",
                                               "fat",   "mini",  "generous", "few",    "some"};
  return base::is_any_of(word, sizes);
}

/// `orange + lemon slices`: the item word behind the last is for all; where they name a fruit that is cut so.
bool FormMatcher::shares_item(std::size_t first, std::size_t last, std::size_t item_at) const {
  auto item = item_at < end_ ? context_.units.find(word(item_at)) : units::UnitId{};
  if (!item.valid() || !context_.units[item].is_item_word) return false;
  if (base::fold_name(context_.units[item].symbol) == word(item_at)) return false;  // `lemon slice` is one
  auto use = find_use(LineReader(line_, context_), first, last);
  return use && !use->item.valid() && context_.specs[use->stock].each.contains(item);
}

Match FormMatcher::garnish_list() const {
  Verb verb = Verb::garnish;
  std::size_t first = 0;
  bool named = false;
  for (Verb one : {Verb::garnish, Verb::side})
    if (auto at = verb_at(0, one)) {
      verb = one;
      first = is_any(*at, {"with", "w/", "of"}) ? *at + 1 : *at;
      named = true;
    }
  Readings lines;
  std::size_t begin = first;
  bool noted = named && (first > 1 || is_any(first, {"a", "an", "the"})), counted = false;
  std::optional<Use> previous;
  for (std::size_t i = first; i <= end_; ++i) {
    bool divides =
        i == end_ || line_.kind(i) == TokenKind::comma || is_any(i, {"and", "&", "plus", "+", "with"});
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
    // `lemon twist, no beans`: what is not put on it.
    constexpr std::size_t most_words = 3;
    if (is(begin, "no") && !lines.empty() && i > begin + 1 && i - begin <= most_words &&
        !is(begin + 1, "garnish")) {
      lines.back().text += ", \"" + base::collapse_space(line_.raw(begin, i)) + "\"";
      begin = i + 1;
      noted = true;
      continue;
    }
    // What it is drunk through or stirred with is no garnish.
    std::size_t tool = skip_article(begin);
    if (line_.kind(tool) == TokenKind::number) ++tool;
    if (is_any(tool, {"paper", "metal", "short", "long", "bamboo", "cocktail", "steel"}) && tool + 1 < i)
      ++tool;
    if (is_any(tool, {"straw", "straws", "umbrella", "stirrer", "napkin", "spoon", "swizzle-stick"}) &&
        tool + 1 == i && !is_use(begin, i)) {
      lines.push_back(say("serve with").copy(line_, begin, i));
      begin = i + 1;
      noted = true;
      continue;
    }
    std::size_t last = i, stop = i;
    begin = skip_article(begin);
    for (std::size_t k = begin + 1; k <= i && last == i; ++k)
      if (auto next = garnish_note(k, note, own);
          next && *next >= i && (*next == i || *next == end_ || line_.kind(*next) == TokenKind::comma)) {
        last = k;
        stop = *next;
        noted = true;
      }
    if (is_any(begin, {"floating", "fanned",  "folded",  "rolled",   "clapped", "smacked",   "bruised",
                       "torn",     "flamed",  "torched", "flaming",  "charred", "discarded", "expressed",
                       "slapped",  "spanked", "burnt",   "skewered", "floated", "grilled"}) &&
        !is_use(begin, last)) {
      note = is(begin, "flaming") ? "flamed" : word(begin);
      noted = true;
      ++begin;
    } else if (const std::string& studded = word(begin); studded.ends_with("-studded") && last > begin + 1) {
      // `clove-studded lemon wheel`
      std::string with = studded.substr(0, studded.size() - std::string_view("-studded").size());
      if (!context_.names.find(symbols::NameSpace::stock, with).valid()) return std::nullopt;
      lines.push_back(say(info(own).name).say(with));
      noted = true;
      ++begin;
    } else if (is_size(word(begin)) && !is_use(begin, last)) {
      if (note.empty()) note = word(begin);
      noted = true;
      ++begin;
    }
    auto one = last > begin ? garnish_thing(begin, last, own) : std::nullopt;
    // `pineapple wedge and leaf`: another piece of the same.
    if (auto item = begin + 1 == last ? context_.units.find(word(begin)) : units::UnitId{};
        !one && item.valid() && context_.units[item].is_item_word && previous) {
      lines.push_back(say(info(own).name).say(context_.specs[previous->stock].head.name).say(word(begin)));
      noted = true;
      begin = i + 1;
      continue;
    }
    if (!one) return std::nullopt;
    previous = find_use(LineReader(line_, context_), begin, last);
    std::size_t name = begin;
    bool is_half_moon = unit_at(begin) && *unit_at(begin) > begin + 1;
    bool has_number =
        !is_half_moon && (begins_quantity(begin) || (number_of(word(begin)) && !is_use(begin, last)));
    if (has_number) ++name, counted = true;
    bool of_unit = unit_at(name) && is(*unit_at(name), "of");
    // A splash of it is poured.
    if (of_unit && !named &&
        context_.units[context_.units.match(line_, name).unit].kind == units::Kind::volume && last == i)
      return std::nullopt;
    // Where nothing was worked yet, `8 mint leaves in the bottom of the glass` go in.
    if (!named && has_number && !state_.has_step && note.starts_with("in ")) return std::nullopt;
    // `half moon orange`
    std::size_t thing = unit_at(name) && !of_unit && !is_use(name, last) ? *unit_at(name) : name;
    if (!named && last == i && !of_unit && !is_garnish_by_kind(thing, last) &&
        !(has_number && lies_on_drink(name, last)) &&
        !(has_number && !lines.empty() && is_laid_on_only(name, last)))
      return std::nullopt;
    // A number alone may be an amount: a piece for the pick, once the drink is in its glass, is none.
    bool in_list = state_.is_finished && i < end_;
    if (!named && has_number && last == i && lines.empty() && !in_list && !lies_on_drink(name, last))
      return std::nullopt;
    if (!named && of_unit && last == i && !has_number && !is_past_mixing()) return std::nullopt;
    if (of_unit) noted = true;
    // The item word of the last one is for all.
    std::size_t item = end_;
    for (std::size_t k = i; k < end_ && !(line_.kind(k) == TokenKind::comma && k > i); ++k) item = k;
    // `cucumber and lemon slices on top`
    for (std::size_t k = i + 1; k < end_ && item < end_; ++k)
      if (place_at(k) == item + 1 && k > i + 1) item = k - 1;
    if (i < end_ && item < end_ && shares_item(begin, last, item) && note.empty()) {
      one->say(context_.units[context_.units.find(word(item))].symbol);
      noted = true;
    }
    // What is flamed of an orange is its peel.
    if (note == "flamed" && previous && !previous->item.valid() && !juice_of(previous->stock).empty())
      one->say("twist");
    if (!note.empty()) one->text += ", " + note;
    lines.push_back(*one);
    i = std::max(i, stop);
    begin = i + 1;
  }
  if (lines.empty() || (named && lines.size() < 2 && !noted && !counted)) return std::nullopt;
  // The language's own form stays as it is.
  if (named && lines.size() == 1 && !noted && line_.kind(first) == TokenKind::number) return std::nullopt;
  return lines;
}

/// True for a count of what is put on a drink, not into it, where the drink stands in its glass: `2 olives`.
bool FormMatcher::lies_on_drink(std::size_t first, std::size_t last) const {
  return state_.is_finished && is_laid_on_only(first, last);
}

/// True for what is put on a drink and not into it.
bool FormMatcher::is_laid_on_only(std::size_t first, std::size_t last) const {
  auto use = find_use(LineReader(line_, context_), first, last);
  if (!use) return false;
  const auto& stock = context_.specs[use->stock];
  return stock.kind == StockKind::garnish || stock.head.name == "coffee beans";
}

Match FormMatcher::made_into() const {
  // `lime wheel dehydrated`: another thing than a lime wheel, where the library has it.
  auto named = verb_at(0, Verb::garnish);
  std::size_t first = named.value_or(0), stop = comma_or_end(first);
  first = is(first, "with") ? first + 1 : skip_article(first);
  if (stop < first + 2 || begins_quantity(first) || (!named && match_verb(line_, 0))) return std::nullopt;
  std::size_t last = stop - 1;
  std::string made = word(last);
  if (!made.ends_with("ed") || !is_use(first, last) || is_use(first, stop)) return std::nullopt;
  auto item = context_.units.find(word(last - 1));
  bool has_item = item.valid() && context_.units[item].is_item_word && last > first + 1;
  auto is_known = [&](std::size_t end) {
    return context_.names
        .find(symbols::NameSpace::stock,
              made + " " + base::lower_ascii(base::collapse_space(line_.raw(first, end))))
        .valid();
  };
  if (!is_known(last) && !(has_item && is_known(last - 1))) return std::nullopt;
  Reading garnish = say("garnish").copy(line_, last, stop).copy(line_, first, last);
  return Readings{with_rest(garnish, line_, stop, end_)};
}

Match FormMatcher::rim_dipped() const {
  // `wet the rim with lime, dip in salt`: what it is wetted with stays behind.
  if (!after_any(
          0, {"wet rim", "wet the rim", "run lime round the rim", "run lime around the rim", "lime the rim",
              "run a lime round the rim", "moisten the rim", "moisten rim", "rub rim", "rub the rim",
              "run lime around rim", "wet glass rim", "wet the glass rim", "wipe rim", "wipe the rim"}))
    return std::nullopt;
  for (std::size_t i = 2; i < end_; ++i) {
    auto in = after_any(i, {"dip in", "dip into", "then dip in", "and dip in", "dipped in", "roll in",
                            "press into", "dip half in", "dip in the"});
    if (!in || !is_use(*in, comma_or_end(*in))) continue;
    Reading rim = say("rim").copy(line_, *in, comma_or_end(*in));
    if (is(i + 1, "half") || is(i + 2, "half")) rim.text += ", half";
    std::size_t said = line_.kind(i - 1) == TokenKind::comma ? i - 1 : i;
    rim.text += ", \"" + base::collapse_space(line_.raw(0, said)) + "\"";
    return Readings{with_rest(rim, line_, comma_or_end(*in), end_)};
  }
  return std::nullopt;
}

Match FormMatcher::dotted_on() const {
  // `bitters dots on top`: how many, nobody counts.
  if (begins_quantity(0) || match_verb(line_, 0)) return std::nullopt;
  std::size_t stop = comma_or_end(0);
  for (std::size_t i = 1; i + 1 < stop; ++i) {
    if (!is_any(i, {"dots", "drops", "dashes", "art", "hearts", "swirl", "design", "dot"}) || !is_use(0, i))
      continue;
    bool is_over =
        place_at(i + 1) == stop || after_any(i + 1, {"on top", "over", "over top", "over the top"}) == stop;
    auto use = find_use(LineReader(line_, context_), 0, i);
    if (!is_over || !use || use->item.valid()) return std::nullopt;
    Reading garnish = say("garnish").copy(line_, 0, i);
    garnish.text += ", \"" + base::collapse_space(line_.raw(i, stop)) + "\"";
    return Readings{with_rest(garnish, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::herb_top() const {
  // `mint top`: the tip of a sprig.
  if (end_ < 2 || !is_any(end_ - 1, {"top", "tops", "tip", "tips"}) || begins_quantity(0))
    return std::nullopt;
  auto use = find_use(LineReader(line_, context_), 0, end_ - 1);
  if (!use || use->item.valid() || context_.specs[use->stock].kind != StockKind::herb) return std::nullopt;
  return Readings{say("garnish").copy(line_, 0, end_ - 1).say("sprig, \"the top\"")};
}

Match FormMatcher::named_float() const {
  // `rum float 15 ml`, `sherry float 1/2 oz`
  std::size_t stop = comma_or_end(0);
  if (begins_quantity(0) || match_verb(line_, 0)) return std::nullopt;
  for (std::size_t i = 1; i + 1 < stop; ++i) {
    if (!is_any(i, {"float", "floated"}) || !is_use(0, i) || line_.kind(i + 1) != TokenKind::number) continue;
    auto unit = unit_at(i + 2);
    if (!unit || *unit != stop) return std::nullopt;
    Reading poured = say("float");
    poured.copy(line_, i + 1, stop).copy(line_, 0, i);
    return Readings{with_rest(poured, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::beans_on_foam() const {
  // `3 beans` on a drink of coffee.
  if (!state_.is_finished || (line_.kind(0) != TokenKind::number && !number_of(word(0))) || !is(1, "beans"))
    return std::nullopt;
  bool has_coffee = std::any_of(state_.liquids.begin(), state_.liquids.end(), [&](StockId id) {
    return context_.specs[id].head.name.find("coffee") != std::string::npos ||
           context_.specs[id].head.name.find("espresso") != std::string::npos;
  });
  if (!has_coffee) return std::nullopt;
  Reading garnish = say("garnish");
  if (auto number = number_of(word(0)))
    garnish.say(*number);
  else
    garnish.copy(line_, 0, 1);
  garnish.say("coffee beans");
  std::string note;
  Verb verb = Verb::garnish;
  if (end_ > 2 && garnish_note(2, note, verb) != end_) return std::nullopt;
  return Readings{garnish};
}

Match FormMatcher::laid_on() const {
  std::size_t first = 0, stop = comma_or_end(0);
  if (stop < 2) return std::nullopt;
  auto named = verb_at(0, Verb::garnish);
  if (named) first = is(*named, "with") ? *named + 1 : *named;
  if (!named && (match_verb(line_, 0) || begins_quantity(0))) return std::nullopt;
  first = skip_article(first);
  while (first + 1 < stop && is_size(word(first)) && !is_use(first, first + 1)) ++first;
  if (is_use(first, stop)) return std::nullopt;
  for (std::size_t i = stop - 1; i > first; --i) {
    bool says_how = is_any(i, {"for", "in", "on", "over", "to", "as", "from", "around", "across", "inside",
                               "cut", "stuck", "left", "with"}) ||
                    (word(i).size() > 4 && word(i).ends_with("ed"));
    if (!says_how || !(named ? is_use(first, i) : is_garnish_by_kind(first, i))) continue;
    // Where it goes on the drink and its glass is how it is laid on.
    for (std::size_t k = i; k < stop; ++k) {
      if (line_.kind(k) != TokenKind::word || number_of(word(k))) return std::nullopt;
      bool is_place = is_any(k, {"glass", "drink", "rim", "top", "side", "foam", "edge", "it"});
      if (!is_place && k > i && match_verb(line_, k)) return std::nullopt;
      if (!is_place && (is_use(k, k + 1) || is_name(symbols::NameSpace::glass, k, k + 1) ||
                        is_name(symbols::NameSpace::ice, k, k + 1)))
        return std::nullopt;
    }
    if (after_any(i, {"on the side", "on side", "for serving", "to serve", "to taste", "in season"}) &&
        !after_any(i, {"on the side of the glass", "on side of the glass", "on side of glass"}))
      return std::nullopt;
    if (!is_plain_remark(LineReader(line_, context_), i + 1, stop) && i + 1 < stop && !place_at(i) &&
        !place_at(i + 1))
      return std::nullopt;
    Reading garnish = say("garnish");
    garnish.copy(line_, first, i);
    garnish.text += ", \"" + base::collapse_space(line_.raw(i, stop)) + "\"";
    return Readings{with_rest(garnish, line_, stop, end_)};
  }
  return std::nullopt;
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
    // `side of prosecco 60 ml`, `side of 60 ml prosecco`
    std::size_t name = is(*at, "of") ? *at + 1 : *at, last = comma_or_end(name);
    for (std::size_t i = name + 1; i + 1 < last; ++i)
      if (line_.kind(i) == TokenKind::number && unit_at(i + 1) == last && is_use(name, i)) {
        Reading side = say("side");
        side.copy(line_, i, last).copy(line_, name, i);
        return Readings{with_rest(side, line_, last, end_)};
      }
    if (name > *at && begins_quantity(name) && is_amount(name, last)) {
      Reading side = say("side");
      return Readings{side.copy(line_, name, end_)};
    }
    std::size_t first = skip_article(*at);
    auto unit = unit_at(first);
    if (!unit && is_any(first, {"shot", "glass", "chaser", "sidecar", "shot glass"})) unit = first + 1;
    if (!unit || !is(*unit, "of") || !is_use(*unit + 1, comma_or_end(*unit))) return std::nullopt;
    Reading side = say("side");
    side.copy(line_, *unit + 1, comma_or_end(*unit));
    side.text += ", \"" + base::collapse_space(line_.raw(first, *unit)) + "\"";
    with_rest(side, line_, comma_or_end(*unit), end_);
    return Readings{side};
  }
  // `shot of prosecco on the side (50 ml)`: how much, behind it.
  if (auto said = in_brackets(end_); said && !begins_quantity(0) && base::is_digit(said->text[0])) {
    std::size_t digits = std::min(said->text.find_first_not_of("0123456789./ "), said->text.size());
    auto unit = context_.units.find(base::collapse_space(said->text.substr(digits)));
    auto bare = FormMatcher(line_.part(0, said->open), context_, in_prep_, state_).beside();
    if (!unit.valid() || context_.units[unit].kind != units::Kind::volume || !bare || bare->size() != 1)
      return std::nullopt;
    const auto& text = bare->front().text;
    return Readings{
        say("side").say(said->text).say(std::string_view(text).substr(std::string_view("side ").size()))};
  }
  // `salt and lime on the side`: all of them.
  for (std::size_t i = 1; i < end_ && stop == end_; ++i)
    if (after_any(i, {"on the side", "on side", "at the side"}) == end_) stop = i;
  if (stop == end_ || match_verb(line_, 0)) return std::nullopt;
  // `shot of prosecco on the side`
  if (std::size_t measure = skip_article(0); is_any(measure, {"shot", "glass", "chaser", "sidecar"}) &&
                                             is(measure + 1, "of") && is_use(measure + 2, stop)) {
    Reading side = say("side").copy(line_, measure + 2, stop);
    side.text += ", \"" + base::collapse_space(line_.raw(0, measure + 1)) + "\"";
    return Readings{side};
  }
  auto stretches = listed_uses(0, stop, {"and", "&", "plus", "+"});
  if (!stretches || stretches->size() < 2) return std::nullopt;
  Readings lines;
  for (const auto& [begin, last] : *stretches) lines.push_back(say("side").copy(line_, begin, last));
  return lines;
}

}  // namespace gill::analysis

// What goes on last or around the drink: tops, floats, rinses, mists and rims.
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
  // `fill up slowly with prosecco`
  if (auto fill = next ? std::nullopt
                       : after_any(0, {"fill", "fill up", "top up", "top off", "finish", "top it up",
                                       "fill it up"})) {
    std::size_t with = *fill;
    while (with < end_ && is_adverb(word(with))) ++with;
    if (with > *fill && is(with, "with")) next = with + 1;
  }
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
    auto last = after_any(name_end, {"to top",
                                     "to top up",
                                     "to fill",
                                     "to finish",
                                     "to taste",
                                     "to the top",
                                     "to the brim",
                                     "to fill up",
                                     "to lengthen",
                                     "full up",
                                     "until full",
                                     "up to full",
                                     "to full",
                                     "filled up",
                                     "to below the rim",
                                     "to just below the rim",
                                     "to the rim",
                                     "to an inch below the rim",
                                     "to an inch from the rim",
                                     "to within an inch of the rim",
                                     "to within an inch of the top",
                                     "to a finger below the rim",
                                     "to a finger from the rim",
                                     "to just under the rim",
                                     "to under the rim",
                                     "to near the top",
                                     "to nearly the top",
                                     "to almost the top",
                                     "to the shoulder",
                                     "to just below the top",
                                     "up to the top",
                                     "up to the rim",
                                     "to fill the glass",
                                     "to top it up",
                                     "to top it off",
                                     "to top off"});
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
  auto next = after_any(0, {"rinse with", "rinse glass with", "rinse the glass with", "rinse a glass with",
                            "rinse w/", "rinse of", "quick rinse of", "a rinse of", "rinse with a little",
                            "rinse w", "coat the glass with", "coat glass with", "wash the glass with"});
  if (next && *next < stop) {
    Reading rinse = say("rinse");
    rinse.copy(line_, *next, end_);
    return Readings{rinse};
  }
  // `rinse coupe with absinthe`, `coat a chilled rocks glass with absinthe`: the drink's glass.
  if (is_any(0, {"rinse", "coat", "season", "wash", "swirl"}))
    for (std::size_t with = 2; with + 1 < stop; ++with) {
      if (!is_any(with, {"with", "in"})) continue;
      std::size_t name = skip_article(with + 1);
      if (after_any(name, {"a little", "little", "some", "a dash of", "a bit of"}))
        name = *after_any(name, {"a little", "little", "some", "a dash of", "a bit of"});
      auto where = FormMatcher(line_.part(skip_article(1), with), context_, in_prep_, state_).bare_glass();
      if (!where || !(is_use(name, stop) || is_amount(name, stop))) continue;
      Readings lines{say("rinse").copy(line_, name, stop)};
      with_rest(lines.front(), line_, stop, end_);
      lines.insert(lines.end(), where->begin(), where->end());
      return lines;
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
  // `absinthe rinsed coupe`
  for (std::size_t i = 1; i + 1 < stop; ++i) {
    if (!is(i, "rinsed") || !is_use(0, i)) continue;
    auto where = FormMatcher(line_.part(i + 1, end_), context_, in_prep_, state_).bare_glass();
    if (!where) return std::nullopt;
    if (!state_.has_rinsed) where->push_back(say("rinse").copy(line_, 0, i));
    return where;
  }
  // `absinthe-rinsed coupe`
  if (const std::string& rinsed = word(0); rinsed.ends_with("-rinsed") && stop > 1) {
    std::string name = rinsed.substr(0, rinsed.size() - std::string_view("-rinsed").size());
    auto where = FormMatcher(line_.part(1, end_), context_, in_prep_, state_).bare_glass();
    if (!where || !context_.names.find(symbols::NameSpace::stock, name).valid()) return std::nullopt;
    if (!state_.has_rinsed) where->push_back(say("rinse").say(name));
    return where;
  }
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

Match FormMatcher::rim_with() const {
  std::size_t stop = comma_or_end(0);
  bool half = false;
  std::size_t first = 0, last = stop;
  Readings lines;
  // `sugar rim, half the glass`
  if (stop < end_ &&
      after_any(stop + 1, {"half the glass", "half the rim", "half rim", "half only", "just half",
                           "only half", "half of it", "half of the glass", "half of the rim", "on half",
                           "one half", "on one half", "half way round", "halfway round", "half way around",
                           "halfway around", "one side", "one side only", "half glass"}) == end_) {
    auto bare = FormMatcher(line_.part(0, stop), context_, in_prep_, state_).rim_with();
    if (!bare && verb_at(0, Verb::rim) && is_use(1, stop)) bare = Readings{Reading().copy(line_, 0, stop)};
    if (!bare) return std::nullopt;
    if (bare->back().text.find(", half") == std::string::npos) bare->back().text += ", half";
    return bare;
  }
  // `rim sugar, toasted sesame seed`: of both.
  if (auto rim = verb_at(0, Verb::rim);
      rim && stop < end_ && is_use(*rim, stop) && is_use(stop + 1, comma_or_end(stop + 1))) {
    std::size_t last = comma_or_end(stop + 1);
    lines = {say("rim").copy(line_, *rim, stop), say("rim").copy(line_, stop + 1, last)};
    with_rest(lines.back(), line_, last, end_);
    return lines;
  }
  // `salt half the rim of a rocks glass`, `salt the rim of the coupe`
  if (is_any(0, {"salt", "sugar"}))
    if (auto of = after_any(1, {"half the rim of", "half rim of", "the rim of", "half of the rim of",
                                "rim of", "half the edge of", "the edge of"});
        of && *of < stop) {
      std::size_t name = skip_article(*of);
      auto where = FormMatcher(line_.part(name, stop), context_, in_prep_, state_).bare_glass();
      if (!where) return std::nullopt;
      lines = std::move(*where);
      lines.push_back(say("rim").copy(line_, 0, 1));
      if (is(1, "half")) lines.back().text += ", half";
      with_rest(lines.back(), line_, stop, end_);
      return lines;
    }
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

/// `8 mint leaves, gently pressed in the cup`, `4 strawberries, muddled`: the step is said of what it is done
/// to.
Match FormMatcher::muddled_behind() const {
  std::size_t stop = comma_or_end(0);
  if (stop >= end_ || !is_amount(0, stop)) return std::nullopt;
  std::size_t done = stop + 1;
  while (done < end_ && is_adverb(word(done))) ++done;
  auto use = use_of_amount(line_.part(0, stop), context_);
  StockKind kind = use ? context_.specs[use->stock].kind : StockKind::water;
  // Fruit that is pressed is juiced, a spice that is crushed goes in so.
  bool is_muddled = is_any(done, {"muddled", "muddle"}) ||
                    (kind == StockKind::herb &&
                     is_any(done, {"pressed", "press", "bruised", "crushed", "smashed", "mashed"})) ||
                    (kind == StockKind::fruit && is_any(done, {"crushed", "mashed", "smashed", "squashed"}));
  // `cut in pieces and muddled`, `smashed in the tin`
  for (std::size_t i = done + 1; i < end_ && !is_muddled; ++i)
    if (is_any(i, {"muddled", "muddle"}) && (is_any(i - 1, {"and", "then", "&"}) || is_adverb(word(i - 1))) &&
        is_plain_remark(LineReader(line_, context_), stop + 1, i))
      is_muddled = true, done = i;
  if (!is_muddled) return std::nullopt;
  std::size_t how = done + 1;
  while (how < end_ && is_adverb(word(how))) ++how;
  bool in_tool = tool_at(how) == end_;
  bool in_glass = !in_tool && (place_at(how) == end_ ||
                               after_any(how, {"in the glass", "in glass", "in the cup", "in cup",
                                               "in the mug", "in the base of the glass"}) == end_);
  if (how != end_ && !in_tool && !in_glass) return std::nullopt;
  Readings lines;
  if (in_glass && !state_.was_built) lines.push_back(say("build"));
  lines.push_back(Reading().copy(line_, 0, stop));
  if (state_.has_muddled) return lines;
  Reading muddle = say("muddle");
  std::string words = base::collapse_space(line_.raw(stop + 1, end_));
  if (words != "muddled" && words != "muddle") muddle.text += ", \"" + words + "\"";
  lines.push_back(muddle);
  return lines;
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
  if (auto lines = muddled_behind()) return lines;
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

}  // namespace gill::analysis

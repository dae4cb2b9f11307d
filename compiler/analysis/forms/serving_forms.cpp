#include "analysis/forms/form_matcher.h"

#include <algorithm>

#include "analysis/remark.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;

bool FormMatcher::vessel(std::size_t i, Readings& lines) const {
  while (i < end_) {
    if (line_.kind(i) == TokenKind::comma) return false;
    // `directly into the flute`, `right in the glass`
    if (is_any(i, {"right", "straight", "directly", "direct"}) &&
        is_any(i + 1, {"in", "into", "over", "on", "onto"}))
      ++i;
    if (auto next =
            after_any(i, {"up", "straight up", "no ice", "without ice", "with no ice", "without any ice"})) {
      // What is dumped brings its ice along.
      if (verb_at(0, Verb::dump)) return false;
      lines.push_back(implied("ice none"));
      i = *next;
      continue;
    }
    if (is(i, "and") && i > 0 && i + 1 < end_) {
      ++i;
      continue;
    }
    if (auto next =
            after_any(i, {"over", "on to", "onto", "on", "filled with", "full of", "packed with", "with"})) {
      std::size_t stop = *next;
      while (stop < end_ && line_.kind(stop) != TokenKind::comma && !is_any(stop, {"in", "into"})) ++stop;
      // `over ice rocks`: the glass stands behind the ice.
      while (stop > *next + 1 && !ice_named(*next, stop)) --stop;
      if (auto ice = ice_named(*next, stop)) {
        lines.push_back(is_plain_ice(*next, stop) ? over_ice() : implied("ice " + *ice));
        i = stop;
        continue;
      }
      if (auto rocks = after_any(*next, {"the rocks", "rocks"})) {
        lines.push_back(over_ice());
        i = *rocks;
        continue;
      }
      return false;
    }
    if (auto next = after_any(i, {"into", "in to", "in", "to"})) {
      std::size_t first = skip_article(*next);
      // `into 2 rocks glasses`
      if (first + 1 < end_ && (line_.kind(first) == TokenKind::number || number_of(word(first)))) ++first;
      bool chilled = false, frozen = false, iced = false, warmed = false, without_ice = false;
      // What was done to the glass before: its ice, its cold, and a rim or rinse that has a line of its own.
      for (; first < end_ && !is_name(symbols::NameSpace::glass, first, first + 1); ++first) {
        bool has_rim = state_.has_rim &&
                       is_any(first, {"sugared", "salted", "sugar-rimmed", "salt-rimmed", "half-rimmed"});
        // Nobody said so before: it is rimmed here.
        if (!state_.has_rim && is_any(first, {"sugar-rimmed", "salt-rimmed", "salted", "sugared"})) {
          lines.insert(lines.begin(), say(word(first).starts_with("sugar") ? "rim sugar" : "rim salt"));
          continue;
        }
        // `an absinthe-rinsed coupe`
        if (const std::string& how = word(first);
            how.ends_with("-rinsed") || (how.ends_with("-rimmed") && !is_any(first, {"half-rimmed"}))) {
          bool rinsed = how.ends_with("-rinsed");
          std::string name = how.substr(0, how.size() - std::string_view("-rinsed").size());
          if (!context_.names.find(symbols::NameSpace::stock, name).valid()) break;
          if (!(rinsed ? state_.has_rinsed : state_.has_rim))
            lines.insert(lines.begin(), say(rinsed ? "rinse" : "rim").say(name));
          continue;
        }
        if (is_any(first, {"chilled", "cold", "chill"}))
          chilled = true;
        else if (is(first, "frozen"))
          frozen = true;
        else if (is_any(first, {"ice-filled", "iced"}))
          iced = true;
        else if (is_any(first, {"iceless", "ice-less", "ice-free"}))
          without_ice = true;
        else if (is(first, "ice") && is(first + 1, "filled"))
          iced = true, ++first;
        else if (is_any(first, {"warm", "warmed", "heated", "preheated", "pre-heated", "pre-warmed",
                                "prewarmed", "hot"}) &&
                 !is_name(symbols::NameSpace::glass, first, first + 2))
          warmed = true;
        else if (!has_rim && is_name(symbols::NameSpace::glass, first, first + 2))
          break;
        else if (!has_rim &&
                 !is_any(first, {"rinsed", "prepared", "rimmed", "clean", "heatproof", "heat-proof", "fresh",
                                 "prepped", "your", "tall", "short", "nice", "heavy", "fancy", "proper",
                                 "stemmed", "pretty", "elegant", "same"}))
          break;
      }
      std::size_t stop = first;
      while (stop < end_ && line_.kind(stop) != TokenKind::comma &&
             !is_any(stop,
                     {"over", "on", "filled", "with", "full", "without", "no", "packed", "from", "straight"}))
        ++stop;
      std::size_t last = stop;
      if (last > first + 1 && word(last - 1) == "glass" && !is_name(symbols::NameSpace::glass, first, last))
        --last;
      if (last == first + 1 && is_any(first, {"glass", "glasses"})) {
        i = stop;
        continue;
      }
      if (!is_name(symbols::NameSpace::glass, first, last)) return false;
      // `a coupe from the freezer`
      if (auto cold = after_any(stop, {"from the freezer", "from freezer", "straight from the freezer",
                                       "straight from freezer"}))
        frozen = true, stop = *cold;
      else if (auto cool = after_any(stop, {"from the fridge", "from fridge", "straight from the fridge"}))
        chilled = true, stop = *cool;
      Reading glass = implied("glass");
      glass.copy(line_, first, last);
      if (chilled) glass.text += ", chilled";
      if (frozen) glass.text += ", frozen";
      if (warmed) glass.text += ", warmed";
      lines.push_back(std::move(glass));
      if (iced) lines.push_back(over_ice());
      if (without_ice) lines.push_back(implied("ice none"));
      i = stop;
      continue;
    }
    // `strain coupe`, `build ice highball`: the glass and the ice by their names alone.
    std::size_t last = i > 0 ? comma_or_end(i) : i;
    while (last > i && !is_name(symbols::NameSpace::glass, i, last) && !ice_named(i, last)) --last;
    if (last == i) return false;
    if (is_name(symbols::NameSpace::glass, i, last)) {
      Reading glass = implied("glass");
      lines.push_back(glass.copy(line_, i, last));
    } else {
      lines.push_back(is_plain_ice(i, last) ? over_ice() : implied("ice " + *ice_named(i, last)));
    }
    i = last;
  }
  return true;
}

Match FormMatcher::strain_where() const {
  for (Verb verb : {Verb::double_strain, Verb::fine_strain, Verb::strain, Verb::dump}) {
    std::optional<std::size_t> at = verb_at(0, verb);
    if (!at && verb == Verb::double_strain)
      at = after_any(0, {"dbl strain", "double-strain", "dirty double strain"});
    if (!at && verb == Verb::fine_strain) at = after_any(0, {"fine-strain"});
    if (!at && verb == Verb::dump)
      at = after_any(
          0, {"dirty dump", "open pour", "pour unstrained", "serve without straining", "serve unstrained"});
    if (!at) continue;
    if (is(*at, "back") &&
        !after_any(*at, {"back into the tin", "back into tin", "back to the tin", "back into the shaker"}))
      at = *at + 1;
    std::size_t stop = comma_or_end(*at);
    std::string_view name = info(verb).name;
    // A second, finer strainer makes a fine strain of it.
    if (after_any(*at, {"through fine mesh", "through a fine mesh", "through a fine strainer",
                        "through fine strainer", "through a tea strainer", "through tea strainer",
                        "through a fine sieve", "through a sieve", "through fine sieve", "through mesh"}) ==
            stop &&
        stop > *at)
      return Readings{say(verb == Verb::strain ? "fine strain" : name)};
    if (*at == stop) {
      if (verb_at(0, verb)) return std::nullopt;
      Reading alone = say(name);
      with_rest(alone, line_, stop, end_);
      return Readings{alone};
    }
    if (after_any(*at, {"to tin", "to the tin"}) && verb_at(0, verb)) return std::nullopt;
    if (auto next =
            after_any(*at, {"into tin", "into the tin", "into a tin", "in the tin", "back into the tin",
                            "back into tin", "back to the tin", "into shaker", "into the shaker",
                            "into a shaker", "back into the shaker", "into a clean tin", "into a fresh tin",
                            "into the other tin", "out the ice", "off the ice"});
        next && *next == stop) {
      Reading tin = say(name).say("to tin");
      with_rest(tin, line_, stop, end_);
      return Readings{tin};
    }
    // `strain into a coupe, chilled`: the glass is.
    if (auto cold = stop < end_ ? after_any(stop + 1, {"chilled", "frozen", "warmed", "from the freezer",
                                                       "from the fridge", "pre-chilled", "ice cold"})
                                : std::nullopt;
        cold && comma_or_end(*cold) == *cold) {
      auto bare = FormMatcher(line_.part(0, stop), context_, in_prep_, state_).strain_where();
      for (std::size_t k = 0; bare && k < bare->size(); ++k) {
        Reading& glass = (*bare)[k];
        if (!glass.text.starts_with("glass ")) continue;
        glass.text += is_any(stop + 1, {"frozen"}) || is(*cold - 1, "freezer") ? ", frozen"
                      : is(stop + 1, "warmed")                                 ? ", warmed"
                                                                               : ", chilled";
        with_rest(bare->back(), line_, *cold, end_);
        return bare;
      }
    }
    Readings lines{say(name)};
    with_rest(lines.front(), line_, stop, end_);
    // `strain into a coupe with half a sugar rim`: the rim is one before the drink is poured.
    std::size_t rim = *at;
    while (rim < stop && !(is(rim, "with") && is(stop - 1, "rim"))) ++rim;
    if (rim > *at && rim < stop) {
      std::size_t name_at = skip_article(rim + 1);
      bool half = is(name_at, "half");
      if (half) name_at = skip_article(name_at + 1);
      if (!is_use(name_at, stop - 1)) return std::nullopt;
      lines.insert(lines.begin(), say("rim").copy(line_, name_at, stop - 1));
      if (half) lines.front().text += ", half";
    }
    LineView head = line_.part(0, rim);
    FormMatcher inner(head, context_, in_prep_, state_);
    if (!inner.vessel(*at, lines)) return std::nullopt;
    return lines;
  }
  return std::nullopt;
}

Match FormMatcher::serve_how() const {
  std::size_t i = is_any(0, {"serve", "served"}) ? 1 : 0;
  std::size_t stop = comma_or_end(i);
  if (stop != end_) return std::nullopt;
  if (auto next = after_any(i, {"on the rocks", "on rocks", "on ice", "over ice", "over the rocks"});
      next && *next == stop)
    return Readings{over_ice()};
  if (auto next = after_any(i, {"up", "straight up", "without ice", "neat", "straight"});
      next && *next == stop)
    return Readings{implied("ice none")};
  if (i == 1) {
    Readings lines;
    // `serve in a preheated glass` names no glass, and stays as it is said.
    if (i < end_ && vessel(i, lines) && !lines.empty()) return lines;
  }
  // `serve in a warm mug, handle right`: the glass is the drink's, and the rest are words.
  for (std::size_t stop = end_ - 1; i == 1 && stop > i; --stop) {
    Readings lines;
    FormMatcher head(line_.part(0, stop), context_, in_prep_, state_);
    if (!is_any(i, {"in", "into"}) || !head.vessel(i, lines) || lines.empty()) continue;
    if (line_.kind(stop) != TokenKind::comma || !is_plain_remark(LineReader(line_, context_), stop, end_))
      continue;
    lines.push_back(say("serve \"" + base::collapse_space(line_.raw(1, end_)) + "\""));
    return lines;
  }
  // `served in a coupe with a lemon twist`: where, and with what on it.
  if (!is_any(0, {"serve", "served", "in", "into", "up"})) return std::nullopt;
  for (std::size_t with = end_ - 1; with > i; --with) {
    if (!is_any(with, {"with", "w/"}) || with + 1 >= end_) continue;
    Readings lines;
    FormMatcher head(line_.part(0, with), context_, in_prep_, state_);
    if (!head.vessel(i, lines)) continue;
    // `in a preheated glass with a slice of orange`: whichever the drink's is.
    if (lines.empty() && i == 1) lines.push_back(say("serve").copy(line_, 1, with));
    if (lines.empty()) continue;
    FormMatcher tail(line_.part(with + 1, end_), context_, in_prep_, state_);
    auto garnishes = tail.match();
    bool all_laid_on = garnishes && std::all_of(garnishes->begin(), garnishes->end(), [](const Reading& one) {
                         return one.text.starts_with("garnish ");
                       });
    if (all_laid_on)
      for (auto& one : *garnishes) lines.push_back(std::move(one));
    else if (is_use(skip_article(with + 1), end_))
      lines.push_back(say("garnish").copy(line_, skip_article(with + 1), end_));
    else
      continue;
    return lines;
  }
  return std::nullopt;
}

Match FormMatcher::build_where() const {
  auto at = verb_at(0, Verb::build);
  if (!at) return std::nullopt;
  std::size_t stop = comma_or_end(*at);
  if (*at == stop) return std::nullopt;
  // Built in a tin it is only put together.
  if (tool_at(*at) == end_) return Readings{say("do").copy(line_, 0, end_)};
  // `build over ice with 2 slices orange`: they go in as well.
  std::size_t with = *at;
  while (with < stop && !(is(with, "with") && begins_quantity(with + 1))) ++with;
  Readings lines;
  LineView head = line_.part(0, with);
  if (with > *at && !FormMatcher(head, context_, in_prep_, state_).vessel(*at, lines)) return std::nullopt;
  if (with < stop && !is_amount(with + 1, stop)) return std::nullopt;
  if (with < stop) {
    Reading amount;
    lines.push_back(amount.copy(line_, with + 1, stop));
  }
  Reading build = say("build");
  with_rest(build, line_, stop, end_);
  // The ice goes in with `build`, so it is said before.
  lines.push_back(build);
  return lines;
}

Match FormMatcher::bare_glass() const {
  std::size_t first = 0;
  if (auto next =
          after_any(0, {"in a", "in the", "in", "into a", "into", "served in a", "serve in a", "serve in"}))
    first = *next;
  bool chilled = is_any(first, {"chilled", "cold"}), frozen = is(first, "frozen");
  bool warmed = is_any(first, {"hot", "warm", "warmed", "heated", "preheated", "pre-heated", "prewarmed"});
  if ((chilled || frozen || warmed) && !is_name(symbols::NameSpace::glass, first, comma_or_end(first)))
    ++first;
  else
    chilled = frozen = warmed = false;
  // `big mug`, `nice tall glass`
  if (std::size_t plain = skip_article(first);
      !is_name(symbols::NameSpace::glass, first, comma_or_end(first))) {
    while (is_any(plain,
                  {"big", "large", "small", "little", "nice", "good", "heavy", "fancy", "pretty", "elegant"}))
      ++plain;
    if (plain > first && is_name(symbols::NameSpace::glass, plain, comma_or_end(plain))) first = plain;
  }
  std::size_t last = end_;
  for (; last > first; --last) {
    std::size_t bare = last > first + 1 && word(last - 1) == "glass" ? last - 1 : last;
    if (is_name(symbols::NameSpace::glass, first, last)) break;
    if (bare < last && is_name(symbols::NameSpace::glass, first, bare)) break;
  }
  if (last == first || is_use(0, end_)) return std::nullopt;
  std::size_t bare = is_name(symbols::NameSpace::glass, first, last) ? last : last - 1;
  Readings lines;
  Reading glass = implied("glass");
  glass.copy(line_, first, bare);
  std::size_t i = last;
  while (i < end_) {
    if (line_.kind(i) == TokenKind::comma || is(i, "and")) {
      ++i;
      continue;
    }
    if (auto next = after_any(i, {"chilled", "cold", "from the fridge", "from fridge",
                                  "straight from the fridge", "straight from fridge", "out of the fridge"})) {
      chilled = true;
      i = *next;
      continue;
    }
    if (auto next = after_any(i, {"frozen", "from the freezer", "from freezer", "straight from the freezer",
                                  "straight from freezer", "out of the freezer",
                                  "straight out of the freezer", "ex freezer"})) {
      frozen = true;
      i = *next;
      continue;
    }
    if (auto next = after_any(i, {"no ice", "without ice", "up"})) {
      lines.push_back(implied("ice none"));
      i = *next;
      continue;
    }
    std::size_t from = i;
    if (auto next = after_any(i, {"over", "with", "full of", "filled with", "packed with", "filled up with",
                                  "of", "on", "half filled with", "half-filled with", "half full of",
                                  "half full with", "three quarters full of", "three-quarters full of",
                                  "3/4 full of", "loaded with", "topped with", "brimmed with"}))
      from = *next;
    std::size_t stop = comma_or_end(from);
    auto ice = ice_named(from, stop);
    // `toddy glass, napkin round it`
    if (!ice && i > 0 && line_.kind(i - 1) == TokenKind::comma && stop == end_ &&
        !is_any(0, {"serve", "served"}) &&
        !is_any(i, {"large", "small", "big", "mini", "double", "single", "tall", "short"}) &&
        is_plain_remark(LineReader(line_, context_), i, end_)) {
      glass.text += ", \"" + base::collapse_space(line_.raw(i, end_)) + "\"";
      i = end_;
      continue;
    }
    if (!ice) return std::nullopt;
    lines.push_back(is_plain_ice(from, stop) ? over_ice() : implied("ice " + *ice));
    i = stop;
  }
  if (chilled) glass.text += ", chilled";
  if (frozen) glass.text += ", frozen";
  if (warmed) glass.text += ", warmed";
  lines.insert(lines.begin(), glass);
  return lines;
}

Match FormMatcher::served_where() const {
  // `over ice in a highball`, `up in a coupe`, `on the rocks`.
  if (comma_or_end(0) != end_) return std::nullopt;
  Readings lines;
  if (is_any(0, {"over", "on", "up", "in", "into", "straight"})) {
    if (!vessel(0, lines) || lines.empty()) return std::nullopt;
    return lines;
  }
  // `cubed ice, mug` without its comma.
  for (std::size_t i = end_ - 1; i > 0; --i)
    if (ice_named(0, i) && is_name(symbols::NameSpace::glass, i, end_)) {
      lines.push_back(is_plain_ice(0, i) ? over_ice() : implied("ice " + *ice_named(0, i)));
      Reading glass = implied("glass");
      lines.push_back(glass.copy(line_, i, end_));
      return lines;
    }
  return std::nullopt;
}

Match FormMatcher::pour_where() const {
  auto next = after_any(0, {"pour",          "poured",           "drop",        "pour the drink",
                            "tip",           "pour everything",  "pour all",    "pour it",
                            "pour contents", "pour the lot",     "tip the lot", "then pour",
                            "chuck it all",  "chuck everything", "put it all",  "put everything",
                            "throw it all",  "bung it all",      "ladle",       "ladle it",
                            "direct",        "directly"});
  if (!next) return std::nullopt;
  std::size_t at = *next, stop = comma_or_end(at);
  while (stop > at + 1 && (is_adverb(word(stop - 1)) || is_any(stop - 1, {"first", "last"}))) --stop;
  // `pour the cassis first`: it stands in the amounts above.
  if (is_any(0, {"pour", "tip", "ladle"}) && stop < comma_or_end(0) + 1 && at < stop) {
    FormMatcher head(line_.part(0, stop), context_, in_prep_, state_);
    if (comma_or_end(0) == end_ && head.poured_already(at) == stop)
      return Readings{say("do").copy(line_, 0, end_)};
  }
  // `pour the aperitivo over ice`: what is in the amounts above.
  if (is(0, "pour") && !is_any(at, {"over", "on", "in", "into", "onto", "unstrained", "without"}))
    for (std::size_t i = at + 1; i < stop; ++i)
      if (is_any(i, {"over", "on", "into", "in"})) {
        FormMatcher head(line_.part(0, i), context_, in_prep_, state_);
        if (head.poured_already(at) == i) at = i;
        break;
      }
  // `pour slow so they layer`: how it is poured.
  if (is(0, "pour") && (is_any(1, {"slow", "gentle", "steady"}) || is_adverb(word(1))) && stop > 2 &&
      comma_or_end(0) == end_ && is_plain_word(2) && is_plain_remark(LineReader(line_, context_), 3, stop))
    return Readings{say("do").copy(line_, 0, end_)};
  while (at < stop && is_adverb(word(at))) ++at;
  if (auto out = after_any(at, {"unstrained", "without straining"})) at = *out;
  Readings lines;
  if (at == stop) {
    if (is_any(0, {"drop", "ladle"})) return std::nullopt;
    // Nothing was mixed: it is poured straight into its glass.
    if (state_.is_mixed && !state_.is_blended) return std::nullopt;
    lines.push_back(say(state_.is_mixed ? "dump" : "build"));
  } else {
    LineView head = line_.part(0, stop);
    if (!FormMatcher(head, context_, in_prep_, state_).vessel(at, lines)) return std::nullopt;
    if (lines.empty() && !is_any(0, {"chuck", "direct", "directly"})) return std::nullopt;
    bool over_fresh_ice = std::any_of(lines.begin(), lines.end(), [](const Reading& one) {
      return one.text.starts_with("ice ") && one.text != "ice none";
    });
    if (state_.is_mixed)
      lines.push_back(say(over_fresh_ice ? "strain" : "dump"));
    else if (!state_.is_finished && !state_.was_built)
      lines.push_back(say("build"));
  }
  with_rest(lines.back(), line_, stop, end_);
  return lines;
}

Match FormMatcher::bare_ice() const {
  if (auto next = after_any(0, {"no ice", "without ice", "never on ice", "not on ice", "hold the ice",
                                "iceless", "no ice please", "no ice in the glass", "glass with no ice",
                                "glass without ice", "in a glass with no ice", "empty glass"});
      next && *next == end_)
    return Readings{implied("ice none")};
  // `dry shake, then with ice`: shaken again.
  if (state_.has_dry_shaken && !state_.has_shaken && is_any(0, {"with", "on", "over"}) &&
      is_plain_ice(1, end_) && state_.is_mixed)
    return Readings{say("shake")};
  // `dry shake, ice, shake again`: it goes into the tin for the shake that follows.
  if (state_.has_dry_shaken && !state_.has_shaken && state_.is_mixed && is_plain_ice(0, end_))
    return Readings{say("do add ice")};
  std::size_t first = 0;
  if (auto next = after_any(0, {"over", "on", "with"})) first = *next;
  if (!ice_named(first, end_) || is_use(0, end_)) return std::nullopt;
  // `ice`, before anything was worked and no glass is named: the tin's, or that of a glass it is built in.
  bool is_open = first == 0 && is_plain_ice(0, end_) && !state_.was_setting && !state_.was_worked &&
                 !state_.was_built && !state_.is_finished && !state_.liquids.empty();
  if (is_open) {
    Reading ice = over_ice();
    ice.implied = Implied::tin_or_glass;
    return Readings{ice};
  }
  return Readings{is_plain_ice(first, end_) ? over_ice() : implied("ice " + *ice_named(first, end_))};
}

Match FormMatcher::counted_serves() const {
  // `for 12 people`, `makes 10 drinks`
  std::size_t first = is_any(0, {"for", "makes", "yields", "about"}) ? 1 : 0;
  // `enough for 15`, `makes 25`
  auto bare =
      after_any(0, {"enough for", "makes", "makes about", "yields", "feeds", "serve for", "for about"});
  // `makes 620` is no count of guests.
  bool is_yield = bare && is_any(0, {"makes", "yields"}) && *bare < end_ && line_.text(*bare).size() > 2;
  if (bare && line_.kind(*bare) == TokenKind::number && *bare + 1 == end_ && !is_yield)
    return Readings{say("serves").copy(line_, *bare, end_)};
  if (auto people = after_any(0, {"enough for", "for about"})) first = *people;
  if (line_.kind(first) != TokenKind::number || comma_or_end(0) != end_) return std::nullopt;
  bool is_people = after_any(first + 1, {"serves", "servings", "portions", "serves total", "pax", "people",
                                         "guests", "covers", "persons", "drinks", "cups", "pours"}) == end_;
  // Drinks and cups are things, too.
  if (!is_people || (first == 0 && is_any(1, {"drinks", "cups", "pours", "guests", "people", "persons"})))
    return std::nullopt;
  if (is_use(first + 1, end_)) return std::nullopt;
  return Readings{say("serves").copy(line_, first, first + 1)};
}

Match FormMatcher::stands_there() const {
  // `2 h in the fridge`, `30 min at room temperature`: of a drink, which keeps for no one.
  if (state_.liquids.empty() || comma_or_end(0) != end_) return std::nullopt;
  // `chill overnight`, `refrigerate 2 h`
  if (auto cold = after_any(0, {"keep in the fridge for",
                                "keep in the chiller for",
                                "keep in chiller for",
                                "keep chilled for",
                                "keep cold for",
                                "in the fridge for",
                                "in the chiller for",
                                "leave in the fridge for",
                                "leave in the chiller for",
                                "chill in the chiller for",
                                "rest in the fridge for",
                                "hold in the fridge for",
                                "chill",
                                "chill in the fridge",
                                "chill in fridge",
                                "refrigerate",
                                "fridge",
                                "into the fridge",
                                "chill for",
                                "refrigerate for",
                                "fridge for",
                                "leave in the fridge",
                                "leave to chill"})) {
    if (after_any(*cold, {"overnight", "over night"}) == end_)
      return Readings{say("rest 12 h").say(fridge())};
    if (std::size_t stop = time_stop(*cold, end_);
        stop > *cold && (stop == end_ || after_any(stop, {"min", "minimum", "at least", "or more"}) == end_))
      return Readings{say("rest").copy(line_, *cold, stop).say(fridge())};
    return std::nullopt;
  }
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  std::size_t stop = time_stop(0, end_);
  std::string place;
  if (stop == 0 || take_place(stop, place) != end_) return std::nullopt;
  return Readings{say("rest").copy(line_, 0, stop).say(place)};
}

Match FormMatcher::bowl_and_cups() const {
  std::size_t comma = comma_or_end(0);
  std::size_t divider = comma;
  for (std::size_t i = 1; i + 1 < end_ && divider == end_; ++i)
    if (is_any(i, {"and", "&", "+", "with"})) divider = i;
  // `punch bowl + 15 cups`
  if (divider + 1 < end_ && is_any(divider - 1, {"bowl", "punchbowl"}) && is(end_ - 1, "cups") &&
      (divider + 2 == end_ || (divider + 3 == end_ && line_.kind(divider + 1) == TokenKind::number)) &&
      is_name(symbols::NameSpace::glass, 0, divider))
    return Readings{say("glass").copy(line_, 0, divider), say("cup punch cup")};
  if (divider >= end_ || !is_any(divider - 1, {"bowl", "punchbowl"}) ||
      !is_any(end_ - 1, {"cups", "cup", "glasses", "mugs", "coupes"}) ||
      !is_name(symbols::NameSpace::glass, 0, divider) ||
      !is_name(symbols::NameSpace::glass, divider + 1, end_))
    return std::nullopt;
  return Readings{say("glass").copy(line_, 0, divider), say("cup").copy(line_, divider + 1, end_)};
}

Match FormMatcher::serves_where() const {
  // `serves 2 over ice`
  if (!is(0, "serves") || line_.kind(1) != TokenKind::number || end_ < 4) return std::nullopt;
  Readings lines{say("serves").copy(line_, 1, 2)};
  if (!vessel(2, lines)) return std::nullopt;
  return lines;
}

Match FormMatcher::amount_over_ice() const {
  // `100 ml orange juice over ice`, `50 ml gin in a highball`: the amount, and where it goes.
  if (line_.kind(0) != TokenKind::number || comma_or_end(0) != end_ || is_amount(0, end_))
    return std::nullopt;
  for (std::size_t i = 2; i + 1 < end_; ++i) {
    if (!is_any(i, {"over", "on", "into", "in"}) || !is_amount(0, i)) continue;
    Readings lines;
    if (!vessel(i, lines) || lines.empty()) return std::nullopt;
    Reading amount;
    lines.push_back(amount.copy(line_, 0, i));
    return lines;
  }
  return std::nullopt;
}

Match FormMatcher::ice_to_the_top() const {
  // `ice in a highball`
  for (std::size_t i = 1; i + 1 < end_; ++i)
    if (is_any(i, {"in", "into"}) && ice_named(0, i)) {
      std::size_t first = skip_article(i + 1), last = end_;
      if (last > first + 1 && word(last - 1) == "glass" && !is_name(symbols::NameSpace::glass, first, last))
        --last;
      Reading ice = is_plain_ice(0, i) ? over_ice() : implied("ice " + *ice_named(0, i));
      if (is_any(first, {"glass", "tumbler"}) && first + 1 == end_) return Readings{ice};
      if (!is_name(symbols::NameSpace::glass, first, last)) return std::nullopt;
      return Readings{implied("glass").copy(line_, first, last), ice};
    }
  // `more crushed ice on top`
  for (std::size_t i = 1; i + 1 < end_; ++i)
    if (after_any(i,
                  {"on top",         "over the top", "to dome",     "to mound",       "to cap",
                   "to crown",       "in a dome",    "in a mound",  "mounded",        "mounded up",
                   "domed",          "domed up",     "heaped",      "heaped up",      "heaped on top",
                   "mounded on top", "to finish",    "as a cap",    "to form a dome", "to make a dome",
                   "dome",           "cap",          "into a dome", "piled high",     "to build a dome"}) ==
            end_ &&
        ice_named(0, i))
      return Readings{say("add").say(*ice_named(0, i)).say(", \"on top\"")};
  if (is(end_ - 1, "full") && ice_named(0, end_ - 1)) return Readings{say("add ice, \"full\"")};
  // `crushed ice to 3/4 full`, `ice three quarters up`
  for (std::size_t i = 1; i + 1 < end_; ++i) {
    bool by_share =
        (is(i, "to") || is(i, "up")) && (line_.kind(i + 1) == TokenKind::number || number_of(word(i + 1)));
    if (by_share && ice_named(0, i) &&
        (is(end_ - 1, "full") || is(end_ - 1, "up") || is(end_ - 1, "way") || is(end_ - 1, "glass"))) {
      Reading add = say("add").say(is_plain_ice(0, i) ? std::string("ice") : *ice_named(0, i));
      add.text += ", \"" + base::collapse_space(line_.raw(i, end_)) + "\"";
      return Readings{add};
    }
  }
  // `crushed ice to the top`, `ice to the brim of a highball`
  for (std::size_t i = 1; i < end_; ++i) {
    auto top =
        after_any(i, {"up to the rim", "up to rim", "up to the brim", "up to brim", "up to top",
                      "right to the top", "to the top", "to the brim", "to top", "to the rim",
                      "until the top", "until top", "up to the top", "to the top of", "to the brim of"});
    if (!top) continue;
    if (!ice_named(0, i)) return std::nullopt;
    Readings lines;
    std::size_t glass = skip_article(*top), last = end_;
    if (last > glass + 1 && word(last - 1) == "glass" && !is_name(symbols::NameSpace::glass, glass, last))
      --last;
    bool is_bare = is(glass, "glass") && glass + 1 == end_;
    if (glass < end_ && !is_bare) {
      if (!is(*top - 1, "of") || !is_name(symbols::NameSpace::glass, glass, last)) return std::nullopt;
      lines.push_back(implied("glass").copy(line_, glass, last));
    }
    Reading add = say("add");
    if (is_plain_ice(0, i))
      add.say("ice");
    else
      add.say(*ice_named(0, i));
    add.text += ", \"to the brim\"";
    lines.push_back(add);
    return lines;
  }
  return std::nullopt;
}

Match FormMatcher::fill_glass() const {
  if (!is_any(0, {"fill", "pack"})) return std::nullopt;
  std::size_t first = skip_article(1), with = first;
  while (with < end_ && !is(with, "with") && line_.kind(with) != TokenKind::comma) ++with;
  if (!is(with, "with")) return std::nullopt;
  std::size_t bare = with > first + 1 && word(with - 1) == "glass" ? with - 1 : with;
  std::size_t last = is_name(symbols::NameSpace::glass, first, with) ? with : bare;
  std::size_t stop = comma_or_end(with + 1);
  auto ice = ice_named(with + 1, stop);
  if (!ice || !is_name(symbols::NameSpace::glass, first, last)) return std::nullopt;
  Reading glass = implied("glass"), on = is_plain_ice(with + 1, stop) ? over_ice() : implied("ice " + *ice);
  glass.copy(line_, first, last);
  with_rest(on, line_, stop, end_);
  return Readings{glass, on};
}

}  // namespace gill::analysis

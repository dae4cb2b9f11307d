#include "analysis/forms/form_matcher.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "analysis/remark.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;
using units::Kind;

/// `use within 3 weeks, keep in the fridge`, `keep refrigerated up to 1 month`: what says how long, and
/// where, in any order; nothing where one of them is missing or another word stands between.
template <typename TakesPlace>
Match FormMatcher::life_and_place(const TakesPlace& takes_place, std::string& place) const {
  bool said = false, has_time = false, is_one = false, is_day = false;
  std::string where;
  std::size_t time_first = 0, time_last = 0;
  for (std::size_t i = 0; i < end_;) {
    if (line_.kind(i) == TokenKind::comma || (line_.kind(i) == TokenKind::colon && !is(0, "keeps")) ||
        (said && is_any(i, {"and",    "&",    "if",     "when", "it",      "sealed", "airtight",
                            "well",   "then", "only",   "max",  "only",    "tops",   "for",
                            "stored", "kept", "upside", "down", "tightly", "covered"}))) {
      ++i;
      continue;
    }
    if (auto phrase =
            after_any(i, {"keeps for",     "keeps",         "keep for",     "keep",        "good for",
                          "durable",       "stable",        "fresh for",    "stays fresh", "holdable",
                          "max",           "maximum",       "no more than", "lasts",       "lasts for",
                          "store",         "will keep",     "keeps about",  "shelf life",  "shelf-life",
                          "shelf life of", "use within",    "use by",       "store for",   "hold",
                          "holds",         "holds for",     "keeps up to",  "best within", "store up to",
                          "up to",         "discard after", "use in",       "keep it",     "store it",
                          "best before",   "use up within", "lasts up to",  "lasts about", "good up to",
                          "best for",      "drink within",  "drink in",     "closed",      "unopened",
                          "sealed keeps",  "keeps sealed",  "keeps closed", "happy for",   "fine for",
                          "ok for",        "okay for",      "lives"})) {
      said = true;
      i = *phrase;
      continue;
    }
    // `2 weeks in the fridge, sealed`
    if (has_time && !where.empty() && state_.is_finished &&
        is_any(i, {"sealed", "airtight", "covered", "lidded", "labelled"})) {
      said = true;
      ++i;
      continue;
    }
    // `2 days only, fridge`
    if (has_time && is_any(i, {"only", "tops", "max", "maximum"})) {
      said = true;
      ++i;
      continue;
    }
    // `shelf stable, 6 months`
    if (auto stable = after_any(i, {"shelf stable", "shelf-stable", "ambient stable"})) {
      said = true;
      if (where.empty()) where = "ambient";
      i = *stable;
      continue;
    }
    std::string before = std::exchange(place, std::string());
    if (std::size_t next = takes_place(i); next > i) {
      if (!where.empty() && where != place) return place.clear(), std::nullopt;
      where = place;
      i = next;
      continue;
    }
    place = before;
    // `use same day`
    if (auto day = after_any(i, {"use same day", "use the same day", "use on the day", "same day only",
                                 "same day", "use that day"});
        day && !has_time) {
      has_time = said = is_day = true;
      i = *day;
      continue;
    }
    bool one = is_any(i, {"a", "one"});
    std::size_t stop = i;
    if (one) {
      auto match = i + 1 < end_ ? context_.units.match(line_, i + 1) : units::UnitMatch{};
      if (match.unit.valid() && context_.units[match.unit].kind == Kind::time) stop = i + 1 + match.tokens;
    } else {
      stop = time_stop(i, comma_or_end(i));
    }
    if (stop <= i || has_time) return place.clear(), std::nullopt;
    has_time = true;
    is_one = one;
    time_first = one ? i + 1 : i;
    time_last = stop;
    i = stop;
  }
  place.clear();
  if (!said || where.empty() || !has_time) return std::nullopt;
  // The language's own form stays as it is.
  if (is(0, "keeps") && !is_one && time_first == 1 && time_last + 1 == end_ &&
      is_any(time_last, {"chilled", "frozen", "ambient"}))
    return std::nullopt;
  Reading keeps = say("keeps");
  if (is_day) return Readings{keeps.say("1 d").say(where)};
  if (is_one) keeps.say("1");
  keeps.copy(line_, time_first, time_last).say(where);
  return Readings{keeps};
}

bool FormMatcher::still_steeps() const {
  if (state_.is_finished || state_.is_blended) return false;
  return !state_.fat.empty() || std::any_of(state_.solids.begin(), state_.solids.end(), [&](StockId id) {
    StockKind kind = context_.specs[id].kind;
    return kind == StockKind::fruit || kind == StockKind::herb || kind == StockKind::spice ||
           kind == StockKind::tea_coffee || kind == StockKind::garnish;
  });
}

Match FormMatcher::keeps_how_long() const {
  // `24 h at room temperature, out of the light`: how it stands there is a remark.
  for (std::size_t comma = end_; comma-- > 2;)
    if (line_.kind(comma) == TokenKind::comma) {
      std::string other;
      bool is_aside = !take_place(comma + 1, other) && line_.kind(comma + 1) == TokenKind::word &&
                      is_plain_remark(LineReader(line_, context_), comma + 1, end_) &&
                      !after_any(comma + 1, {"sealed", "chilled", "frozen", "shelf", "cold", "freezer"});
      auto head = is_aside ? FormMatcher(line_.part(0, comma), context_, in_prep_, state_).keeps_how_long()
                           : std::nullopt;
      if (!head || head->size() != 1 || head->front().text.starts_with("keeps")) break;
      with_rest(head->front(), line_, comma, end_);
      return head;
    }
  std::size_t i = 0;
  std::string place;
  auto takes_place = [&](std::size_t at) -> std::size_t {
    if (at > 0 && line_.kind(at) == TokenKind::comma) ++at;
    // `at 4 C`: as cold as a fridge or a freezer.
    if (is(at, "at") && line_.kind(at + 1) == TokenKind::number)
      if (auto unit = context_.units.match(line_, at + 2);
          unit.unit.valid() && context_.units[unit.unit].symbol == "C") {
        constexpr double warmest_fridge_c = 8, warmest_freezer_c = -12;  // common practice
        auto number = base::parse_exact(line_.text(at + 1));
        double celsius = number ? base::to_double(*number) : warmest_fridge_c + 1;
        if (celsius <= warmest_freezer_c) return place = "frozen", at + 2 + unit.tokens;
        if (celsius >= 0 && celsius <= warmest_fridge_c) return place = "chilled", at + 2 + unit.tokens;
      }
    if (auto next = after_any(at, {"in the fridge",
                                   "in fridge",
                                   "in a fridge",
                                   "fridge",
                                   "refrigerated",
                                   "in the refrigerator",
                                   "in refrigerator",
                                   "refrigerate",
                                   "keep cold",
                                   "keep chilled",
                                   "keep refrigerated",
                                   "keep in fridge",
                                   "keep in the fridge",
                                   "in the cold room",
                                   "in the coolroom",
                                   "in coolroom",
                                   "in the cool room",
                                   "coolroom",
                                   "coldroom",
                                   "cold room",
                                   "chilled",
                                   "in the walk-in",
                                   "under refrigeration",
                                   "fridged",
                                   "sealed in the fridge",
                                   "sealed in fridge",
                                   "in the cooler",
                                   "in the chiller",
                                   "in chiller",
                                   "chiller",
                                   "cold",
                                   "kept cold",
                                   "in cold room",
                                   "walk-in"}))
      return place = "chilled", *next;
    if (auto next = after_any(at, {"in the freezer", "in freezer", "freezer", "frozen"}))
      return place = "frozen", *next;
    if (auto next = after_any(at, {"at room temperature", "at room temp", "on the shelf", "ambient",
                                   "room temp", "on the counter", "on counter", "on the bench", "on bench",
                                   "out on the counter", "shelf", "on shelf", "dry store", "in the cupboard",
                                   "in a cupboard", "no fridge needed", "no need to chill"});
        next && !is(*next, "life"))
      return place = "ambient", *next;
    return at;
  };
  // What is held for hours stands before it is worked on.
  if (is(0, "hold"))
    for (std::size_t i = 1; i < end_; ++i)
      if (line_.kind(i) == TokenKind::number)
        if (auto unit = context_.units.match(line_, i + 1);
            unit.unit.valid() &&
            (context_.units[unit.unit].symbol == "h" || context_.units[unit.unit].symbol == "min"))
          return std::nullopt;
  // `16 hours cold`: it stands in the cold, or keeps there.
  if (line_.kind(0) == TokenKind::number && is(end_ - 1, "cold") && end_ == 3)
    if (auto unit = context_.units.match(line_, 1);
        unit.unit.valid() &&
        (context_.units[unit.unit].symbol == "h" || context_.units[unit.unit].symbol == "min"))
      return std::nullopt;
  if (auto life = life_and_place(takes_place, place)) return life;
  auto said = after_any(0, {"keeps for",   "keeps",         "keep for",      "keep",       "good for",
                            "lasts",       "lasts for",     "store",         "will keep",  "keeps about",
                            "shelf life",  "shelf life of", "good",          "use within", "use by",
                            "store for",   "hold",          "holds",         "holds for",  "keeps up to",
                            "best within", "store up to",   "discard after", "up to",      "use in"});
  if (said) i = *said;
  if (said && !is(0, "keeps") && line_.kind(i) == TokenKind::colon) ++i;
  if (std::size_t next = takes_place(i); next > i) i = next;
  if (i > 0 && line_.kind(i) == TokenKind::comma) ++i;
  bool one = is_any(i, {"a", "one"});
  std::size_t time = one ? i + 1 : i, stop = 0;
  if (one) {
    auto match = time < end_ ? context_.units.match(line_, time) : units::UnitMatch{};
    if (!match.unit.valid() || context_.units[match.unit].kind != Kind::time) return std::nullopt;
    stop = time + match.tokens;
  } else {
    stop = time_stop(time, end_);
  }
  if (stop <= time) return std::nullopt;
  std::size_t behind = stop;
  if (auto life = after_any(behind, {"shelf life", "shelf-life", "life", "max", "max in", "maximum", "tops"}))
    behind = *life;
  std::size_t last = place.empty() ? takes_place(behind) : behind;
  if (place.empty() || last != end_) return std::nullopt;
  // `freezer 12 h`: it stands there so long.
  auto last_unit = context_.units.match(line_, stop - 1);
  bool are_hours = last_unit.unit.valid() && (context_.units[last_unit.unit].symbol == "h" ||
                                              context_.units[last_unit.unit].symbol == "min");
  if (!said && are_hours && i > 0 && last == stop && behind == stop && place != "ambient")
    return std::nullopt;
  // `room temp 4 hours`: it stands there; nobody keeps a thing for hours in the warm.
  if (auto unit = context_.units.match(line_, stop - 1);
      !said && place == "ambient" && unit.unit.valid() &&
      (context_.units[unit.unit].symbol == "h" || context_.units[unit.unit].symbol == "min"))
    return Readings{say("rest").copy(line_, time, stop).say(room())};
  // `18 hours in the fridge`, while what steeps is still in it: it stands there. Days could be either.
  bool are_months = last_unit.unit.valid() && (context_.units[last_unit.unit].symbol == "mo" ||
                                               context_.units[last_unit.unit].symbol == "y");
  bool is_kept = place != "ambient" && are_months;  // nobody steeps for months in the fridge
  if (!said && !is_kept && (i == 0 || are_hours) && still_steeps()) {
    if (!are_hours) return std::nullopt;
    Reading rest = say(place == "frozen" ? "freeze" : "rest").copy(line_, time, stop);
    if (place != "frozen") rest.say(fridge());
    return Readings{rest};
  }
  // The language's own form stays as it is.
  if (after(0, "keeps") == i && !one && last == stop + 1 && is_any(stop, {"chilled", "frozen", "ambient"}))
    return std::nullopt;
  Reading keeps = say("keeps");
  if (one) keeps.say("1");
  keeps.copy(line_, time, stop).say(place);
  return Readings{keeps};
}

std::string FormMatcher::fridge() const { return fmt::format("at {:g} C", context_.specs.house.fridge_c); }

std::string FormMatcher::room() const { return fmt::format("at {:g} C", context_.specs.house.room_c); }

std::string FormMatcher::freezer() const { return fmt::format("at {:g} C", context_.specs.house.freezer_c); }

std::optional<std::size_t> FormMatcher::take_place(std::size_t i, std::string& place) const {
  if (auto next = after_any(
          i, {"in the fridge", "in fridge", "fridge", "in the refrigerator", "refrigerated", "in the walk-in",
              "in a fridge", "in the cooler", "in walk-in", "in the coolroom", "in coolroom",
              "in the cool room", "in the cold room", "coolroom", "in the chiller", "in chiller", "chiller"}))
    return place = fridge(), next;
  if (auto next = after_any(
          i, {"at room temperature", "at room temp", "on counter", "on bench", "on the counter", "at ambient",
              "room temp", "at rt", "on the side", "out of the fridge", "on the bench", "on the shelf"}))
    return place = room(), next;
  if (auto next = after_any(i, {"in the freezer", "in freezer"})) return place = freezer(), next;
  return std::nullopt;
}

Match FormMatcher::place_and_time() const {
  std::size_t i = 0;
  std::string verb;
  if (auto next = after_any(0, {"let rest",
                                "let stand",
                                "let sit",
                                "let it rest",
                                "let it stand",
                                "leave to stand",
                                "leave to rest",
                                "leave",
                                "stand",
                                "sit",
                                "leave to infuse",
                                "let infuse",
                                "leave it",
                                "leave to steep",
                                "let steep",
                                "leave to macerate",
                                "let macerate",
                                "let it infuse",
                                "let it steep",
                                "leave to curdle",
                                "let curdle",
                                "let it curdle",
                                "leave to sit",
                                "let it sit",
                                "leave to settle",
                                "let settle",
                                "hang",
                                "leave to drain",
                                "let drain",
                                "wait",
                                "allow to rest",
                                "allow to stand",
                                "keep warm",
                                "keep hot",
                                "allow to infuse",
                                "allow to sit",
                                "hold",
                                "let it be",
                                "cover and leave",
                                "cure",
                                "brine",
                                "mellow",
                                "mature",
                                "age"})) {
    verb = after_any(0, {"leave to infuse", "let infuse", "let it infuse", "allow to infuse"}) ? "infuse"
           : after_any(0, {"leave to steep", "let steep", "let it steep"})                     ? "steep"
           : after_any(0, {"leave to macerate", "let macerate"})                               ? "macerate"
                                                                                               : "rest";
    i = *next;
    if (is(0, "hang"))
      if (auto cloth = after_any(i, {"in muslin", "in cheesecloth", "in a muslin", "in a cheesecloth",
                                     "in cloth", "in a cloth", "through muslin", "through cheesecloth"})) {
        // What hangs in a cloth is strained by it.
        FormMatcher rest(line_.part(*cloth, end_), context_, in_prep_, state_);
        std::string time, place;
        std::size_t at = 0;
        while (at < rest.end_) {
          if (auto night = rest.after_any(at, {"overnight", "over night"}))
            time = "12 h", at = *night;
          else if (auto there = rest.take_place(at, place))
            at = *there;
          else if (std::size_t stop = rest.time_stop(rest.is(at, "for") ? at + 1 : at, rest.end_);
                   stop > at + 1) {
            time = base::collapse_space(rest.line_.raw(rest.is(at, "for") ? at + 1 : at, stop));
            at = stop;
          } else {
            return std::nullopt;
          }
        }
        if (time.empty()) return std::nullopt;
        return Readings{say("rest").say(time).say(place), say("strain, through muslin")};
      }
  } else if (is_any(0, {"overnight"}) && end_ < 8) {
    // `overnight in the fridge`
    verb = "rest";
  } else if (auto next_cool = after_any(0, {"let cool", "let it cool", "leave to cool", "allow to cool"})) {
    verb = "cool";
    i = *next_cool;
  } else if (auto found = match_verb(line_, 0)) {
    if (info(found->verb).time == VerbInfo::Time::never || !info(found->verb).takes_temperature)
      return std::nullopt;
    verb = info(found->verb).name;
    i = found->tokens;
  } else {
    return std::nullopt;
  }
  bool cools = verb == "cool" || verb == "chill" || verb == "thaw" || verb == "heat";
  bool changed = !match_verb(line_, 0);
  std::string time, place, aside;
  std::size_t tail = i;
  while (tail < end_) {
    // `let sit another 24 h`
    if (time.empty() && is_any(tail, {"another", "further"}) &&
        time_stop(tail + 1, comma_or_end(tail)) > tail + 2) {
      ++tail;
      changed = true;
      continue;
    }
    if (line_.kind(tail) == TokenKind::comma) {
      std::string other;
      // `cool to room temp, fridge`: the second place is a step of its own.
      if (!place.empty() && take_place(tail + 1, other)) break;
      if (!take_place(tail + 1, other) && !is(tail + 1, "overnight") &&
          !is_time(tail + 1, comma_or_end(tail + 1)))
        break;
      ++tail;
      changed = true;
      continue;
    }
    // `leave covered at room temperature`: said of it.
    if (auto how = after_any(tail, {"covered", "uncovered", "undisturbed", "in the dark", "out of the light",
                                    "lid on", "airtight", "sealed", "out", "in a dark cupboard", "to infuse",
                                    "in a dark place", "in a cool dark place", "away from light"});
        how && tail > 0) {
      aside += (aside.empty() ? "" : " ") + base::collapse_space(line_.raw(tail, *how));
      tail = *how;
      changed = true;
    } else if (auto next = after_any(tail, {"overnight", "over night"})) {
      time = "12 h";
      tail = *next;
      changed = true;
    } else if (auto at = take_place(tail, place)) {
      tail = *at;
      changed = true;
    } else if (cools && after_any(tail, {"to room temperature", "to room temp", "to fridge temperature"})) {
      place = fmt::format("to {:g} C", after(tail, "to fridge temperature") ? context_.specs.house.fridge_c
                                                                            : context_.specs.house.room_c);
      tail += 3;
      changed = true;
    } else if (cools && after_any(tail, {"completely", "down", "fully"})) {
      ++tail;
      changed = true;
    } else if (std::size_t last = time_stop(is(tail, "for") ? tail + 1 : tail, comma_or_end(tail));
               last > tail + 1) {
      std::size_t first = is(tail, "for") ? tail + 1 : tail;
      time = base::collapse_space(line_.raw(first, last));
      changed = changed || is(tail, "for");
      tail = last;
    } else {
      break;
    }
  }
  // `leave to cool with the pod in`
  std::size_t left_in = tail;
  if (verb == "cool" && is(tail, "with") && is(comma_or_end(tail) - 1, "in") &&
      poured_already(tail + 1, comma_or_end(tail) - 1))
    tail = comma_or_end(tail);
  if (!changed || (tail < end_ && line_.kind(tail) != TokenKind::comma)) return std::nullopt;
  if (verb == "cool" && place.starts_with("at ")) place = "to " + place.substr(3);
  if (verb == "cool" && place.empty()) place = "to " + room().substr(3);
  Reading reading = say(verb).say(time).say(place);
  if (!aside.empty()) reading.text += ", \"" + aside + "\"";
  if (left_in < tail) reading.text += ", \"" + base::collapse_space(line_.raw(left_in, tail)) + "\"";
  with_rest(reading, line_, tail, end_);
  return Readings{reading};
}

Match FormMatcher::boil() const {
  // `boil ginger in the water for 20 min`: what stands above.
  if (is_any(0, {"boil", "simmer"}))
    for (std::size_t i = 2; i < comma_or_end(0); ++i) {
      std::size_t time = is(i, "for") ? i + 1 : i, in = 1;
      if (!is_time(time, comma_or_end(0))) continue;
      while (in < i && !is_any(in, {"in", "with"})) ++in;
      bool are_above = poured_already(1, in) && (in == i || poured_already(in + 1, i));
      if (!are_above) break;
      Reading heat = say(is(0, "boil") ? "heat to 100 C for" : "simmer").copy(line_, time, comma_or_end(0));
      heat.text += ", \"" + base::collapse_space(line_.raw(1, i)) + "\"";
      return Readings{with_rest(heat, line_, comma_or_end(0), end_)};
    }
  // `bring water and sugar to a boil`
  if (is(0, "bring"))
    for (std::size_t i = 2; i < comma_or_end(0); ++i)
      if (is_any(i, {"to", "up", "just"}) && poured_already(1, i)) {
        return Readings{say("bring").copy(line_, i, end_)};
      }
  if (after_any(0, {"boil up once", "boil once", "bring to the boil once", "boil up",
                    "bring up to a boil once"}) == comma_or_end(0)) {
    Reading once = say("heat to 100 C");
    return Readings{with_rest(once, line_, comma_or_end(0), end_)};
  }
  // `reduce to a simmer, 15 min`: the heat, not the amount.
  if (auto lower =
          after_any(0, {"reduce to a simmer", "reduce to simmer", "reduce heat to a simmer",
                        "reduce the heat to a simmer", "reduce heat and simmer", "turn down to a simmer",
                        "turn down and simmer", "turn down to simmer", "lower to a simmer", "lower to simmer",
                        "drop to a simmer", "drop to simmer", "lower heat and simmer",
                        "turn heat down and simmer", "reduce heat, simmer"})) {
    std::size_t time = *lower;
    if (time < end_ && line_.kind(time) == TokenKind::comma) ++time;
    if (is(time, "for")) ++time;
    std::size_t stop = comma_or_end(time);
    Reading simmer = say("simmer");
    if (time < stop && is_time(time, stop))
      simmer.copy(line_, time, stop);
    else if (*lower != comma_or_end(*lower))
      return std::nullopt;
    else
      stop = *lower;
    return Readings{with_rest(simmer, line_, stop, end_)};
  }
  auto next = after_any(0, {"bring to the boil",
                            "bring to a boil",
                            "bring to boil",
                            "boil",
                            "bring up to the boil",
                            "bring it to the boil",
                            "bring up to boil",
                            "bring it to a boil",
                            "heat to boiling",
                            "heat to the boil",
                            "bring just to the boil",
                            "bring just to a boil",
                            "bring to a simmer",
                            "bring to a gentle simmer",
                            "bring to a light simmer",
                            "bring to a low simmer",
                            "bring up to a gentle simmer",
                            "bring to simmer",
                            "bring up to a simmer",
                            "bring it to a simmer"});
  if (!next) return std::nullopt;
  Reading heat = say("heat to 100 C");
  if (is(*next - 1, "simmer")) heat = say("simmer");
  bool simmers = is(*next - 1, "simmer");
  std::size_t i = is(*next, "for") ? *next + 1 : *next, stop = comma_or_end(i);
  if (i < stop) {
    if (!is_time(i, stop)) return std::nullopt;
    if (!simmers) heat.say("for");
    heat.copy(line_, i, stop);
  }
  with_rest(heat, line_, stop, end_);
  return Readings{heat};
}

Match FormMatcher::reduce_share() const {
  auto next = after_any(0, {"reduce by", "boil down by", "reduce to", "cook down by"});
  bool to = after(0, "reduce to").has_value();
  std::size_t how_end = 0;
  // `simmer gently until reduced by half`
  if (!next && is_any(0, {"simmer", "boil", "heat", "cook", "cook down", "warm"}))
    for (std::size_t i = 1; i < comma_or_end(0) && !next; ++i)
      if (auto until = after_any(i, {"until reduced by", "until reduced to", "until it reduces by",
                                     "to reduce by", "until it has reduced by"})) {
        next = until;
        to = is(*until - 1, "to");
        how_end = i;
      }
  if (!next) return std::nullopt;
  for (std::size_t i = 1; i < how_end; ++i)
    if (!is_adverb(word(i)) && !is_any(i, {"on", "over", "low", "medium", "heat", "a", "down"}))
      return std::nullopt;
  static const std::map<std::string_view, std::string_view> shares = {
      {"half", "50 %"},      {"a half", "50 %"},      {"one half", "50 %"},
      {"a third", "33.3 %"}, {"one third", "33.3 %"}, {"two thirds", "66.7 %"},
      {"a quarter", "25 %"}, {"one quarter", "25 %"}, {"three quarters", "75 %"}};
  std::size_t stop = comma_or_end(*next);
  static const std::map<std::string_view, std::string_view> figures = {
      {"1/2", "half"},      {"1/3", "a third"}, {"2/3", "two thirds"},
      {"1/4", "a quarter"}, {"½", "half"},      {"3/4", "three quarters"}};
  std::string words = base::lower_ascii(base::collapse_space(line_.raw(*next, stop)));
  if (auto figure = figures.find(words); figure != figures.end()) words = figure->second;
  auto share = shares.find(words);
  if (share == shares.end()) return std::nullopt;
  static const std::map<std::string_view, std::string_view> left = {
      {"50 %", "50 %"}, {"33.3 %", "66.7 %"}, {"66.7 %", "33.3 %"}, {"25 %", "75 %"}, {"75 %", "25 %"}};
  Reading reduce = say("reduce by").say(to ? left.at(share->second) : share->second);
  if (how_end > 0) reduce.text += ", \"" + base::collapse_space(line_.raw(0, how_end)) + "\"";
  with_rest(reduce, line_, stop, end_);
  return Readings{reduce};
}

Match FormMatcher::make_up_to() const {
  auto next = after_any(
      0, {"make up to", "top up to", "fill up to", "bring up to", "make it up to", "top to", "fill to"});
  if (!next || !begins_quantity(*next)) return std::nullopt;
  // `bring up to 80 C` is a warmth.
  if (auto unit = context_.units.match(line_, *next + 1);
      unit.unit.valid() && context_.units[unit.unit].kind == Kind::temperature)
    return std::nullopt;
  std::size_t with = *next;
  while (with < end_ && !is(with, "with") && line_.kind(with) != TokenKind::comma) ++with;
  Reading fill = say("to");
  fill.copy(line_, *next, with);
  if (is(with, "with")) {
    std::size_t stop = comma_or_end(with);
    fill.copy(line_, with + 1, stop);
    with_rest(fill, line_, stop, end_);
  } else {
    fill.say("water");
    with_rest(fill, line_, with, end_);
  }
  return Readings{fill};
}

Match FormMatcher::strain_through() const {
  // `pass`: through the sieve that every kitchen has.
  if (after_any(0, {"pass", "pass it", "sieve", "sieve it"}) == end_) return Readings{say("strain")};
  for (Verb verb : {Verb::double_strain, Verb::fine_strain, Verb::strain}) {
    auto at = verb_at(0, verb);
    // `strain twice through paper`, `strain x2, paper`
    std::size_t through = at.value_or(0);
    bool is_doubled = at && line_.kind(through) == TokenKind::number && line_.text(through) == "2";
    bool twice = at && (is_any(through, {"twice", "again"}) || is_doubled);
    if (twice) ++through;
    if (twice && line_.kind(through) == TokenKind::comma && filter_at(through + 1) == end_) {
      Reading filtered = say(info(verb).name);
      filtered.text += ", through";
      filtered.copy(line_, through + 1, end_);
      filtered.text += ", twice";
      return Readings{filtered};
    }
    // `strain cloth`, `strain coffee filter`
    if (at && !twice && filter_at(through) == comma_or_end(through) && through < comma_or_end(through)) {
      Reading filtered = say(info(verb).name);
      filtered.text += ", through";
      filtered.copy(line_, through, comma_or_end(through));
      return Readings{with_rest(filtered, line_, comma_or_end(through), end_)};
    }
    if (!at || !is(through, "through") || through + 1 >= end_) continue;
    // `strain through a coffee filter overnight in the fridge`: it takes so long there.
    if (auto filter = filter_at(skip_article(through + 1)); filter && *filter < comma_or_end(through)) {
      std::size_t stop = comma_or_end(through);
      auto stands = FormMatcher(line_.part(*filter, stop), context_, in_prep_, state_).place_and_time();
      std::size_t time = is(*filter, "for") ? *filter + 1 : *filter;
      Reading drip = say(info(verb).name);
      drip.text += ",";
      drip.copy(line_, through, *filter);
      if (!stands && is_time(time, time_stop(time, stop))) {
        std::string place;
        std::size_t last = time_stop(time, stop);
        bool is_placed = last < stop && take_place(last, place) == stop;
        if (last == stop || is_placed) stands = Readings{say("rest").copy(line_, time, last).say(place)};
      }
      if (stands) {
        stands->push_back(with_rest(drip, line_, stop, end_));
        return stands;
      }
    }
    Reading strain = say(info(verb).name);
    strain.text += ",";
    strain.copy(line_, through, end_);
    if (twice) strain.text += ", twice";
    return Readings{strain};
  }
  // `strain out the solids`, `strain well`, `strain and discard solids`.
  for (Verb verb : {Verb::double_strain, Verb::fine_strain, Verb::strain}) {
    auto at = verb_at(0, verb);
    auto gone = at ? after_any(*at, {"out solids", "out the solids", "off solids", "off the solids", "off",
                                     "out", "and discard solids", "and discard the solids", "solids",
                                     "the solids", "and bin solids", "out the bits", "it"})
                   : std::nullopt;
    if (!gone) continue;
    Reading strain = say(info(verb).name);
    if (*gone == comma_or_end(*gone)) return Readings{with_rest(strain, line_, *gone, end_)};
    if (!is(*gone, "through")) continue;
    strain.text += ",";
    return Readings{strain.copy(line_, *gone, end_)};
  }
  // `pour the vodka through a coffee filter`: what stands above, or all of it.
  if (auto poured = after_any(0, {"pour", "run", "ladle", "drip"})) {
    std::size_t through = *poured;
    while (through < end_ && !is(through, "through")) ++through;
    std::size_t what = skip_article(*poured);
    bool is_all =
        what == through || (what + 1 == through && is_any(what, {"it", "all", "mix", "liquid", "mixture"}));
    if (through + 1 < end_ && (is_all || poured_already(what, through)) &&
        filter_at(skip_article(through + 1)) == comma_or_end(through)) {
      Reading strain = say("strain");
      strain.text += ",";
      return Readings{strain.copy(line_, through, end_)};
    }
  }
  // The filter alone: `coffee filter`, `through muslin`, `pass through a chinois`.
  std::size_t filter =
      after_any(0, {"pass through", "filter through", "through", "pass thru", "run through"}).value_or(0);
  std::size_t name = is_any(filter, {"a", "the"}) ? filter + 1 : filter;
  if (is_any(name, {"fine", "double"})) ++name;
  if (auto known = filter_at(name);
      known && !is(0, "filter") &&
      (*known == end_ ||
       (line_.kind(*known) == TokenKind::comma && filter > 0 && line_.kind(*known + 1) == TokenKind::word &&
        is_plain_remark(LineReader(line_, context_), *known + 1, end_)) ||
       (is_any(*known, {"until", "till"}) && end_ - *known <= 4))) {
    Reading strain = say("strain");
    strain.text += ", through";
    return Readings{strain.copy(line_, is_any(filter, {"a", "the"}) ? filter + 1 : filter, end_)};
  }
  if (is(0, "filter")) {
    Reading strain = say("fine strain");
    if (auto off = after_any(1, {"off fat", "off the fat", "off the solids", "off solids", "out solids"})) {
      if (*off != end_) return std::nullopt;
      if (is_any(*off - 1, {"fat"}) && !state_.fat.empty())
        return Readings{say("remove").say(state_.fat), strain.say(",").say("through a filter")};
      return Readings{strain.say(",").say("through a filter")};
    }
    if (is(1, "through")) {
      strain.text += ",";
      strain.copy(line_, 1, end_);
    } else if (is_any(1, {"until", "till"}) && comma_or_end(1) == end_ && end_ <= 5) {
      strain.text += ", \"" + base::collapse_space(line_.raw(1, end_)) + "\"";
    } else if (end_ == 1) {
      strain.text += ", through a filter";
    } else {
      return std::nullopt;
    }
    return Readings{strain};
  }
  return std::nullopt;
}

std::optional<std::size_t> FormMatcher::filter_at(std::size_t i) const {
  auto next = after_any(
      i, {"coffee filter", "coffee filters", "paper filter", "filter paper", "muslin",  "cheesecloth",
          "chinois",       "superbag",       "super bag",    "nut milk bag", "nut bag", "tea strainer",
          "fine mesh",     "mesh strainer",  "sieve",        "oil filter",   "v60",     "cloth",
          "fine sieve",    "jelly bag",      "paper"});
  if (next && is_any(*next, {"x2", "twice"})) ++*next;
  if (next && is(*next, "x") && line_.kind(*next + 1) == TokenKind::number) ++*next;
  if (next && line_.kind(*next) == TokenKind::number && *next + 1 == end_) ++*next;
  return next;
}

Match FormMatcher::until_dissolved() const {
  // `stir until the sugar has dissolved`, `heat gently until dissolved`, `warm to dissolve`, `shake to
  // dissolve`.
  auto how = after_any(0, {"stir", "mix", "whisk", "shake", "warm", "heat", "heat through", "warm through",
                           "warm up", "heat up", "stir well", "stir together", "blend"});
  if (!how) return std::nullopt;
  bool by_heat = is_any(0, {"warm", "heat"});
  std::size_t at = manner_stop(*how);
  auto until = after_any(at, {"until", "till", "til", "so that", "so"});
  std::size_t stop = comma_or_end(at);
  bool dissolves = false;
  if (until) {
    std::size_t last = *until;
    while (last < stop &&
           !is_any(last, {"dissolved", "dissolves", "dissolve", "incorporated", "melted", "melts"}))
      ++last;
    // `until the sugar has fully dissolved`: few words, and no figure.
    dissolves = last < stop && last + 1 == stop && last - *until <= 5;
    if (is_any(last, {"melted", "melts", "incorporated"}) && !by_heat) return std::nullopt;
    for (std::size_t i = *until; i < last; ++i) dissolves = dissolves && line_.kind(i) == TokenKind::word;
    if (is_any(last, {"melted", "melts"})) dissolves = false;
  } else if (auto to = after_any(at, {"to dissolve", "to dissolve the sugar", "to dissolve sugar"})) {
    dissolves = *to == stop;
  }
  if (!dissolves) return std::nullopt;
  Reading dissolve = say("dissolve");
  if (by_heat || at > *how) dissolve.text += ", \"" + base::collapse_space(line_.raw(0, at)) + "\"";
  with_rest(dissolve, line_, stop, end_);
  return Readings{dissolve};
}

Match FormMatcher::strained_off() const {
  // `strain off the chillies`, `strain out the peels`: what a strain takes.
  for (Verb verb : {Verb::double_strain, Verb::fine_strain, Verb::strain}) {
    auto at = verb_at(0, verb);
    auto off = at ? after_any(*at, {"off", "out"}) : std::nullopt;
    if (!off) continue;
    std::size_t first = skip_article(*off), stop = comma_or_end(first);
    bool is_fat = first + 1 == stop && is_any(first, {"fat", "butter", "oil", "fats"}) && !state_.fat.empty();
    if (is_fat) return Readings{say("remove").say(state_.fat), say(info(verb).name)};
    bool is_plain = first < stop && stop - first <= 3 && !(state_.liquids.empty() && state_.solids.empty());
    for (std::size_t i = first; i < stop; ++i)
      is_plain = is_plain && line_.kind(i) == TokenKind::word && !number_of(word(i)) &&
                 !match_verb(line_, i) && !is_any(i, {"through", "into", "in", "and", "with"});
    if (first >= stop || !(is_plain || named_solid(first, stop))) return std::nullopt;
    Reading strain = say(info(verb).name);
    strain.text += ", \"" + base::collapse_space(line_.raw(*at, stop)) + "\"";
    return Readings{with_rest(strain, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::pressed_out() const {
  // `press on the solids`, `squeeze out the pulp well`: what the strainer holds is pressed.
  if (!is_any(0, {"press", "pressing", "squeeze", "squeezing", "wring", "push"})) return std::nullopt;
  std::size_t stop = comma_or_end(0), i = 1;
  bool names_it = stop > 1 && is_any(0, {"squeeze", "wring", "press"}) && !begins_quantity(1);
  for (; i < stop; ++i) {
    if (is_any(i, {"solids", "pulp", "liquid", "juice", "it", "cloth", "bag", "muslin", "cheesecloth"}))
      names_it = true;
    else if (poured_already(i, i + 1))
      names_it = true;
    else if (!is_adverb(word(i)) &&
             !is_any(i, {"on",    "out",   "down",    "the",     "all",  "any",    "dry", "of",
                         "fruit", "peels", "berries", "every",   "drop", "last",   "bit", "as",
                         "much",  "you",   "can",     "through", "to",   "extract"}))
      return std::nullopt;
  }
  if (!names_it || is(0, "push") || is_any(1, {"through"})) return std::nullopt;
  Reading press = say("press");
  press.text += ", \"" + base::collapse_space(line_.raw(0, stop)) + "\"";
  return Readings{with_rest(press, line_, stop, end_)};
}

Match FormMatcher::keg_of() const {
  // `keg 5 l`, `keg`, `into a keg`: bottled, in a keg.
  static constexpr std::array<std::string_view, 3> vessels = {"keg", "can", "pouch"};
  std::size_t i = after_any(0, {"into a", "into", "in a", "fill"}).value_or(0);
  auto vessel = std::find(vessels.begin(), vessels.end(), word(i));
  if (vessel == vessels.end() || i >= end_) return std::nullopt;
  std::size_t stop = comma_or_end(i);
  Reading bottle = say("bottle");
  if (begins_quantity(i + 1))
    bottle.copy(line_, i + 1, stop);
  else if (i + 1 != stop && manner_stop(i + 1) != stop)
    return std::nullopt;
  bottle.text += ", " + std::string(*vessel);
  with_rest(bottle, line_, stop, end_);
  return Readings{bottle};
}

Match FormMatcher::storage_alone() const {
  // `keep in the freezer`: where, and nobody says how long.
  auto next = after_any(0, {"keep", "keep it", "store", "hold", "keep refrigerated", "store it"});
  std::string place;
  if (!next) return std::nullopt;
  std::size_t stop = end_;
  auto where = take_place(*next, place);
  if (!where)
    where = after_any(*next, {"cold", "chilled", "cool", "frozen", "sealed", "airtight", "at all times"});
  if (after(0, "keep refrigerated") == stop) where = stop;
  if (!where || (*where != stop && manner_stop(*where) != stop)) return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

Match FormMatcher::carbonate_at() const {
  // `carbonate 3.5 vol`; a pressure says nothing without its temperature and is asked about.
  auto at = verb_at(0, Verb::carbonate);
  std::size_t first = at && is(*at, "at") ? *at + 1 : at.value_or(0);
  if (!at || !begins_quantity(first)) return std::nullopt;
  std::size_t unit = first + 1;
  auto match = context_.units.match(line_, unit);
  if (!match.unit.valid() || context_.units[match.unit].kind != Kind::gas) return std::nullopt;
  Reading reading = say("carbonate to");
  return Readings{reading.copy(line_, first, end_)};
}

Match FormMatcher::charge_with() const {
  // `2 chargers`, `charge with 2 N2O`, `charge twice`.
  std::size_t i = after_any(0, {"charge with", "charge", "add", "hit with"}).value_or(0);
  bool by_verb = is(0, "charge");
  std::string count;
  std::size_t next = i + 1;
  if (line_.kind(i) == TokenKind::number)
    count = base::collapse_space(line_.raw(i, i + 1));
  else if (auto number = i < end_ ? number_of(word(i)) : std::nullopt)
    count = *number;
  else if (by_verb && is_any(i, {"once", "twice"}))
    count = is(i, "once") ? "1" : "2";
  else
    return std::nullopt;
  if (is(next, "x")) ++next;
  auto what = after_any(next, {"chargers", "charger", "n2o chargers", "n2o", "n2o charger", "cream chargers",
                               "cream charger", "co2 chargers", "co2", "nitrous chargers", "bulbs", "charges",
                               "charge", "n2o charges", "cartridges", "cartridge"});
  if (!what && !is_any(i, {"once", "twice"})) return std::nullopt;
  std::size_t stop = what.value_or(next);
  if (comma_or_end(stop) != stop) return std::nullopt;
  Reading charge = say("charge").say(count);
  with_rest(charge, line_, stop, end_);
  return Readings{charge};
}

Match FormMatcher::sized_vessel() const {
  // `bottle in 750 ml`, `bottle in 6 x 150 ml`
  if (auto at = verb_at(0, Verb::bottle); at && is_any(*at, {"in", "into"})) {
    std::size_t size = *at + 1;
    if (line_.kind(size) == TokenKind::number && is(size + 1, "x")) size += 2;
    auto unit = line_.kind(size) == TokenKind::number ? unit_at(size + 1) : std::nullopt;
    if (!unit) return std::nullopt;
    // `bottle in 700 ml glass bottles`
    std::size_t noun = *unit;
    while (is_any(noun, {"glass", "clean", "swing", "swing-top", "top", "dropper", "sterile", "sterilised",
                         "screw", "plastic", "flip-top"}))
      ++noun;
    if (is_any(noun, {"bottle", "bottles", "jar", "jars", "btls"})) ++noun;
    if (noun != comma_or_end(0)) return std::nullopt;
    Reading bottle = say("bottle").copy(line_, size, *unit);
    if (size > *at + 1) bottle.text += ", \"" + base::collapse_space(line_.raw(*at, *unit)) + "\"";
    return Readings{with_rest(bottle, line_, noun, end_)};
  }
  // `60 ml dropper bottles`, `into a 1 l siphon`
  std::size_t i = after_any(0, {"into", "in", "fill", "pour into", "decant into", "transfer to",
                                "bottle into", "bottle in", "portion in", "portion into", "divide into"})
                      .value_or(0);
  bool by_word = i > 0;
  i = skip_article(i);
  std::size_t stop = comma_or_end(i), size_end = i;
  if (line_.kind(i) == TokenKind::number)
    if (auto unit = unit_at(i + 1); unit && *unit < stop) size_end = *unit;
  if (size_end == i || size_end >= stop) return std::nullopt;
  const auto& unit = context_.units[context_.units.match(line_, i + 1).unit];
  if (unit.kind != Kind::volume) return std::nullopt;
  std::size_t noun = stop - 1;
  for (std::size_t k = size_end; k < noun; ++k)
    if (!is_any(k, {"dropper", "glass",   "swing",      "swing-top",  "top",   "squeeze",   "squeezy",
                    "clean",   "sterile", "sterilised", "sterilized", "amber", "deli",      "plastic",
                    "cream",   "soda",    "dasher",     "flip-top",   "mason", "preserving"}))
      return std::nullopt;
  bool is_portioned = is_any(0, {"portion", "divide"});
  bool is_bottle = is_portioned || is_any(noun, {"bottle", "bottles", "jar", "jars", "droppers", "dashers",
                                                 "bag-in-box", "carboy", "demijohn"});
  bool is_other = is_any(noun, {"siphon", "whipper", "tub", "tubs", "container", "containers", "deli",
                                "delis", "bag", "bags", "cambro", "bucket"});
  if (is_other && !is_portioned && by_word && stop == end_) return Readings{say("do").copy(line_, 0, end_)};
  if (!is_bottle) return std::nullopt;
  Reading bottle = say("bottle");
  bottle.copy(line_, i, size_end);
  bottle.text += ", \"" + base::collapse_space(line_.raw(size_end, stop)) + "\"";
  return Readings{with_rest(bottle, line_, stop, end_)};
}

Match FormMatcher::off_heat() const {
  // `siphon`: what it is put into.
  bool is_vessel = end_ == 1 && is_any(0, {"siphon", "whipper", "vac-bag", "tub", "jar", "deli", "cambro",
                                           "bucket", "jugs", "jug"});
  if (is_vessel ||
      after_any(0, {"quart container",  "deli container",     "squeeze bottle",  "squeezy bottle",
                    "mason jar",        "kilner jar",         "vac bag",         "zip bag",
                    "sealed container", "airtight container", "sealed jar",      "clean jar",
                    "clean container",  "plastic tub",        "bucket with lid", "lidded bucket",
                    "tub with lid",     "jar with lid",       "airtight tub",    "airtight jar"}) == end_)
    return Readings{say("do").copy(line_, 0, end_)};
  auto next = after_any(0, {"take off heat", "take off the heat", "take it off the heat", "remove from heat",
                            "remove from the heat", "kill heat", "kill the heat", "turn off heat",
                            "turn off the heat", "turn the heat off", "off heat", "off the heat", "heat off",
                            "cut the heat", "cut heat", "pull off the heat", "pull from the heat"});
  if (!next || *next != end_) return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

Match FormMatcher::poured_together() const {
  // The amounts stand above; which goes into which is work of the hands.
  if (!is_any(0, {"pour", "add", "tip", "drizzle", "ladle"})) return std::nullopt;
  if (std::size_t comma = comma_or_end(0); comma != end_) {
    // `pour the punch into the milk, slowly`
    FormMatcher head(line_.part(0, comma), context_, in_prep_, state_);
    bool is_aside = line_.kind(comma + 1) == TokenKind::string && comma + 2 == end_;
    if (!head.poured_together() || !(is_aside || manner_stop(comma + 1) == end_)) return std::nullopt;
    return Readings{say("do").copy(line_, 0, end_)};
  }
  std::size_t into = 1;
  while (into < end_ && !is_any(into, {"into", "over", "onto", "to", "on"})) ++into;
  if (into + 1 >= end_) return std::nullopt;
  auto is_above = [&](std::size_t first, std::size_t last) {
    first = skip_article(first);
    while (first + 1 < last &&
           is_any(first, {"hot", "warm", "cold", "boiling", "rest", "of", "the", "cooled"}))
      ++first;
    while (last > first + 1 && is_adverb(word(last - 1))) --last;
    if (first + 1 == last &&
        is_any(first, {"punch", "mix", "mixture", "batch", "cocktail", "liquid", "base", "rest", "booze",
                       "syrup", "milk", "cream", "juice", "spirit", "it", "fruit", "sugar", "peels", "zest"}))
      return !state_.liquids.empty();
    FormMatcher part(line_.part(first, last), context_, in_prep_, state_);
    return part.poured_already(0) == last - first;
  };
  // `pour hot into the bourbon`, `pour over cucumbers`: what is poured is what stands there.
  std::size_t what = 1;
  while (what < into &&
         is_any(what, {"hot", "warm", "cold", "while", "still", "slowly", "it", "all", "straight"}))
    ++what;
  if ((what < into && !is_above(1, into)) || !is_above(into + 1, end_)) return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

Match FormMatcher::bottled_in() const {
  // `dropper bottle`, `swing top bottles`: what it is kept in.
  auto kind = after_any(
      0,
      {"dasher",      "dropper",         "squeezy",     "squeeze",     "swing top",     "swing-top",
       "sterilised",  "clean",           "glass",       "plastic",     "spray",         "atomiser",
       "labelled",    "sealed",          "into",        "in",          "into a",        "in a",
       "into clean",  "into sterilised", "pour into",   "funnel into", "decant into",   "fill in",
       "fill into",   "fill in to",      "fill",        "filled in",   "put in",        "put into",
       "fill hot in", "fill hot into",   "fill in hot", "fill hot",    "bottle hot in", "funnel hot into"});
  while (kind && is_any(*kind, {"clean", "sterile", "sterilised", "sterilized", "warm", "hot", "glass",
                                "small", "sealed", "swing-top", "the", "warmed"}))
    ++*kind;
  if (!kind || !is_any(*kind, {"bottle", "bottles", "jar", "jars"})) return std::nullopt;
  std::size_t stop = *kind + 1;
  // `dropper bottles, no fridge needed`: words that hide nothing.
  bool is_said = stop < end_ && line_.kind(stop) == TokenKind::comma &&
                 after_any(stop + 1, {"no fridge needed", "no fridge", "forever", "keeps forever",
                                      "lasts forever", "no need to chill"}) == end_;
  if (stop != end_ && !is_said) return std::nullopt;
  Reading bottle = say("bottle");
  bottle.text += ", \"" + base::collapse_space(line_.raw(0, end_)) + "\"";
  return Readings{bottle};
}

Match FormMatcher::in_ice_bath() const {
  auto next = after_any(
      0, {"ice bath", "in an ice bath", "into an ice bath", "chill in an ice bath", "cool in an ice bath",
          "chill in ice bath", "cool in ice bath", "cool over ice", "set in ice bath", "set in an ice bath",
          "set over ice", "plunge into an ice bath", "into ice bath"});
  if (!next || *next != comma_or_end(*next)) return std::nullopt;
  Reading cool = say("cool");
  cool.text += ", \"in an ice bath\"";
  return Readings{with_rest(cool, line_, *next, end_)};
}

Match FormMatcher::heated_and_held() const {
  // `heat to 70 C, hold 20 min`, `bring up to 85 C and hold for 10 min`
  std::size_t held = 1;
  while (held < end_ &&
         !(is_any(held, {"hold", "keep", "held", "stay"}) &&
           (line_.kind(held - 1) == TokenKind::comma || is_any(held - 1, {"and", "then", "&"}))))
    ++held;
  if (held + 1 >= end_) return std::nullopt;
  std::size_t stop = held - 1;
  while (stop > 1 && (line_.kind(stop - 1) == TokenKind::comma || is_any(stop - 1, {"and", "then"}))) --stop;
  std::size_t time =
      after_any(held + 1, {"there for", "for", "it for", "it there for", "it at that for", "there"})
          .value_or(held + 1);
  std::size_t end = time_stop(time, comma_or_end(time));
  if (end == time || end != comma_or_end(time)) return std::nullopt;
  FormMatcher head(line_.part(0, stop), context_, in_prep_, state_);
  // `bring to a simmer and hold 5 min`
  if (auto boiled = head.boil(); boiled && boiled->size() == 1) {
    Reading& held_heat = boiled->front();
    if (held_heat.text != "simmer" && held_heat.text != "heat to 100 C") return std::nullopt;
    if (held_heat.text != "simmer") held_heat.say("for");
    held_heat.copy(line_, time, end);
    with_rest(held_heat, line_, end, end_);
    return boiled;
  }
  auto warmed = head.warm_to();
  Reading heat;
  if (warmed && warmed->size() == 1)
    heat = warmed->front();
  else if (auto at = verb_at(0, Verb::heat); at && is(*at, "to") && stop > *at + 2)
    heat.copy(line_, 0, stop);
  else
    return std::nullopt;
  if (heat.text.find(" for ") != std::string::npos) return std::nullopt;
  heat.say("for").copy(line_, time, end);
  return Readings{with_rest(heat, line_, end, end_)};
}

Match FormMatcher::sous_vide() const {
  auto next = after_any(0, {"sous vide", "circulate", "water bath", "in a water bath", "in the water bath"});
  if (!next) return std::nullopt;
  std::size_t i = *next, stop = comma_or_end(0);
  std::string warmth, time;
  while (i < stop) {
    if (is_any(i, {"at", "for"})) {
      ++i;
      continue;
    }
    if (std::size_t last = time_stop(i, stop); last > i && time.empty()) {
      time = base::collapse_space(line_.raw(i, last));
      i = last;
      continue;
    }
    auto unit = context_.units.match(line_, i + 1);
    if (line_.kind(i) != TokenKind::number || !unit.unit.valid() || !warmth.empty() ||
        context_.units[unit.unit].kind != Kind::temperature)
      return std::nullopt;
    warmth = base::collapse_space(line_.raw(i, i + 1 + unit.tokens));
    i += 1 + unit.tokens;
  }
  if (warmth.empty() || time.empty()) return std::nullopt;
  Reading heat = say("heat to").say(warmth).say("for").say(time);
  return Readings{with_rest(heat, line_, stop, end_)};
}

Match FormMatcher::mixed_in() const {
  auto next = after_any(0, {"stir in", "whisk in", "mix in", "fold in", "whisk", "stir", "blend in"});
  if (!next) return std::nullopt;
  std::size_t stop = comma_or_end(*next), into = *next;
  if (*next >= stop || begins_quantity(*next)) return std::nullopt;
  while (into < stop && !is_any(into, {"into", "through", "in"})) ++into;
  FormMatcher head(line_.part(0, into), context_, in_prep_, state_);
  if (head.poured_already(*next) != into) return std::nullopt;
  // `whisk agar into lime`: what stood there before.
  if (into < stop) {
    FormMatcher whole(line_.part(0, stop), context_, in_prep_, state_);
    std::size_t rest = skip_article(into + 1);
    bool is_rest = is_any(rest, {"liquid", "mix", "juice", "syrup", "rest"}) && rest + 1 == stop;
    if (whole.poured_already(rest) != stop && !is_rest) return std::nullopt;
  }
  Reading stir = say("stir");
  stir.text += ", \"" + base::collapse_space(line_.raw(0, stop)) + "\"";
  return Readings{with_rest(stir, line_, stop, end_)};
}

Match FormMatcher::step_on_named() const {
  // `steep the tea 5 min`, `heat cream to 80 C`: what of the above it is done to changes no figure.
  auto verb = is(0, "soak") ? std::optional(VerbMatch{Verb::steep, 1}) : match_verb(line_, 0);
  if (!verb || info(verb->verb).name_slot != VerbInfo::Name::never || info(verb->verb).takes_words ||
      info(verb->verb).time == VerbInfo::Time::never)
    return std::nullopt;
  std::size_t stop = comma_or_end(0), name_end = verb->tokens;
  for (std::size_t i = stop; i > verb->tokens && name_end == verb->tokens; --i)
    if (poured_already(verb->tokens, i)) name_end = i;
  if (name_end == verb->tokens) return std::nullopt;
  Reading step = say(info(verb->verb).name);
  step.copy(line_, name_end, stop);
  step.text += ", \"" + base::collapse_space(line_.raw(verb->tokens, name_end)) + "\"";
  return Readings{with_rest(step, line_, stop, end_)};
}

Match FormMatcher::step_with_amount() const {
  auto verb = match_verb(line_, 0);
  if (!verb || info(verb->verb).time != VerbInfo::Time::should || !info(verb->verb).takes_temperature)
    return std::nullopt;
  std::size_t with = verb->tokens, stop = comma_or_end(with), last = stop;
  if (!is_any(with, {"in", "with", "into"})) return std::nullopt;
  for (std::size_t i = with + 1; i < stop; ++i)
    if (is(i, "for") && is_time(i + 1, stop)) last = i;
  auto amount = amount_lines(with + 1, last);
  if (!amount) return std::nullopt;
  Readings lines = *amount;
  Reading step = say(info(verb->verb).name);
  if (last < stop) {
    step.copy(line_, last + 1, stop);
  } else if (stop < end_ && is_time(stop + 1, comma_or_end(stop + 1))) {
    std::size_t end = comma_or_end(stop + 1);
    step.copy(line_, stop + 1, end);
    stop = end;
  }
  lines.push_back(with_rest(step, line_, stop, end_));
  return lines;
}

Match FormMatcher::kitchen_words() const {
  // A comma parts what hands do from what follows, which is read for itself.
  if (std::size_t comma = comma_or_end(0); comma > 0 && comma + 1 < end_) {
    FormMatcher head(line_.part(0, comma), context_, in_prep_, state_);
    auto lines = head.kitchen_words();
    if (!lines) return std::nullopt;
    // `vac pack, 4 h at room temperature`: it stands so long. Behind a label it keeps so long.
    bool is_label = is_any(0, {"label", "date", "bottle"});
    std::size_t time = is_label ? comma + 1 : time_stop(comma + 1, end_), last = time;
    std::string place;
    if (time > comma + 1 && time < end_) last = take_place(time, place).value_or(time);
    Reading rest;
    if (time > comma + 1 && last == end_)
      lines->push_back(say("rest").copy(line_, comma + 1, time).say(place));
    else
      lines->push_back(rest.copy(line_, comma + 1, end_));
    return lines;
  }
  // `crush the berries with the sugar`: fruit that went in is muddled.
  bool has_fruit = std::any_of(state_.solids.begin(), state_.solids.end(),
                               [&](StockId id) { return context_.specs[id].kind == StockKind::fruit; });
  if (is_any(0, {"crush", "mash", "squash", "smash"}) && has_fruit && end_ > 1 && !begins_quantity(1)) {
    Reading muddle = say("muddle");
    muddle.text += ", \"" + base::collapse_space(line_.raw(0, end_)) + "\"";
    return Readings{muddle};
  }
  // `peel only` says what is used; `peel lemons` is work.
  if (is_any(0, {"peel", "zest", "slice", "chop"}) && (end_ < 2 || is(1, "only"))) return std::nullopt;
  // `warm oil until liquid`: it is seen, not measured.
  if (is_any(0, {"warm", "heat", "cook", "stir", "simmer", "fry"})) {
    std::size_t until = 1;
    while (until < end_ && !is_any(until, {"until", "till", "til"})) ++until;
    bool seen = until > 1 && after_any(until + 1, {"liquid", "melted", "soft", "fragrant", "golden", "brown",
                                                   "nutty", "clear", "runny", "just melted", "nutty brown",
                                                   "caramelised", "golden brown"}) == end_;
    if (seen && !is(0, "simmer") && !is(0, "stir") && !begins_quantity(1))
      return Readings{say("do").copy(line_, 0, end_)};
  }
  // `melt butter`, `melt and cook until brown`: a step in words; it goes in by its amount.
  if (after_any(0, {"label", "date", "label and date", "date and label"}) == end_)
    return Readings{say("do").copy(line_, 0, end_)};
  if (!is_any(0, {"melt",   "rub",       "massage",   "toss",  "cover",  "break",  "bag",   "toast",
                  "brown",  "roast",     "grind",     "peel",  "chop",   "slice",  "zest",  "crush",
                  "bruise", "sterilise", "sterilize", "label", "weigh",  "rinse",  "wash",  "vac",
                  "vacuum", "seal",      "spread",    "lay",   "date",   "cut",    "taste", "poke",
                  "sous",   "burp",      "blanch",    "swirl", "rotate", "agitate"}))
    return std::nullopt;
  if (is(1, "of")) return std::nullopt;
  for (std::size_t i = 0; i < end_; ++i) {
    // `cut into 5 cm cubes`: how large.
    auto unit = begins_quantity(i) ? context_.units.match(line_, i + 1) : units::UnitMatch{};
    bool is_length = unit.unit.valid() && context_.units[unit.unit].kind == Kind::length;
    if (begins_quantity(i) && !is_length) return std::nullopt;
  }
  return Readings{say("do").copy(line_, 0, end_)};
}

Match FormMatcher::fat_off_the_top() const {
  // `crack the fat off the top`, `lift the butter disc off`
  if (state_.fat.empty() ||
      !is_any(0, {"lift", "crack", "scrape", "skim", "peel", "pull", "pop", "break", "take", "knock", "chip",
                  "spoon", "scoop", "cut", "prise", "remove", "slide", "pick"}))
    return std::nullopt;
  std::size_t first = skip_article(1);
  while (is_any(first, {"set", "solid", "hard", "frozen", "hardened", "solidified", "excess"})) ++first;
  bool is_own = is_use(first, first + 1) && poured_already(first, first + 1);
  if (!is_own && !is_any(first, {"fat", "butter", "oil", "butterfat"})) return std::nullopt;
  std::size_t off = first + 1;
  if (is_any(off, {"cap", "disc", "disk", "layer", "puck", "lid", "plug", "top"})) ++off;
  auto stop = after_any(off, {"off", "off the top", "off top", "from the top", "from top", "from the surface",
                              "off the surface", "out", "away", "off with a spoon", "off the booze"});
  if (!stop || *stop != comma_or_end(0)) return std::nullopt;
  Reading remove = say("remove").say(state_.fat);
  return Readings{with_rest(remove, line_, *stop, end_)};
}

Match FormMatcher::take_fat_off() const {
  auto next = after_any(
      0, {"scrape off", "skim off",   "take off",   "lift off", "peel off",  "scrape",    "skim",
          "remove",     "take out",   "lift out",   "discard",  "fish out",  "pick out",  "pull out",
          "scoop out",  "crack off",  "break off",  "chip off", "knock off", "spoon off", "scoop off",
          "pull off",   "get rid of", "throw away", "fish the", "pull the",  "spoon out"});
  if (!next) return std::nullopt;
  std::size_t first = skip_article(*next), stop = comma_or_end(first);
  if (first >= stop) return std::nullopt;
  bool is_fat = after_any(first, {"fat", "fat cap", "fat layer", "solid fat", "frozen fat", "oil",
                                  "butterfat", "butter", "fat from the top"}) == stop;
  bool is_name = is_use(first, stop);
  // `butter` is the butter that went in, whichever it was.
  bool is_canonical = is_name && *next == first && verb_at(0, Verb::remove);
  if (is_fat && !is_canonical && !state_.fat.empty()) {
    Reading remove = say("remove").say(state_.fat);
    with_rest(remove, line_, stop, end_);
    return Readings{remove};
  }
  if (!is_name && after_any(first, {"solids", "the solids", "bits", "debris"}) == stop) {
    Reading strain = say("strain");
    return Readings{with_rest(strain, line_, stop, end_)};
  }
  // `remove the pod`: what went in is called so, or a part of its names is.
  if (auto meant = is_name ? std::nullopt : named_solid(first, stop)) {
    Reading remove = say("remove").say(context_.specs[*meant].head.name);
    with_rest(remove, line_, stop, end_);
    return Readings{remove};
  }
  // The language's own form stays as it is.
  if (!is_name || (first == *next && (verb_at(0, Verb::remove) || verb_at(0, Verb::skim))))
    return std::nullopt;
  Reading remove = say("remove");
  remove.copy(line_, first, stop);
  with_rest(remove, line_, stop, end_);
  return Readings{remove};
}

std::optional<StockId> FormMatcher::named_solid(std::size_t first, std::size_t last) const {
  std::string name = base::fold_name(base::collapse_space(line_.raw(first, last)));
  std::string singular = name.ends_with("s") ? name.substr(0, name.size() - 1) : name;
  std::optional<StockId> meant;
  auto use = find_use(LineReader(line_, context_), first, last);
  auto is_family = [](const std::string& known, const std::string& one) {
    return known.ends_with(" " + one) || known.starts_with(one + " ");
  };
  for (StockId id : state_.solids) {
    const std::string known = base::fold_name(context_.specs[id].head.name);
    bool is_plural_in_ies =
        singular.ends_with("ie") && is_family(known, singular.substr(0, singular.size() - 1));
    bool is_plural_in_es =
        singular.ends_with("e") && is_family(known, singular.substr(0, singular.size() - 1));
    bool fits =
        (use && use->stock == id) || is_family(known, singular) || is_plural_in_ies || is_plural_in_es;
    // `remove the bags`: what tea is in.
    fits = fits ||
           (known.find("tea") != std::string::npos &&
            (name == "bags" || name == "tea bags" || name == "teabags" || name == "bag" || name == "leaves"));
    // `vanilla pod` is another name of the vanilla bean.
    for (auto space = known.find(' '); !fits && space != std::string::npos; space = std::string::npos) {
      auto other = context_.names.find(symbols::NameSpace::stock, known.substr(0, space) + " " + singular);
      fits = other.valid() && context_.specs.index_of[other.index()] == id.index();
    }
    if (!fits) continue;
    if (meant && *meant != id) return std::nullopt;
    meant = id;
  }
  return meant;
}

Match FormMatcher::clarify_with() const {
  auto next = after_any(0, {"clarify with", "milk wash with", "milk-wash with", "wash with"});
  if (!next) return std::nullopt;
  std::size_t stop = comma_or_end(*next);
  if (!is_amount(*next, stop)) return std::nullopt;
  Reading amount, clarify = say("clarify");
  amount.copy(line_, *next, stop);
  with_rest(clarify, line_, stop, end_);
  return Readings{amount, clarify};
}

Match FormMatcher::warm_to() const {
  auto next =
      after_any(0, {"warm to", "warm up to", "bring to", "bring up to", "heat up to", "warm at", "heat at",
                    "cook at", "sous vide at", "hold at", "heat until", "bring it to", "heat it to"});
  if (!next || !begins_quantity(*next)) return std::nullopt;
  Reading heat = say("heat to");
  heat.copy(line_, *next, end_);
  return Readings{heat};
}

Match FormMatcher::cold_place() const {
  bool freezer = false;
  auto next =
      after_any(0, {"fridge", "in the fridge", "in fridge", "into the fridge", "refrigerate", "into fridge",
                    "straight in fridge", "straight into the fridge", "straight in the fridge",
                    "put in the fridge", "pop in the fridge", "put in fridge", "set in fridge",
                    "set in the fridge", "chill in fridge", "chill in the fridge"});
  if (!next) {
    next =
        after_any(0, {"freezer", "in the freezer", "in freezer", "into the freezer", "into freezer",
                      "straight in freezer", "straight into the freezer", "straight in the freezer",
                      "straight into freezer", "put in the freezer", "pop in the freezer", "put in freezer"});
    freezer = true;
  }
  if (!next) return std::nullopt;
  std::size_t i = is(*next, "for") ? *next + 1 : *next, stop = comma_or_end(i);
  Reading reading = say(freezer ? "freeze" : "rest");
  // `fridge 2 h before use`
  if (std::size_t time = time_stop(i, stop); time > i && time < stop && manner_stop(time) == stop) {
    reading.copy(line_, i, time);
    if (!freezer) reading.say(fridge());
    reading.text += ", \"" + base::collapse_space(line_.raw(time, stop)) + "\"";
    return Readings{with_rest(reading, line_, stop, end_)};
  }
  if (after_any(i, {"overnight", "over night"}) == stop)
    reading.say("12 h");
  else if (i < stop && is_time(i, stop))
    reading.copy(line_, i, stop);
  else if (i == stop)
    // Nobody says how long: it goes there, and stays.
    return Readings{with_rest(reading = say(freezer ? "freeze" : "chill"), line_, stop, end_)};
  else
    return std::nullopt;
  if (!freezer) reading.say(fridge());
  with_rest(reading, line_, stop, end_);
  return Readings{reading};
}

}  // namespace gill::analysis

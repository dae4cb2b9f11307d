#include "analysis/forms/form_matcher.h"

#include <fmt/format.h>

#include <map>

#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;
using units::Kind;

Match FormMatcher::keeps_how_long() const {
  std::size_t i = 0;
  std::string place;
  auto takes_place = [&](std::size_t at) -> std::size_t {
    if (auto next = after_any(at, {"in the fridge", "in fridge", "in a fridge", "fridge", "refrigerated",
                                   "in the refrigerator", "chilled"}))
      return place = "chilled", *next;
    if (auto next = after_any(at, {"in the freezer", "in freezer", "freezer", "frozen"}))
      return place = "frozen", *next;
    if (auto next =
            after_any(at, {"at room temperature", "at room temp", "on the shelf", "ambient", "room temp"}))
      return place = "ambient", *next;
    return at;
  };
  auto said = after_any(0, {"keeps for", "keeps", "keep for", "keep", "good for", "lasts", "lasts for",
                            "store", "will keep", "keeps about"});
  if (said) i = *said;
  if (std::size_t next = takes_place(i); next > i) i = next;
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
  std::size_t last = place.empty() ? takes_place(stop) : stop;
  if (place.empty() || last != end_) return std::nullopt;
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
  if (auto next = after_any(i, {"in the fridge", "in fridge", "fridge", "in the refrigerator", "refrigerated",
                                "in the walk-in"}))
    return place = fridge(), next;
  if (auto next = after_any(i, {"at room temperature", "at room temp", "on the counter", "at ambient"}))
    return place = room(), next;
  if (auto next = after_any(i, {"in the freezer", "in freezer"})) return place = freezer(), next;
  return std::nullopt;
}

Match FormMatcher::place_and_time() const {
  std::size_t i = 0;
  std::string verb;
  if (auto next =
          after_any(0, {"let rest", "let stand", "let sit", "let it rest", "let it stand", "leave to stand",
                        "leave to rest", "leave", "stand", "sit", "leave to infuse", "let infuse"})) {
    verb = after_any(0, {"leave to infuse", "let infuse"}) ? "infuse" : "rest";
    i = *next;
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
  std::string time, place;
  std::size_t tail = i;
  while (tail < end_) {
    if (line_.kind(tail) == TokenKind::comma) {
      std::string other;
      if (!take_place(tail + 1, other) && !is(tail + 1, "overnight") &&
          !is_time(tail + 1, comma_or_end(tail + 1)))
        break;
      ++tail;
      changed = true;
      continue;
    }
    if (auto next = after_any(tail, {"overnight", "over night"})) {
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
  if (!changed || (tail < end_ && line_.kind(tail) != TokenKind::comma)) return std::nullopt;
  if (verb == "cool" && place.starts_with("at ")) place = "to " + place.substr(3);
  if (verb == "cool" && place.empty()) place = "to " + room().substr(3);
  Reading reading = say(verb).say(time).say(place);
  with_rest(reading, line_, tail, end_);
  return Readings{reading};
}

Match FormMatcher::boil() const {
  auto next = after_any(0, {"bring to the boil", "bring to a boil", "bring to boil", "boil"});
  if (!next) return std::nullopt;
  Reading heat = say("heat to 100 C");
  std::size_t i = is(*next, "for") ? *next + 1 : *next, stop = comma_or_end(i);
  if (i < stop) {
    if (!is_time(i, stop)) return std::nullopt;
    heat.say("for").copy(line_, i, stop);
  }
  with_rest(heat, line_, stop, end_);
  return Readings{heat};
}

Match FormMatcher::reduce_share() const {
  auto next = after_any(0, {"reduce by"});
  if (!next) return std::nullopt;
  static const std::map<std::string_view, std::string_view> shares = {
      {"half", "50 %"},      {"a half", "50 %"},      {"one half", "50 %"},
      {"a third", "33.3 %"}, {"one third", "33.3 %"}, {"two thirds", "66.7 %"},
      {"a quarter", "25 %"}, {"one quarter", "25 %"}, {"three quarters", "75 %"}};
  std::size_t stop = comma_or_end(*next);
  auto share = shares.find(base::lower_ascii(base::collapse_space(line_.raw(*next, stop))));
  if (share == shares.end()) return std::nullopt;
  Reading reduce = say("reduce by").say(share->second);
  with_rest(reduce, line_, stop, end_);
  return Readings{reduce};
}

Match FormMatcher::make_up_to() const {
  auto next = after_any(
      0, {"make up to", "top up to", "fill up to", "bring up to", "make it up to", "top to", "fill to"});
  if (!next || !begins_quantity(*next)) return std::nullopt;
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
  for (Verb verb : {Verb::double_strain, Verb::fine_strain, Verb::strain}) {
    auto at = verb_at(0, verb);
    if (!at || !is(*at, "through") || *at + 1 >= end_) continue;
    Reading strain = say(info(verb).name);
    strain.text += ",";
    strain.copy(line_, *at, end_);
    return Readings{strain};
  }
  if (is(0, "filter")) {
    Reading strain = say("fine strain");
    if (is(1, "through")) {
      strain.text += ",";
      strain.copy(line_, 1, end_);
    } else if (end_ == 1) {
      strain.text += ", through a filter";
    } else {
      return std::nullopt;
    }
    return Readings{strain};
  }
  return std::nullopt;
}

Match FormMatcher::until_dissolved() const {
  auto next = after_any(0, {"stir until dissolved", "stir to dissolve", "stir until the sugar dissolves",
                            "stir until the sugar is dissolved", "mix until dissolved",
                            "whisk until dissolved", "shake until dissolved"});
  if (!next || comma_or_end(*next) != *next) return std::nullopt;
  Reading dissolve = say("dissolve");
  with_rest(dissolve, line_, *next, end_);
  return Readings{dissolve};
}

Match FormMatcher::take_fat_off() const {
  auto next = after_any(0, {"scrape off", "skim off", "take off", "lift off", "peel off", "scrape", "skim",
                            "remove", "take out", "lift out", "discard"});
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
  // The language's own form stays as it is.
  if (!is_name || (first == *next && (verb_at(0, Verb::remove) || verb_at(0, Verb::skim))))
    return std::nullopt;
  Reading remove = say("remove");
  remove.copy(line_, first, stop);
  with_rest(remove, line_, stop, end_);
  return Readings{remove};
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
  auto next = after_any(0, {"warm to", "warm up to", "bring to", "bring up to", "heat up to", "warm at"});
  if (!next || !begins_quantity(*next)) return std::nullopt;
  Reading heat = say("heat to");
  heat.copy(line_, *next, end_);
  return Readings{heat};
}

Match FormMatcher::cold_place() const {
  bool freezer = false;
  auto next = after_any(0, {"fridge", "in the fridge", "in fridge", "into the fridge", "refrigerate"});
  if (!next) {
    next = after_any(0, {"freezer", "in the freezer", "in freezer", "into the freezer"});
    freezer = true;
  }
  if (!next) return std::nullopt;
  std::size_t i = is(*next, "for") ? *next + 1 : *next, stop = comma_or_end(i);
  Reading reading = say(freezer ? "freeze" : "rest");
  if (after_any(i, {"overnight", "over night"}) == stop)
    reading.say("12 h");
  else if (i < stop && is_time(i, stop))
    reading.copy(line_, i, stop);
  else
    return std::nullopt;
  if (!freezer) reading.say(fridge());
  with_rest(reading, line_, stop, end_);
  return Readings{reading};
}

}  // namespace gill::analysis

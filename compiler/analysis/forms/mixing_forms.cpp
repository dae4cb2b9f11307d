#include "analysis/forms/form_matcher.h"

#include <fmt/format.h>

#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;

Match FormMatcher::adverbs() const {
  std::size_t i = 0;
  std::vector<std::size_t> how;
  while (i < end_ && is_adverb(word(i))) how.push_back(i++);
  auto verb = i < end_ ? match_verb(line_, i) : std::nullopt;
  if (!verb || info(verb->verb).takes_words || info(verb->verb).name_slot != VerbInfo::Name::never)
    return std::nullopt;
  i += verb->tokens;
  std::size_t rest = i;
  while (rest < end_ && is_adverb(word(rest))) how.push_back(rest++);
  if (how.empty()) return std::nullopt;
  // `hard shake` alone is asked for its time.
  bool leads = is_adverb(word(0));
  if (leads && rest == end_) return std::nullopt;
  Reading reading = say(info(verb->verb).name);
  std::size_t stop = comma_or_end(rest);
  if (stop == rest && rest < end_ && is_time(rest + 1, comma_or_end(rest + 1))) {
    // The time stands behind a comma.
    stop = comma_or_end(rest + 1);
    reading.copy(line_, rest + 1, stop);
  } else {
    reading.copy(line_, rest, stop);
  }
  reading.text += ", \"";
  for (std::size_t k = 0; k < how.size(); ++k) reading.text += (k > 0 ? " " : "") + word(how[k]);
  reading.text += "\"";
  with_rest(reading, line_, stop, end_);
  return Readings{reading};
}

Match FormMatcher::shake_how() const {
  bool reverse = is(0, "reverse") && verb_at(1, Verb::dry_shake);
  if (reverse) {
    std::size_t at = *verb_at(1, Verb::dry_shake);
    Readings lines;
    if (!state_.has_shaken) lines.push_back(say("shake 12 s"));
    lines.push_back(say("strain to tin"));
    Reading dry = say("dry shake");
    if (is_time(at, comma_or_end(at))) dry.copy(line_, at, comma_or_end(at));
    with_rest(dry, line_, comma_or_end(at), end_);
    lines.push_back(dry);
    return lines;
  }
  if (is(0, "wet") && is(1, "shake")) {
    Reading wet = say("shake");
    wet.copy(line_, 2, end_);
    return Readings{wet};
  }
  // `shake without ice 10 s` is a dry shake.
  if (auto next = after_any(0, {"shake without ice", "shake dry", "shake with no ice"})) {
    Reading dry = say("dry shake");
    dry.copy(line_, *next, end_);
    return Readings{dry};
  }
  // `shake with ice 10 s`, `stir over ice for 30 s`, `shake for 12 s`: the time goes first.
  auto verb = match_verb(line_, 0);
  if (!verb || !info(verb->verb).takes_ice) return std::nullopt;
  std::size_t i = verb->tokens, stop = comma_or_end(i);
  std::size_t time = stop, time_end = stop, ice = stop, ice_end = stop;
  while (i < stop) {
    if (auto next = after_any(i, {"with", "over", "on"})) {
      ice = *next;
      ice_end = ice;
      while (ice_end < stop && !is(ice_end, "for") &&
             !(ice_end > ice && is_time(ice_end, time_stop(ice_end, stop))))
        ++ice_end;
      if (is_any(ice_end - 1, {"and", "then"})) return std::nullopt;
      i = ice_end;
    } else if (is(i, "for") || is_time(i, time_stop(i, stop))) {
      time = is(i, "for") ? i + 1 : i;
      time_end = time_stop(time, stop);
      if (!is_time(time, time_end)) return std::nullopt;
      i = time_end;
    } else {
      return std::nullopt;
    }
  }
  bool plain = ice < ice_end && is_plain_ice(ice, ice_end);
  bool in_order = !(ice < ice_end) || (!is(verb->tokens, "with") ? time < ice && is(ice - 1, "with") : false);
  if (in_order && !(plain && state_.was_built) && !is(verb->tokens, "for")) return std::nullopt;
  if (ice < ice_end && !plain && !begins_quantity(ice) && !ice_named(ice, ice_end)) return std::nullopt;
  Reading reading = say(info(verb->verb).name);
  reading.copy(line_, time, time_end);
  // On the glass's own ice after `build`, plain ice is that ice.
  if (ice < ice_end && !(plain && state_.was_built)) reading.say("with").copy(line_, ice, ice_end);
  with_rest(reading, line_, stop, end_);
  return Readings{reading};
}

Match FormMatcher::until_cold() const {
  auto verb = match_verb(line_, 0);
  if (!verb || info(verb->verb).usual_s <= 0) return std::nullopt;
  std::size_t i = verb->tokens;
  while (i < end_ && is_adverb(word(i))) ++i;
  auto next =
      after_any(i, {"until cold", "until chilled", "until well chilled", "until ice cold", "until very cold",
                    "until frosty", "until the tin frosts", "until frosted", "till cold", "to chill",
                    "to chill and dilute", "until cold and diluted", "until chilled and diluted"});
  if (!next || comma_or_end(*next) != *next) return std::nullopt;
  Reading reading = say(fmt::format("{} {} s, \"{}\"", info(verb->verb).name, info(verb->verb).usual_s,
                                    base::collapse_space(line_.raw(verb->tokens, *next))));
  with_rest(reading, line_, *next, end_);
  return Readings{reading};
}

Match FormMatcher::until_seen() const {
  auto verb = match_verb(line_, 0);
  if (!verb || info(verb->verb).takes_words || info(verb->verb).name_slot != VerbInfo::Name::never)
    return std::nullopt;
  std::size_t i = verb->tokens;
  while (i < end_ && !is_any(i, {"until", "till", "til"}) && line_.kind(i) != TokenKind::comma) ++i;
  std::size_t stop = comma_or_end(i);
  if (i >= stop || i + 1 >= stop || !is_any(i, {"until", "till", "til"})) return std::nullopt;
  Reading reading = say(info(verb->verb).name);
  reading.copy(line_, verb->tokens, i);
  reading.text += ", \"until " + base::collapse_space(line_.raw(i + 1, stop)) + "\"";
  with_rest(reading, line_, stop, end_);
  return Readings{reading};
}

Match FormMatcher::ice_goes_in() const {
  auto reading = [&](std::size_t first, std::size_t last, bool fills) -> Match {
    auto ice = ice_named(first, last);
    // `4 large cubes`: what follows the number is ice.
    if (!ice && begins_quantity(first)) {
      auto unit = unit_at(first + 1);
      if (ice_named(unit ? *unit : first + 1, last)) ice = base::collapse_space(line_.raw(first, last));
    }
    if (!ice) return std::nullopt;
    Reading add = say("add");
    if (is_plain_ice(first, last))
      add.say("ice");
    else
      add.say(*ice);
    if (fills) add.text += ", \"to the brim\"";
    with_rest(add, line_, last, end_);
    return Readings{add};
  };
  std::size_t stop = comma_or_end(0);
  if (auto next = after_any(0, {"fill with", "fill the glass with", "fill glass with", "fill up with",
                                "fill it with", "pack with", "pack the glass with", "top with", "top up with",
                                "cap with", "crown with", "mound with"}))
    return reading(*next, stop, false);
  if (is(0, "add") && 1 < stop) {
    std::size_t last = stop;
    for (std::size_t i = 1; i + 1 < stop; ++i)
      if (is_any(i, {"to", "into"})) {
        last = i;
        break;
      }
    if (last == stop && verb_at(0, Verb::add_ice) &&
        (is_plain_ice(1, stop) || !is_any(1, {"the", "a", "fresh"})) && ice_named(1, stop))
      return std::nullopt;
    if (!begins_quantity(1) || !is_amount(1, last)) return reading(1, last, false);
  }
  return std::nullopt;
}

Match FormMatcher::add_amount() const {
  if (!is(0, "add") || !begins_quantity(1)) return std::nullopt;
  if (!is_amount(1, comma_or_end(1))) return std::nullopt;
  Reading amount;
  amount.copy(line_, 1, end_);
  return Readings{amount};
}

Match FormMatcher::muddle_what() const {
  auto at = verb_at(0, Verb::muddle);
  if (!at || *at >= end_) return std::nullopt;
  if (auto next = after_any(*at, {"in the glass", "in glass", "in the tin", "in tin", "in the shaker"});
      next && *next == end_) {
    Readings lines;
    if (next == after(*at, "in the glass") || next == after(*at, "in glass"))
      if (!state_.was_built) lines.push_back(say("build"));
    lines.push_back(say("muddle"));
    return lines;
  }
  Readings lines;
  std::size_t begin = *at;
  for (std::size_t i = begin; i <= end_; ++i) {
    bool divides = i == end_ || is_any(i, {"and", "&", "with", "+"});
    if (!divides && i < end_ && line_.kind(i) == TokenKind::comma) return std::nullopt;
    if (!divides) continue;
    begin = skip_article(begin);
    if (!is_use(begin, i)) return std::nullopt;
    Reading one = say("muddle");
    lines.push_back(one.copy(line_, begin, i));
    begin = i + 1;
  }
  if (lines.size() < 2) return std::nullopt;
  return lines;
}

Match FormMatcher::how_last() const {
  auto verb = match_verb(line_, 0);
  if (!verb || info(verb->verb).takes_words) return std::nullopt;
  std::size_t stop = comma_or_end(0), how = stop;
  // `to combine`, `while hot`: what for, and in what state.
  for (std::size_t i = verb->tokens; i + 1 < stop && how == stop; ++i)
    if (is_any(i, {"while", "whilst"}) || (after_any(i, {"to combine", "to mix", "to integrate", "to blend",
                                                         "to incorporate", "to marry"}) == stop))
      how = i;
  if (how == stop)
    while (how > verb->tokens && is_adverb(word(how - 1))) --how;
  if (how == stop || is_use(verb->tokens, stop)) return std::nullopt;
  Reading reading = say(info(verb->verb).name);
  reading.copy(line_, verb->tokens, how);
  reading.text += ", \"" + base::collapse_space(line_.raw(how, stop)) + "\"";
  with_rest(reading, line_, stop, end_);
  return Readings{reading};
}

}  // namespace gill::analysis

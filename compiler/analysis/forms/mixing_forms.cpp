#include "analysis/forms/form_matcher.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/any_of.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;

Match FormMatcher::adverbs() const {
  std::size_t i = 0;
  while (i < end_ && is_adverb(word(i))) ++i;
  auto verb = i < end_ ? match_verb(line_, i) : std::nullopt;
  // `slowly top with 60 ml soda`
  static constexpr Verb pours[] = {Verb::top, Verb::float_, Verb::layer};
  if (verb && i > 0 && base::is_any_of(verb->verb, pours)) {
    Reading poured = Reading().copy(line_, i, end_);
    poured.text += ", \"" + base::collapse_space(line_.raw(0, i)) + "\"";
    return Readings{poured};
  }
  if (!verb || info(verb->verb).takes_words || info(verb->verb).name_slot != VerbInfo::Name::never)
    return std::nullopt;
  // `add long ice` names an ice.
  if (verb->verb == Verb::add_ice) return std::nullopt;
  std::string how = base::collapse_space(line_.raw(0, i));
  i += verb->tokens;
  std::size_t rest = manner_stop(i);
  // `to` and `for` of a time or a heat are the step's own; `bottle and label` is read at its end.
  if (rest > i) how += (how.empty() ? "" : " ") + base::collapse_space(line_.raw(i, rest));
  if (how.empty()) return std::nullopt;
  // `shake twice 10 s` could be twenty.
  for (std::size_t k = 0; k < rest; ++k)
    if (is(k, "twice") && rest < end_ && begins_quantity(rest)) return std::nullopt;
  // `hard shake` alone is asked for its time.
  if (is(0, "hard") && rest == end_) return std::nullopt;
  Reading reading = say(info(verb->verb).name);
  std::size_t stop = comma_or_end(rest);
  if (stop == rest && rest < end_ && is_time(rest + 1, comma_or_end(rest + 1))) {
    // The time stands behind a comma.
    stop = comma_or_end(rest + 1);
    reading.copy(line_, rest + 1, stop);
  } else {
    reading.copy(line_, rest, stop);
  }
  reading.text += ", \"" + how + "\"";
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
  // `stir over ice, 40 s`: the time stands behind a comma.
  std::size_t behind = stop;
  std::size_t said = stop;  // up to where a remark stands before it
  if (stop < end_ && line_.kind(stop + 1) == TokenKind::string && comma_or_end(stop + 1) == stop + 2)
    said = stop + 2;
  if (time == time_end && said < end_ && is_time(said + 1, comma_or_end(said + 1))) {
    time = said + 1;
    time_end = behind = comma_or_end(said + 1);
  }
  bool plain = ice < ice_end && is_plain_ice(ice, ice_end);
  bool in_order = !(ice < ice_end) || (!is(verb->tokens, "with") ? time < ice && is(ice - 1, "with") : false);
  in_order = in_order && behind == stop;
  bool is_known = !(ice < ice_end) || begins_quantity(ice) || is_name(symbols::NameSpace::ice, ice, ice_end);
  if (in_order && is_known && !(plain && state_.was_built) && !is(verb->tokens, "for")) return std::nullopt;
  if (ice < ice_end && !plain && !begins_quantity(ice) && !ice_named(ice, ice_end)) return std::nullopt;
  Reading reading = say(info(verb->verb).name);
  reading.copy(line_, time, time_end);
  // On the glass's own ice after `build`, plain ice is that ice.
  if (ice < ice_end && !(plain && state_.was_built)) {
    auto named = begins_quantity(ice) || is_name(symbols::NameSpace::ice, ice, ice_end)
                     ? std::nullopt
                     : ice_named(ice, ice_end);
    reading.say("with");
    if (named)
      reading.say(*named);
    else
      reading.copy(line_, ice, ice_end);
  }
  if (behind > stop) with_rest(reading, line_, stop, said);
  with_rest(reading, line_, behind, end_);
  return Readings{reading};
}

Match FormMatcher::until_cold() const {
  auto verb = match_verb(line_, 0);
  if (!verb || info(verb->verb).usual_s <= 0) return std::nullopt;
  std::size_t i = verb->tokens;
  while (i < end_ && is_adverb(word(i))) ++i;
  auto next = after_any(i, {"until cold",
                            "until chilled",
                            "until well chilled",
                            "until ice cold",
                            "until very cold",
                            "until frosty",
                            "until the tin frosts",
                            "until frosted",
                            "till cold",
                            "to chill",
                            "to chill and dilute",
                            "until cold and diluted",
                            "until chilled and diluted",
                            "cold",
                            "ice cold",
                            "ice-cold",
                            "until really cold",
                            "until properly cold",
                            "until freezing",
                            "until freezing cold",
                            "until nice and cold",
                            "until nicely chilled",
                            "until the tin is frosty",
                            "until tin frosts",
                            "until the tin is cold",
                            "until the glass frosts",
                            "until it frosts",
                            "until thoroughly chilled",
                            "until well chilled and diluted",
                            "to dilute",
                            "to dilution",
                            "to chill well"});
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
  // `simmer until reduced by half` is no remark.
  for (std::size_t k = i; k < stop; ++k)
    if (begins_quantity(k) || number_of(word(k)) || word(k).starts_with("reduc") ||
        word(k).starts_with("halv"))
      return std::nullopt;
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
  // `fill the tin with ice`: for the step that follows.
  if (auto tin = after_any(0, {"fill tin with", "fill the tin with", "fill shaker with",
                               "fill the shaker with", "fill mixing glass with", "fill the mixing glass with",
                               "ice the tin", "fill both tins with", "load the tin with"});
      tin && *tin < stop && is_plain_ice(*tin, stop))
    return Readings{say("do").copy(line_, 0, end_)};
  if (auto half = after_any(0, {"half fill with", "half fill the glass with", "half-fill with",
                                "half-fill the glass with", "half fill glass with", "fill halfway with",
                                "fill half way with", "fill halfway up with", "three-quarter fill with",
                                "fill 3/4 with", "3/4 fill with", "two thirds fill with", "part fill with"});
      half && ice_named(*half, stop)) {
    Reading add = say("add").say(is_plain_ice(*half, stop) ? std::string("ice") : *ice_named(*half, stop));
    add.text += ", \"" + base::collapse_space(line_.raw(0, *half - 1)) + "\"";
    return Readings{with_rest(add, line_, stop, end_)};
  }
  if (auto next = after_any(0, {"fill with",
                                "fill the glass with",
                                "fill glass with",
                                "fill up with",
                                "fill it with",
                                "fill cup with",
                                "fill the cup with",
                                "fill mug with",
                                "fill the mug with",
                                "fill tumbler with",
                                "fill bowl with",
                                "fill jug with",
                                "fill the jug with",
                                "pack with",
                                "pack the glass with",
                                "top with",
                                "top up with",
                                "cap with",
                                "crown with",
                                "mound with",
                                "dome of",
                                "mound of",
                                "cap of",
                                "dome with",
                                "finish with",
                                "top off with",
                                "heap with"}))
    return reading(*next, stop, false);
  if (is_any(0, {"add", "put", "place"}) && 1 < stop) {
    std::size_t last = stop;
    for (std::size_t i = 1; i + 1 < stop; ++i)
      if (is_any(i, {"to", "into"}) || (is(i, "in") && !is(0, "add"))) {
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
  if (!is(0, "add") || end_ < 2) return std::nullopt;
  std::size_t stop = comma_or_end(1);
  if (begins_quantity(1) && is_amount(1, stop)) {
    Reading amount;
    return Readings{amount.copy(line_, 1, end_)};
  }
  // `add soda`, once the drink is in its glass
  if (auto use = find_use(LineReader(line_, context_), skip_article(1), stop);
      use && !in_prep_ && state_.is_finished && !use->item.valid()) {
    const auto& stock = context_.specs[use->stock];
    bool is_long =
        stock.kind == StockKind::sparkling || stock.kind == StockKind::beer || stock.kind == StockKind::mixer;
    if (!stock.is_prep && is_long && stock.effective_form() == Form::liquid)
      return Readings{Reading(say("top")).copy(line_, skip_article(1), end_)};
  }
  // `add a splash of soda water`
  auto lines = amount_lines(1, stop);
  if (!lines) return std::nullopt;
  with_rest(lines->back(), line_, stop, end_);
  return lines;
}

Match FormMatcher::muddle_what() const {
  auto at = verb_at(0, Verb::muddle);
  if (!at || *at >= end_) return std::nullopt;
  // `muddle with 2 tsp sugar`: it goes in.
  for (std::size_t i = *at; i < comma_or_end(*at); ++i)
    if (begins_quantity(i)) return step_on_amounts();
  if (auto next = after_any(*at, {"in the glass", "in glass", "in the tin", "in tin", "in the shaker"});
      next && *next == end_) {
    Readings lines;
    if (next == after(*at, "in the glass") || next == after(*at, "in glass"))
      if (!state_.was_built) lines.push_back(say("build"));
    lines.push_back(say("muddle"));
    return lines;
  }
  // `muddle gently in the glass`
  std::size_t how = *at;
  while (how < end_ && is_adverb(word(how))) ++how;
  if (how > *at &&
      after_any(how, {"in the glass", "in glass", "in the tin", "in tin", "in the shaker"}) == end_) {
    Readings lines;
    if (is(end_ - 1, "glass") && !state_.was_built) lines.push_back(say("build"));
    lines.push_back(say("muddle, \"" + base::collapse_space(line_.raw(*at, how)) + "\""));
    return lines;
  }
  // `muddle lime and sugar in the glass`.
  for (std::size_t i = *at; i < end_; ++i)
    if (after_any(i, {"in the glass", "in glass", "in bottom of glass", "in the bottom of the glass",
                      "in bottom of the glass", "in base of glass", "in the base of the glass"}) == end_) {
      LineView head = line_.part(0, i);
      Match muddled = FormMatcher(head, context_, in_prep_, state_).muddle_together(*at);
      Readings lines;
      if (!state_.was_built) lines.push_back(say("build"));
      if (!muddled && !is_use(*at, i)) return std::nullopt;
      Reading one = say("muddle");
      for (auto& each : muddled.value_or(Readings{one.copy(line_, *at, i)})) lines.push_back(each);
      return lines;
    }
  if (after_any(*at, {"all", "everything", "the lot", "it all", "all of it", "all together", "them",
                      "the fruit"}) == comma_or_end(*at)) {
    Reading one = say("muddle");
    one.text += ", \"" + base::collapse_space(line_.raw(*at, comma_or_end(*at))) + "\"";
    return Readings{with_rest(one, line_, comma_or_end(*at), end_)};
  }
  return muddle_together(*at);
}

/// `muddle the lemon with the mint and syrup`: the one step where all that can be crushed is named, and else
/// a step for each.
Match FormMatcher::muddle_together(std::size_t first) const {
  std::size_t stop = tool_begin(first, comma_or_end(first)), begin = first;
  std::vector<StockId> named;
  Readings lines;
  for (std::size_t i = begin; i <= stop; ++i) {
    bool divides = i == stop || is_any(i, {"and", "&", "with", "+", "in"});
    if (!divides) continue;
    begin = skip_article(begin);
    // `muddle mint lightly with syrup`
    std::size_t last = i;
    while (last > begin + 1 && is_adverb(word(last - 1))) --last;
    auto meant = recipe_use(begin, last);
    if (!meant) return std::nullopt;
    if (meant->valid()) named.push_back(*meant);
    Reading one = say("muddle");
    lines.push_back(one.copy(line_, begin, last));
    begin = i + 1;
  }
  if (lines.size() < 2 && stop == comma_or_end(first) && is_use(first, stop)) return std::nullopt;
  bool is_all = std::all_of(state_.solids.begin(), state_.solids.end(), [&](StockId solid) {
    StockKind kind = context_.specs[solid].kind;
    bool is_crushed = kind == StockKind::fruit || kind == StockKind::herb || kind == StockKind::spice ||
                      kind == StockKind::garnish;
    return !is_crushed || std::find(named.begin(), named.end(), solid) != named.end();
  });
  if (is_all) {
    Reading one = say("muddle");
    one.text += ", \"" + base::collapse_space(line_.raw(first, stop)) + "\"";
    with_rest(one, line_, comma_or_end(first), end_);
    return Readings{one};
  }
  // What is crushed before the rest goes in stands above; here others stand beside it.
  for (const auto& id : named)
    if (std::find(state_.solids.begin(), state_.solids.end(), id) == state_.solids.end()) return std::nullopt;
  Readings each;
  for (StockId id : named) each.push_back(say("muddle").say(context_.specs[id].head.name));
  return each;
}

/// Where `in the shaker` begins that ends at `stop`; `stop` where none does.
std::size_t FormMatcher::tool_begin(std::size_t first, std::size_t stop) const {
  for (std::size_t i = first; i < stop; ++i)
    if (tool_at(i) == stop) return i;
  return stop;
}

/// What went into the recipe by these words, by its name or a part of it (`oranges`, `the cube`, `syrup`); an
/// invalid id for a liquid of it, nothing where nothing fits.
std::optional<StockId> FormMatcher::recipe_use(std::size_t first, std::size_t last) const {
  if (last <= first) return std::nullopt;
  auto went_in = [&](StockId id) {
    return std::find(state_.solids.begin(), state_.solids.end(), id) != state_.solids.end();
  };
  auto use = find_use(LineReader(line_, context_), first, last);
  if (use && went_in(use->stock)) return use->stock;
  std::string name = base::fold_name(base::collapse_space(line_.raw(first, last)));
  std::string singular = name.ends_with("s") ? name.substr(0, name.size() - 1) : name;
  bool is_peel = singular == "zest" || singular == "peel" || singular == "rind";
  for (StockId id : state_.solids)
    for (const std::string& one : {name, is_peel ? std::string("peel") : singular}) {
      std::string known = base::fold_name(context_.specs[id].head.name);
      if (known.ends_with(" " + one) || known.starts_with(one + " ")) return id;
    }
  if (use) {
    const auto& stock = context_.specs[use->stock];
    return stock.is_prep || stock.effective_form() == Form::liquid ? StockId{} : use->stock;
  }
  static constexpr std::string_view liquids[] = {"syrup",   "sugar syrup", "bitters",    "juice",
                                                 "liqueur", "liquids",     "simple",     "spirit",
                                                 "booze",   "water",       "everything", "splash of water"};
  bool is_liquid = base::is_any_of(name, liquids);
  return is_liquid || is_use(first, last) ? std::optional(StockId{}) : std::nullopt;
}

Match FormMatcher::how_last() const {
  auto verb = match_verb(line_, 0);
  if (!verb || info(verb->verb).takes_words) return std::nullopt;
  std::size_t stop = comma_or_end(0), how = stop;
  // `to combine`, `while hot`: what for, and in what state.
  for (std::size_t i = verb->tokens; i < stop && how == stop; ++i)
    if ((i + 1 < stop && is_any(i, {"while", "whilst"})) || manner_stop(i) == stop ||
        (is(i, "with") && i + 1 < stop && poured_already(i + 1) == stop))
      how = i;
  if (how == stop || is_use(verb->tokens, stop)) return std::nullopt;
  Reading reading = say(info(verb->verb).name);
  reading.copy(line_, verb->tokens, how);
  reading.text += ", \"" + base::collapse_space(line_.raw(how, stop)) + "\"";
  with_rest(reading, line_, stop, end_);
  return Readings{reading};
}

Match FormMatcher::put_together() const {
  // `add everything to the shaker with ice`: it is in the amounts above, and the ice in the step that
  // follows.
  auto next = after_any(0, {"add", "combine", "put", "pour", "place", "throw", "chuck", "bung", "build"});
  if (!next) return std::nullopt;
  std::size_t i = *next;
  if (auto what = after_any(i, {"all the ingredients",
                                "all ingredients",
                                "all of the ingredients",
                                "everything",
                                "everything else",
                                "all else",
                                "all",
                                "the rest",
                                "rest",
                                "rest of ingredients",
                                "rest of the ingredients",
                                "the rest of the ingredients",
                                "remaining ingredients",
                                "the remaining ingredients",
                                "ingredients",
                                "other ingredients",
                                "the other ingredients",
                                "the liquids",
                                "liquids",
                                "everything bar soda",
                                "everything except soda"}))
    i = *what;
  else if (auto known = poured_already(i))
    i = *known;
  else if (auto slowly = poured_slowly(i))
    i = *slowly;
  else if (!tool_at(i) || is(0, "pour"))
    return std::nullopt;
  if (auto tool = tool_at(i)) i = *tool;
  if (auto last = after_any(i, {"last", "first", "in", "next"})) i = *last;
  if (auto with = after_any(i, {"with", "over"}); with && is_plain_ice(*with, comma_or_end(*with)))
    i = comma_or_end(*with);
  if (i != end_) return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

/// The same with how it is poured behind it: `the prosecco slowly`.
std::optional<std::size_t> FormMatcher::poured_slowly(std::size_t first) const {
  std::size_t stop = comma_or_end(first), last = stop;
  for (std::size_t i = first + 1; i < stop && last == stop; ++i)
    if (after_any(i, {"on top", "over the top", "over top", "over"}) == stop) last = i;
  while (last > first + 1 && is_adverb(word(last - 1))) --last;
  if (last == stop) return std::nullopt;
  FormMatcher head(line_.part(0, last), context_, in_prep_, state_);
  return head.poured_already(first) == last ? std::optional(stop) : std::nullopt;
}

namespace {

constexpr std::string_view chillies[] = {"chilli",   "jalapeno",      "serrano",
                                         "habanero", "scotch bonnet", "poblano"};

/// `purée` as it is mostly typed.
std::string without_accents(std::string text) {
  for (std::string_view accented : {"é", "è", "ê", "û", "ñ"}) {
    char plain = accented == "û" ? 'u' : accented == "ñ" ? 'n' : 'e';
    for (auto at = text.find(accented); at != std::string::npos; at = text.find(accented))
      text.replace(at, accented.size(), 1, plain);
  }
  return text;
}

}  // namespace

/// Where a name ends of what went in above (`the gin`, `juice`, `spirits and syrup`), which a step only puts
/// together; nothing where another is named.
std::optional<std::size_t> FormMatcher::poured_already(std::size_t first) const {
  std::size_t begin = first;
  std::size_t stop = comma_or_end(first);
  for (std::size_t i = first; i < stop; ++i)
    if (tool_at(i)) stop = i;
  for (std::size_t i = first; i <= stop; ++i) {
    if (i < stop && !is_any(i, {"and", "&", "+"})) continue;
    begin = skip_article(begin);
    if (begin >= i) return std::nullopt;
    std::string name = without_accents(base::fold_name(base::collapse_space(line_.raw(begin, i))));
    auto is_called = [&](StockId id) {
      std::string known = without_accents(base::fold_name(context_.specs[id].head.name));
      std::string last = known.substr(known.rfind(' ') == std::string::npos ? 0 : known.rfind(' ') + 1);
      return known == name || last == name || last + "s" == name || known.starts_with(name + " ") ||
             known.ends_with(" " + name);
    };
    auto use = find_use(LineReader(line_, context_), begin, i);
    auto went_in = [&](const std::vector<StockId>& list) {
      return std::any_of(list.begin(), list.end(),
                         [&](StockId id) { return (use && use->stock == id) || is_called(id); });
    };
    // `muddle chile`: the one that went in.
    auto is_chilli = [&](StockId id) {
      std::string known = without_accents(base::fold_name(context_.specs[id].head.name));
      return std::any_of(std::begin(chillies), std::end(chillies),
                         [&](std::string_view one) { return known.find(one) != std::string::npos; });
    };
    bool says_chilli =
        begin + 1 == i && is_any(begin, {"chile", "chiles", "chili", "chilis", "chilies", "chilli",
                                         "chillies", "chillis", "pepper", "peppers"});
    if (says_chilli && std::any_of(state_.solids.begin(), state_.solids.end(), is_chilli)) {
      begin = i + 1;
      continue;
    }
    bool is_group = is_any(begin, {"spirits", "spirit", "booze", "liquids", "juices", "syrups"}) &&
                    begin + 1 == i && !state_.liquids.empty();
    // `the fruit`, `the berries`
    bool is_solid_group =
        is_any(begin, {"fruit", "fruits", "berries", "herbs", "spices", "peels", "zests"}) &&
        begin + 1 == i && !state_.solids.empty();
    is_group = is_group || is_solid_group;
    if (!is_group && !went_in(state_.liquids) && !went_in(state_.solids)) return std::nullopt;
    begin = i + 1;
  }
  return stop;
}

Match FormMatcher::dissolved_first() const {
  // `stir the marmalade with the gin until dissolved`: hands' work on what stands above, before any ice.
  if (!is_any(0, {"stir", "dissolve", "mix", "melt", "whisk"}) || state_.was_worked ||
      comma_or_end(0) != end_)
    return std::nullopt;
  std::size_t stop = end_;
  for (std::size_t i = 2; i < end_ && stop == end_; ++i)
    if (after_any(i, {"until dissolved", "till dissolved", "to dissolve", "first", "until it dissolves",
                      "until smooth", "until combined"}) == end_)
      stop = i;
  bool says_so = stop < end_ || is(0, "dissolve");
  std::size_t with = 1;
  while (with < stop && !is_any(with, {"with", "in", "into"})) ++with;
  if (!says_so || !poured_already(1, with)) return std::nullopt;
  if (with < stop && !poured_already(with + 1, stop)) return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

bool FormMatcher::poured_already(std::size_t first, std::size_t last) const {
  return last > first &&
         FormMatcher(line_.part(0, last), context_, in_prep_, state_).poured_already(first) == last;
}

Match FormMatcher::shake_again() const {
  // `dry shake, then again with ice`.
  auto next = after_any(0, {"again with ice",
                            "then again with ice",
                            "shake again with ice",
                            "shake again",
                            "again wet",
                            "then with ice",
                            "with ice again",
                            "then wet",
                            "re-shake",
                            "reshake",
                            "reshake with ice",
                            "after shake with ice",
                            "after with ice",
                            "and again with ice",
                            "then shake again with ice",
                            "shake again on ice",
                            "shake again over ice",
                            "again on ice",
                            "then hard with ice",
                            "hard with ice",
                            "then hard over ice",
                            "then with ice hard",
                            "then shake hard with ice",
                            "again hard with ice",
                            "again over ice",
                            "then shake again",
                            "then on ice",
                            "then over ice"});
  if (!next) return std::nullopt;
  // `then with ice for 10 s`
  std::size_t stop = comma_or_end(*next), time = is(*next, "for") ? *next + 1 : *next;
  Reading shake = say("shake");
  if (*next != stop) {
    if (!is_time(time, stop)) return std::nullopt;
    shake.copy(line_, time, stop);
  }
  return Readings{with_rest(shake, line_, stop, end_)};
}

Match FormMatcher::crushed_what() const {
  if (!is_any(0, {"press", "crush", "mash", "squash", "bruise", "smash", "break"})) return std::nullopt;
  std::size_t stop = comma_or_end(0), last = stop;
  // `press the mint in the cup`
  for (std::size_t i = 2; i < stop && last == stop; ++i)
    if (place_at(i) == stop || tool_at(i) == stop) last = i;
  // `press the mint lightly with the syrup in a julep cup`: the glass that it is built in.
  Readings in_glass;
  for (std::size_t i = 2; i < stop && last == stop; ++i)
    if (is_any(i, {"in", "into"}) && vessel(i, in_glass) && !in_glass.empty()) last = i;
  while (last > 1 && is_adverb(word(last - 1))) --last;
  std::size_t first = is(1, "up") ? 2 : 1;
  first = skip_article(first);
  if (first >= last || state_.solids.empty()) return std::nullopt;
  FormMatcher head(line_.part(0, last), context_, in_prep_, state_);
  auto lines = head.muddle_together(first);
  if (!lines) {
    auto meant = recipe_use(first, last);
    bool went_in =
        meant && std::find(state_.solids.begin(), state_.solids.end(), *meant) != state_.solids.end();
    if (!went_in) return std::nullopt;
    lines = Readings{state_.solids.size() == 1 ? say("muddle")
                                               : say("muddle").say(context_.specs[*meant].head.name)};
  }
  std::string said = base::collapse_space(line_.raw(0, in_glass.empty() ? stop : last));
  lines->back().text += ", \"" + said + "\"";
  with_rest(lines->back(), line_, stop, end_);
  if (!in_glass.empty() && !state_.was_built) in_glass.push_back(say("build"));
  lines->insert(lines->begin(), in_glass.begin(), in_glass.end());
  return lines;
}

Match FormMatcher::words_of_service() const {
  // What hands do around the drink and no figure shows.
  if (after_any(0, {"swizzle stick", "with a swizzle stick", "with swizzle stick"}) == end_)
    return Readings{say("serve with swizzle stick")};
  // `preheat a toddy glass with hot water`: the glass, and that it is warm.
  if (auto heat = after_any(0, {"preheat", "pre-heat", "prewarm", "pre-warm", "warm", "heat"})) {
    std::size_t first = skip_article(*heat), last = end_;
    for (std::size_t i = first; i < end_; ++i)
      if (after_any(
              i, {"with hot water", "with boiling water", "with hot water first", "with boiling water first",
                  "first", "from the kettle", "with water from the kettle"}) == end_)
        last = std::min(last, i);
    // `warm the glass with hot water`: whichever the drink's is.
    bool is_any_glass = is_any(first, {"glass", "mug", "cup"}) && first + 1 == last && first > *heat;
    if (is_any_glass && (last < end_ || !is(0, "heat"))) return Readings{say("do").copy(line_, 0, end_)};
    if (is_name(symbols::NameSpace::glass, first, last) &&
        (first > *heat || last < end_ || !is_any(0, {"heat", "warm"}))) {
      Reading glass = implied("glass");
      glass.copy(line_, first, last);
      glass.text += ", warmed";
      return Readings{glass, say("do").copy(line_, 0, end_)};
    }
  }
  // `in a heated glass`: whichever the drink's is.
  if (auto in = after_any(0, {"in", "into", "served in", "serve in"})) {
    std::size_t how = skip_article(*in);
    if (is_any(how, {"heated", "hot", "warm", "warmed", "preheated", "cold", "chilled", "nice", "fancy"}) &&
        is_any(how + 1, {"glass", "glasses"}) && how + 2 == end_)
      return Readings{say("do").copy(line_, 0, end_)};
  }
  auto next = after_any(0, {"ladle",
                            "ladle out",
                            "ladle to serve",
                            "tip out water",
                            "tip out the water",
                            "tip out excess water",
                            "tip water out",
                            "pour off melt",
                            "pour off the melt",
                            "pour off meltwater",
                            "tip out melt",
                            "tip out the melt",
                            "drain melt",
                            "pour off water",
                            "pour off the water",
                            "drain water",
                            "drain the water",
                            "chill glass",
                            "chill the glass",
                            "stir down to chill glass",
                            "stir to chill glass",
                            "stir to chill the glass",
                            "stir ice to chill glass",
                            "wipe the rim",
                            "wipe rim",
                            "light it",
                            "set alight",
                            "don't stir",
                            "do not stir",
                            "no stirring",
                            "never stir",
                            "don't shake",
                            "do not shake",
                            "don't mix",
                            "do not mix",
                            "don't muddle",
                            "do not muddle",
                            "serve immediately",
                            "serve at once",
                            "serve straight away",
                            "hold back ice",
                            "wipe glass"});
  if (!next || *next != end_) return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

Match FormMatcher::seasoned() const {
  // `salt + pepper`, `s&p`: a pinch of each, into the drink.
  if (state_.is_finished || comma_or_end(0) != end_) return std::nullopt;
  Readings lines;
  if (end_ == 1 && is_any(0, {"s&p", "s+p"}))
    return Readings{say("1 pinch salt"), say("1 pinch black pepper")};
  std::size_t begin = 0;
  for (std::size_t i = 0; i <= end_; ++i) {
    if (i < end_ && !is_any(i, {"and", "&", "+"})) continue;
    auto one =
        after_any(begin, {"salt", "pepper", "black pepper", "celery salt", "white pepper", "sea salt"});
    std::size_t behind = one ? after(*one, "to taste").value_or(*one) : 0;
    if (!one || behind != i) return std::nullopt;
    i = *one;
    Reading pinch = say("1 pinch");
    pinch.copy(line_, begin, i);
    if (behind > i) pinch.text += ", \"to taste\"";
    lines.push_back(pinch);
    i = behind;
    begin = i + 1;
  }
  if (lines.size() < 2) return std::nullopt;
  return lines;
}

Match FormMatcher::bare_mixer() const {
  // `soda`, `ginger beer`: what sparkles and has no amount fills the glass.
  if (end_ == 0 || state_.liquids.empty() || line_.kind(0) == TokenKind::number || comma_or_end(0) != end_)
    return std::nullopt;
  auto use = find_use(LineReader(line_, context_), 0, end_);
  if (!use || use->item.valid()) return std::nullopt;
  const auto& stock = context_.specs[use->stock];
  bool sparkles = stock.kind == StockKind::sparkling || (stock.kind == StockKind::mixer && stock.fizz);
  if (!sparkles) return std::nullopt;
  return Readings{say("top").copy(line_, 0, end_)};
}

Match FormMatcher::smoked_glass() const {
  // `smoke the glass with cherry wood`.
  auto next =
      after_any(0, {"smoke glass with", "smoke the glass with", "smoke drink with", "smoke the drink with",
                    "smoke it with", "smoke with", "smoke glass under", "smoke over"});
  if (!next) return std::nullopt;
  std::size_t stop = comma_or_end(*next), name = *next;
  Reading smoke = say("smoke");
  if (is_use(name, stop)) return Readings{with_rest(smoke.copy(line_, name, stop), line_, stop, end_)};
  std::string chips = base::collapse_space(line_.raw(name, stop)) + " chips";
  if (!context_.names.find(symbols::NameSpace::stock, chips).valid()) return std::nullopt;
  return Readings{with_rest(smoke.copy(line_, name, stop).say("chips"), line_, stop, end_)};
}

Match FormMatcher::total_size() const {
  // `total 90 ml`: what the parts fill.
  auto next = after_any(0, {"total", "total volume", "makes", "comes to"});
  if (!next || !begins_quantity(*next)) return std::nullopt;
  Reading size = say("size");
  return Readings{size.copy(line_, *next, end_)};
}

Match FormMatcher::ice_by_amount() const {
  // `big scoop crushed ice`
  std::size_t scoop = skip_article(0);
  while (is_any(scoop, {"big", "large", "small", "good", "heaped", "generous", "one", "full"})) ++scoop;
  if (is(scoop, "scoop")) {
    std::size_t name = is(scoop + 1, "of") ? scoop + 2 : scoop + 1;
    if (auto ice = ice_named(name, end_)) return Readings{say("add").say(*ice)};
  }
  // `200 g crushed ice` on a line of its own: it goes in here.
  if (line_.kind(0) != TokenKind::number || comma_or_end(0) != end_ || is_amount(0, end_))
    return std::nullopt;
  auto unit = context_.units.match(line_, 1);
  std::size_t name = 1 + (unit.unit.valid() ? unit.tokens : 0), unit_end = name;
  // Which cup is meant is asked by whoever reads the ice.
  bool is_asked = !unit.unit.valid() && end_ > 2 && line_.kind(1) == TokenKind::word &&
                  !context_.units.explain_unknown(line_.text(1)).units.empty();
  if (is_asked) name = unit_end = 2;
  if (is(name, "of")) ++name;
  if (unit.unit.valid() && context_.units[unit.unit].is_item_word && ice_named(1, end_)) name = unit_end = 1;
  auto ice = ice_named(name, end_);
  if (!ice) return std::nullopt;
  return Readings{say("add").copy(line_, 0, unit_end).say(*ice)};
}

Match FormMatcher::work_where() const {
  // `stir in a warm toddy glass`, `muddle mint in a highball`: worked in the glass that it is served in; so
  // is what is stirred over its ice, once it was built.
  auto verb = match_verb(line_, 0);
  if (!verb || state_.is_mixed || (state_.is_finished && !state_.was_built)) return std::nullopt;
  if (verb->verb != Verb::stir && verb->verb != Verb::muddle && verb->verb != Verb::churn &&
      verb->verb != Verb::swizzle)
    return std::nullopt;
  std::size_t stop = comma_or_end(0);
  for (std::size_t i = verb->tokens; i + 1 < stop; ++i) {
    bool over = i == verb->tokens && is_any(i, {"over", "on"});
    if (!is_any(i, {"in", "into"}) && !over) continue;
    Readings lines;
    FormMatcher head(line_.part(0, stop), context_, in_prep_, state_);
    if (!head.vessel(i, lines) || lines.empty()) continue;
    // `stir over ice` alone is on the ice of the mixing glass.
    bool names_glass = std::any_of(lines.begin(), lines.end(),
                                   [](const Reading& one) { return one.text.starts_with("glass "); });
    for (std::size_t k = i; k < stop; ++k)
      names_glass = names_glass || after_any(k, {"in the glass", "in glass", "in its glass"});
    if (over && !state_.was_built && !names_glass) continue;
    if (!state_.was_built) lines.push_back(say("build"));
    Reading work = say(info(verb->verb).name);
    work.copy(line_, verb->tokens, i);
    with_rest(work, line_, stop, end_);
    lines.push_back(work);
    return lines;
  }
  return std::nullopt;
}

}  // namespace gill::analysis

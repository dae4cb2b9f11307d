// What is laid on a drink or served beside it.
#include "analysis/forms/form_matcher.h"

#include <algorithm>
#include <array>

#include "analysis/remark.h"
#include "base/any_of.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;

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
                                   {"squeezed and dropped", "squeezed in"},
                                   {"squeezed then dropped in", "squeezed in"},
                                   {"squeezed then dropped", "squeezed in"},
                                   {"squeezed and in", "squeezed in"},
                                   {"squeezed & in", "squeezed in"},
                                   {"squeeze and drop", "squeezed in"},
                                   {"squeeze & drop", "squeezed in"},
                                   {"squeezed over and dropped in", "squeezed in"},
                                   {"squeezed over", "squeezed in"},
                                   {"squeezed on top", "squeezed in"},
                                   {"squeezed into the drink", "squeezed in"},
                                   {"flag", "as a flag"},
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
                                   {"floating on top", "floated"},
                                   {"floated on top", "floated"},
                                   {"floating on the foam", "floated"},
                                   {"floated on the foam", "floated"},
                                   {"float on top", "floated"},
                                   {"on the surface", "floated"},
                                   {"express + drop", "expressed and dropped in"},
                                   {"express + drop in", "expressed and dropped in"},
                                   {"expressed + dropped", "expressed and dropped in"},
                                   {"expressed + dropped in", "expressed and dropped in"},
                                   {"express + discard", "expressed and discarded"},
                                   {"expressed + discarded", "expressed and discarded"},
                                   {"express + toss", "expressed and discarded"},
                                   {"express and toss", "expressed and discarded"},
                                   {"expressed and tossed", "expressed and discarded"},
                                   {"expressed and binned", "expressed and discarded"},
                                   {"expressed over then tossed", "expressed and discarded"},
                                   {"expressed over then discarded", "expressed and discarded"},
                                   {"expressed over and discarded", "expressed and discarded"},
                                   {"expressed over and tossed", "expressed and discarded"},
                                   {"expressed then tossed", "expressed and discarded"},
                                   {"slapped first", "slapped"},
                                   {"spanked first", "slapped"},
                                   {"clapped first", "slapped"},
                                   {"clipped on", "clipped on"},
                                   {"clipped to the glass", "clipped on"},
                                   {"clipped to the rim", "clipped on"},
                                   {"pegged on", "clipped on"},
                                   {"pegged to the rim", "clipped on"},
                                   {"flat side up", "flat side up"},
                                   {"cut side up", "cut side up"},
                                   {"face up", "face up"},
                                   {"oils only", "expressed and discarded"},
                                   {"oil only", "expressed and discarded"},
                                   {"swirled", "swirled"},
                                   {"swirled in", "swirled"},
                                   {"swirled on top", "swirled"},
                                   {"swirled on the foam", "swirled"},
                                   {"swirled with a straw", "swirled"},
                                   {"swirled with a pick", "swirled"},
                                   {"swirled with a toothpick", "swirled"},
                                   {"swirled with a skewer", "swirled"},
                                   {"dragged with a pick", "dragged"},
                                   {"dragged with a toothpick", "dragged"},
                                   {"feathered", "feathered"},
                                   {"feathered with a pick", "feathered"},
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
  // `freshly grated`, `lightly slapped`
  if (std::size_t how = i + 1; how < end_ && (is_adverb(word(i)) || is_any(i, {"freshly", "fresh"})))
    if (auto noted = garnish_note(how, note, verb)) return noted;
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
    // `half the squeezed lime shell`
    while (name + 1 < last && is_size(word(name)) && !is_use(name, last)) ++name;
    use = find_use(LineReader(line_, context_), name, last);
    if (use && use->item.valid() && name > first + 1) return one.say("1/2").copy(line_, name, last);
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
  static constexpr std::string_view sizes[] = {
      "long", "big",   "large",    "small", "wide",  "thin",     "fresh",  "spent", "little",
      "nice", "thick", "good",     "huge",  "giant", "whole",    "single", "extra", "tall",
      "fat",  "mini",  "generous", "few",   "some",  "squeezed", "used",   "empty", "half-squeezed"};
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

Match FormMatcher::bracketed_garnish() const {
  // `garnish orange peel (expressed)`: what stands in brackets is what follows a comma.
  auto open = is(0, "garnish") ? last_brackets(1, end_) : std::nullopt;
  if (!open || !is_use(1, *open)) return std::nullopt;
  std::string inner = inside_brackets(base::collapse_space(line_.raw(*open, end_)));
  if (inner.empty() || inner.find_first_of("()\"0123456789") != std::string::npos) return std::nullopt;
  Reading garnish = say("garnish");
  garnish.copy(line_, 1, *open);
  garnish.text += ", " + inner;
  return Readings{garnish};
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
    // `lime juice squeezed over` is poured.
    if (!named && previous && !previous->item.valid() &&
        context_.specs[previous->stock].kind == StockKind::juice)
      return std::nullopt;
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
    // `mint sprig, icing sugar`: behind what lies there a powder is dusted.
    bool is_dusted = !lines.empty() && !has_number && previous && is_past_mixing() &&
                     (context_.specs[previous->stock].kind == StockKind::sweetener ||
                      context_.specs[previous->stock].head.name.ends_with("powder")) &&
                     context_.specs[previous->stock].effective_form() != Form::liquid;
    if (!named && last == i && !of_unit && !is_dusted && !is_garnish_by_kind(thing, last) &&
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
  if (!state_.is_finished) return false;
  if (is_laid_on_only(first, last)) return true;
  // `1/2 orange slice` behind the strain: nothing is worked any more. What is built takes its wedges and
  // leaves in.
  auto use = find_use(LineReader(line_, context_), first, last);
  if (!use) return false;
  static constexpr std::string_view cut[] = {"slice", "wheel", "twist",  "peel",
                                             "strip", "zest",  "ribbon", "round"};
  static constexpr std::string_view pieces[] = {"wedge", "leaf", "sprig", "half", "berry", "quarter"};
  std::string name = base::fold_name(use->item.valid() ? context_.units[use->item].symbol
                                                       : context_.specs[use->stock].head.name);
  std::string piece = name.substr(name.rfind(' ') == std::string::npos ? 0 : name.rfind(' ') + 1);
  return base::is_any_of(std::string_view(piece), cut) ||
         ((!state_.was_built || state_.was_worked) && base::is_any_of(std::string_view(piece), pieces));
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

Match FormMatcher::dotted_on() const {
  // `4 drops Ango swirled with a straw`: on the foam.
  if (line_.kind(0) == TokenKind::number && is_any(1, {"drops", "dashes", "drop", "dash", "dots"}) &&
      is_past_mixing()) {
    std::size_t name = is(2, "of") ? 3 : 2;
    for (std::size_t i = name + 1; i < comma_or_end(0); ++i) {
      std::string note;
      Verb verb = Verb::garnish;
      if (!is_any(i, {"swirled", "dragged", "feathered", "dotted"}) || !is_use(name, i)) continue;
      if (i + 1 < end_ && garnish_note(i, note, verb) != comma_or_end(0)) return std::nullopt;
      Reading drops =
          say("garnish").copy(line_, 0, 1).say(is(1, "dots") ? "drops" : word(1)).copy(line_, name, i);
      drops.text += ", " + (note.empty() ? word(i) : note);
      return Readings{with_rest(drops, line_, comma_or_end(0), end_)};
    }
  }
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

Match FormMatcher::flag_of_two() const {
  // `orange cherry flag`, `orange and cherry flag`
  std::size_t first = verb_at(0, Verb::garnish).value_or(0), flag = comma_or_end(first) - 1;
  if (end_ < first + 3 || !is(flag, "flag")) return std::nullopt;
  for (std::size_t i = first + 1; i < flag; ++i) {
    std::size_t next = is_any(i, {"and", "&", "+", "-", "/"}) ? i + 1 : i;
    if (next >= flag || !is_use(first, i) || !is_use(next, flag)) continue;
    if (!is_garnish_by_kind(first, i) || !is_garnish_by_kind(next, flag)) continue;
    Reading one = say("garnish").copy(line_, first, i), other = say("garnish").copy(line_, next, flag);
    one.text += ", as a flag";
    other.text += ", as a flag";
    return Readings{one, with_rest(other, line_, flag + 1, end_)};
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

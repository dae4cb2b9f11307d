#include "analysis/forms/form_line.h"

#include <algorithm>
#include <array>
#include <map>

#include "analysis/remark.h"
#include "base/any_of.h"
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

std::optional<std::size_t> FormLine::after_words(std::size_t i, std::string_view phrase) const {
  while (!phrase.empty()) {
    auto space = phrase.find(' ');
    if (!is(i++, phrase.substr(0, space))) return std::nullopt;
    phrase = space == std::string_view::npos ? std::string_view() : phrase.substr(space + 1);
  }
  return i;
}

std::optional<std::size_t> FormLine::after_any(std::size_t i, WordList phrases) const {
  return longest(i, {phrases.begin(), phrases.size()});
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
  if (last <= first || !syntax::is_plain_name(line_, first, last, bad)) return false;
  std::string name = syntax::name_text(line_, first, last);
  // `highballs`, `heatproof glasses`: several of a glass.
  auto singular = [&](std::string_view ending) {
    return name.ends_with(ending) &&
           context_.names.find(space, name.substr(0, name.size() - ending.size())).valid();
  };
  return context_.names.find(space, name).valid() ||
         (space == symbols::NameSpace::glass && (singular("s") || singular("es")));
}

bool FormLine::is_use(std::size_t first, std::size_t last) const {
  if (last <= first) return false;
  auto [answer, is_new] = uses_.try_emplace({first, last}, false);
  if (is_new) answer->second = names_use(first, last);
  return answer->second;
}

bool FormLine::names_use(std::size_t first, std::size_t last) const {
  if (find_use(LineReader(line_, context_), first, last)) return true;
  // A word with several meanings is a name, too: its reader asks.
  std::size_t bad = 0;
  return syntax::is_plain_name(line_, first, last, bad) &&
         context_.specs.house.asks.contains(base::fold_name(syntax::name_text(line_, first, last)));
}

std::optional<std::string> FormLine::ice_named(std::size_t first, std::size_t last) const {
  if (last <= first) return std::nullopt;
  std::string name = base::fold_name(base::collapse_space(line_.raw(first, last)));
  auto known = [&](const std::string& one) {
    return context_.names.find(symbols::NameSpace::ice, one).valid();
  };
  for (std::string_view start : {"1 ",
                                 "the ",
                                 "a ",
                                 "one ",
                                 "some ",
                                 "more ",
                                 "extra ",
                                 "fresh ",
                                 "new ",
                                 "lots of ",
                                 "a scoop of ",
                                 "scoop of ",
                                 "a handful of ",
                                 "handful of ",
                                 "a few ",
                                 "few ",
                                 "a load of ",
                                 "tons of ",
                                 "loads of ",
                                 "plenty of ",
                                 "big block of ",
                                 "bit of ",
                                 "a bit of ",
                                 "little ",
                                 "good ",
                                 "nice ",
                                 "single ",
                                 "plain ",
                                 "clean ",
                                 "large scoop of ",
                                 "big scoop of ",
                                 "a large scoop of ",
                                 "a small scoop of ",
                                 "small scoop of ",
                                 "half a scoop of ",
                                 "a half scoop of ",
                                 "scoops of ",
                                 "a couple of scoops of ",
                                 "a full scoop of ",
                                 "a big scoop of ",
                                 "good scoop of ",
                                 "a good scoop of ",
                                 "glass full of ",
                                 "a ton of ",
                                 "heaps of ",
                                 "lot of ",
                                 "big ",
                                 "large ",
                                 "huge ",
                                 "giant ",
                                 "a lot of "})
    if (name.starts_with(start) && !known(name) && name != "big block")
      name = start == "big block of " ? "block" : name.substr(start.size());
  if (name == "rock" || name == "big block") return "large cube";
  if (name == "ice" || name == "cubes" || name == "ice cubes" || name == "cubed ice") return "cubed";
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

std::optional<std::size_t> FormLine::last_brackets(std::size_t first, std::size_t last) const {
  std::size_t open = first;
  while (open < last && !word(open).starts_with("(")) ++open;
  return open < last && word(last - 1).ends_with(")") ? std::optional(open) : std::nullopt;
}

std::string FormLine::inside_brackets(std::string text) {
  return text.size() < 2 ? std::string() : text.substr(1, text.size() - 2);
}

bool FormLine::is_adverb(std::string_view word) {
  static constexpr std::array<std::string_view, 33> adverbs = {
      "hard",   "vigorously", "gently",    "briefly", "well",   "quickly",  "slowly",     "lightly", "softly",
      "firmly", "short",      "briskly",   "very",    "really", "fast",     "thoroughly", "quick",   "long",
      "down",   "good",       "carefully", "firm",    "twice",  "properly", "roughly",    "flash",   "super",
      "light",  "together",   "nicely",    "v",       "first",  "brief"};
  if (std::find(adverbs.begin(), adverbs.end(), word) != adverbs.end()) return true;
  // `energetically`: how a thing is done; not how often, and no thing.
  static constexpr std::string_view no_adverbs[] = {
      "daily", "weekly", "nightly", "hourly",   "monthly", "jelly",  "family", "early",  "only",
      "fly",   "holly",  "lily",    "directly", "freshly", "bubbly", "curly",  "firefly"};
  constexpr std::size_t shortest_adverb = 5;
  return word.size() >= shortest_adverb && word.ends_with("ly") && !base::is_any_of(word, no_adverbs);
}

std::optional<std::size_t> FormLine::longest(std::size_t i, std::span<const std::string_view> phrases) const {
  std::optional<std::size_t> best;
  for (auto phrase : phrases)
    if (auto next = after(i, phrase); next && (!best || *next > *best)) best = next;
  return best;
}

std::optional<std::size_t> FormLine::tool_at(std::size_t i) const {
  static constexpr std::string_view tools[] = {"mixing glass",
                                               "mixing tin",
                                               "mixing beaker",
                                               "cocktail shaker",
                                               "bowl",
                                               "bucket",
                                               "cambro",
                                               "stockpot",
                                               "boston shaker",
                                               "boston tin",
                                               "boston",
                                               "tin",
                                               "shaker",
                                               "shaker tin",
                                               "blender",
                                               "blender cup",
                                               "blender jug",
                                               "bottom of the tin",
                                               "bottom of tin",
                                               "bottom of shaker",
                                               "bottom of the shaker"};
  // Glasses are called jar, jug and bowl, too: these are vessels of a kitchen.
  static constexpr std::string_view vessels[] = {"pan",
                                                 "saucepan",
                                                 "pot",
                                                 "jar",
                                                 "container",
                                                 "tub",
                                                 "vac bag",
                                                 "vacuum bag",
                                                 "sous vide bag",
                                                 "zip bag",
                                                 "bag",
                                                 "siphon",
                                                 "cream whipper",
                                                 "whipper",
                                                 "soda siphon",
                                                 "bottle",
                                                 "bottles",
                                                 "jug",
                                                 "bowl",
                                                 "bucket",
                                                 "deli container",
                                                 "quart container",
                                                 "measuring jug",
                                                 "preserving jar",
                                                 "squeezy bottle",
                                                 "squeeze bottle",
                                                 "sterilised bottle",
                                                 "sterilised bottles",
                                                 "sterilized bottles",
                                                 "dropper bottle",
                                                 "clean jar",
                                                 "tray",
                                                 "trays",
                                                 "ice trays",
                                                 "ice cube trays",
                                                 "moulds",
                                                 "droppers",
                                                 "dropper bottles",
                                                 "dashers",
                                                 "dasher bottles",
                                                 "squeezy bottles",
                                                 "tubs",
                                                 "deli tubs",
                                                 "deli containers",
                                                 "containers",
                                                 "bag-in-box",
                                                 "cream siphon",
                                                 "insulated cooler",
                                                 "cooler",
                                                 "vac bags",
                                                 "pouches"};
  auto next = after_any(i, {"in", "into", "to", "inside"});
  if (!next) return std::nullopt;
  std::size_t tool = skip_article(*next);
  if (auto found = longest(tool, tools)) return found;
  if (auto found = in_prep_ ? longest(tool, vessels) : std::nullopt) return found;
  // `in a crock`: what nothing else is called is the kitchen's own vessel.
  bool is_own =
      in_prep_ && tool == *next + 1 && tool < end_ && line_.kind(tool) == TokenKind::word &&
      (tool + 1 == end_ || line_.kind(tool + 1) == TokenKind::comma || is_any(tool + 1, {"and", "&"}));
  if (is_own && is_plain_word(tool)) return tool + 1;
  if (!is_any(tool, {"your", "large", "small", "big", "clean", "heavy", "sealed", "sterile", "airtight"}))
    return std::nullopt;
  if (auto found = longest(tool + 1, tools)) return found;
  return in_prep_ ? longest(tool + 1, vessels) : std::nullopt;
}

bool FormLine::is_plain_word(std::size_t i) const {
  const std::string& text = word(i);
  if (text.size() < 3 || std::any_of(text.begin(), text.end(), [](char c) { return c < 'a' || c > 'z'; }))
    return false;
  if (context_.units.find(text).valid() || match_verb(line_, i) || number_of(text) || is_use(i, i + 1))
    return false;
  static constexpr std::string_view of_time_and_place[] = {
      "fridge", "freezer", "walk-in", "dark",    "day",   "night", "while", "bath", "sieve",
      "filter", "cloth",   "muslin",  "chinois", "glass", "ice",   "oven",  "time", "turn"};
  if (base::is_any_of(std::string_view(text), of_time_and_place)) return false;
  return !is_name(symbols::NameSpace::glass, i, i + 1) && !is_name(symbols::NameSpace::ice, i, i + 1);
}

bool FormLine::hides_nothing(std::size_t first, std::size_t last) const {
  // `over the back of a bar spoon`: so it is floated.
  if (after_any(first, {"over the back of a spoon", "over back of a spoon", "over back of spoon",
                        "over a spoon", "over the back of a bar spoon", "over back of a bar spoon",
                        "over the back of a barspoon", "over back of bar spoon", "over a bar spoon",
                        "over the back of the spoon", "off the back of a spoon"}) == last)
    return true;
  // What tells where a thing goes, or that it is done another way, is no remark.
  static constexpr std::string_view stems[] = {
      "top",   "float",    "rins",  "rim",   "side",  "layer", "mist",   "flam",   "smok",   "garnish",
      "serv",  "spray",    "wash",  "strai", "shak",  "stir",  "muddl",  "blend",  "heat",   "boil",
      "chill", "freez",    "each",  "per",   "half",  "steep", "infus",  "soak",   "beside", "tin",
      "batch", "lengthen", "twice", "again", "total", "until", "option", "instead"};
  for (std::size_t i = first; i < last; ++i) {
    if (line_.kind(i) != TokenKind::word || number_of(word(i)) || word(i).empty()) return false;
    for (auto stem : stems)
      if (word(i).starts_with(stem)) return false;
  }
  return is_plain_remark(LineReader(line_, context_), first + 1, last);
}

std::size_t FormLine::turns_stop(std::size_t i) const {
  // `stir 40x`, `stir 30 times`: turns are no time.
  auto step = match_verb(line_, 0);
  if (!step || (step->verb != Verb::stir && step->verb != Verb::swizzle && step->verb != Verb::churn))
    return i;
  std::size_t number = is(i, "x") ? i + 1 : i;
  bool is_range = number < end_ && line_.kind(number) == TokenKind::dashed_range;
  if ((line_.kind(number) != TokenKind::number && !is_range) || number >= end_) {
    bool is_glued = i < end_ && word(i).size() > 1 && word(i)[0] == 'x' &&
                    word(i).find_first_not_of("0123456789", 1) == std::string::npos;
    return is_glued ? i + 1 : i;
  }
  if (number > i) return number + 1;
  auto turns =
      after_any(number + 1, {"x", "times", "turns", "rotations", "revolutions", "revs", "stirs", "rounds"});
  return turns ? *turns : i;
}

std::size_t FormLine::manner_stop(std::size_t i) const {
  // A strain into the tin is another step than a strain.
  auto step = match_verb(line_, 0);
  bool moves = !in_prep_ && step &&
               (step->verb == Verb::strain || step->verb == Verb::double_strain ||
                step->verb == Verb::fine_strain || step->verb == Verb::dump);
  static constexpr std::string_view phrases[] = {"like hell",
                                                 "it",
                                                 "all",
                                                 "all ingredients",
                                                 "all the ingredients",
                                                 "from bottom",
                                                 "from the bottom",
                                                 "from the bottom up",
                                                 "on high",
                                                 "on full",
                                                 "on full speed",
                                                 "at full speed",
                                                 "on low speed",
                                                 "on max",
                                                 "until combined",
                                                 "it all",
                                                 "all together",
                                                 "the lot",
                                                 "everything",
                                                 "once",
                                                 "between tins",
                                                 "between two tins",
                                                 "from a height",
                                                 "in while hot",
                                                 "in while warm",
                                                 "in while still warm",
                                                 "in",
                                                 "through",
                                                 "max",
                                                 "at most",
                                                 "taste often",
                                                 "taste regularly",
                                                 "tasting regularly",
                                                 "until you like it",
                                                 "until happy",
                                                 "in one go",
                                                 "hot",
                                                 "still hot",
                                                 "smooth",
                                                 "with ladle",
                                                 "with a ladle",
                                                 "with a spoon",
                                                 "with spoon",
                                                 "with a bar spoon",
                                                 "with bar spoon",
                                                 "with a barspoon",
                                                 "with a long spoon",
                                                 "with a knife",
                                                 "with knife",
                                                 "with fork",
                                                 "with whisk",
                                                 "with stick",
                                                 "with straw",
                                                 "with chopstick",
                                                 "with a chopstick",
                                                 "with long spoon",
                                                 "with a swizzle stick",
                                                 "with swizzle stick",
                                                 "with a long knife",
                                                 "with a fork",
                                                 "with stick blender",
                                                 "with a stick blender",
                                                 "with hand blender",
                                                 "with a hand blender",
                                                 "with milk frother",
                                                 "with a milk frother",
                                                 "with a frother",
                                                 "with a stick",
                                                 "with a straw",
                                                 "with a whisk",
                                                 "very cold",
                                                 "ice cold",
                                                 "until clear",
                                                 "like mad",
                                                 "like crazy",
                                                 "like you mean it",
                                                 "as hard as you can",
                                                 "for dear life",
                                                 "to get a good foam",
                                                 "to get foam",
                                                 "for foam",
                                                 "for a good foam",
                                                 "for good foam",
                                                 "to build foam",
                                                 "to froth",
                                                 "to combine",
                                                 "to mix",
                                                 "to integrate",
                                                 "to blend",
                                                 "to incorporate",
                                                 "to marry",
                                                 "to emulsify",
                                                 "to wake it up",
                                                 "to wake up the foam",
                                                 "to wake up foam",
                                                 "to finish",
                                                 "lid on",
                                                 "lid off",
                                                 "with lid on",
                                                 "with the lid on",
                                                 "with the lid off",
                                                 "covered",
                                                 "uncovered",
                                                 "off the heat",
                                                 "off heat",
                                                 "on low",
                                                 "on low heat",
                                                 "on a low heat",
                                                 "over low heat",
                                                 "over a low heat",
                                                 "low heat",
                                                 "on medium",
                                                 "on medium heat",
                                                 "over medium heat",
                                                 "over a medium heat",
                                                 "medium heat",
                                                 "over gentle heat",
                                                 "on a gentle heat",
                                                 "over a gentle heat",
                                                 "taste as you go",
                                                 "tasting as you go",
                                                 "tasting often",
                                                 "tasting every hour",
                                                 "once a day",
                                                 "every day",
                                                 "every hour",
                                                 "from time to time",
                                                 "now and then",
                                                 "occasionally",
                                                 "stirring occasionally",
                                                 "shaking occasionally",
                                                 "stirring now and then",
                                                 "to dissolve",
                                                 "to dissolve sugar",
                                                 "to dissolve the sugar",
                                                 "to melt the sugar",
                                                 "strong",
                                                 "strongly",
                                                 "the hell out of it",
                                                 "the life out of it",
                                                 "before use",
                                                 "before using",
                                                 "before serving",
                                                 "before service",
                                                 "up and down",
                                                 "with love",
                                                 "as needed",
                                                 "to release oils",
                                                 "to release the oils",
                                                 "to release juice",
                                                 "to release the juice",
                                                 "to extract juice",
                                                 "to bruise",
                                                 "just to bruise",
                                                 "to break up",
                                                 "to bring up the foam",
                                                 "and label",
                                                 "label",
                                                 "and date",
                                                 "and label and date",
                                                 "label and date",
                                                 "and label up",
                                                 "warm",
                                                 "while warm",
                                                 "while still warm",
                                                 "while hot",
                                                 "whilst hot",
                                                 "out of the light",
                                                 "in the dark",
                                                 "dark",
                                                 "away from light",
                                                 "away from the light",
                                                 "in a dark place",
                                                 "just once",
                                                 "a few times",
                                                 "a couple of times",
                                                 "once or twice",
                                                 "at the end",
                                                 "one last time"};
  std::size_t at = i;
  while (at < end_) {
    std::size_t word_at = at;
    if (at > i && is_any(at, {"and", "&", "n", "but"})) ++word_at;
    // The longest phrase that stands there.
    std::size_t next = longest(word_at, phrases).value_or(word_at);
    next = std::max(next, turns_stop(word_at));
    // `everything except the soda`
    if (auto but =
            after_any(word_at, {"everything except", "everything but", "everything bar", "all but",
                                "all except", "all bar", "all ingredients except", "all ingredients but"})) {
      std::size_t what = skip_article(*but);
      if (what < end_ && line_.kind(what) == TokenKind::word) next = std::max(next, what + 1);
    }
    // `to melt the gelatine`
    if (auto melts = after_any(word_at, {"to melt", "to dissolve", "to bloom"})) {
      std::size_t what = skip_article(*melts);
      if (what < end_ && line_.kind(what) == TokenKind::word) next = std::max(next, what + 1);
    }
    // `double strain in a flute` says where it goes.
    bool is_bare_place = next == word_at + 1 && is_any(word_at, {"in", "through"});
    if (is_bare_place && next < end_ && line_.kind(next) != TokenKind::comma) next = word_at;
    if (auto stop = moves ? std::nullopt : tool_at(word_at)) next = std::max(next, *stop);
    if (next == word_at && is_adverb(word(word_at))) ++next;
    // `stir to lift it`: what for.
    if (next == word_at && is(word_at, "to") && step && says_what_for(step->verb, word_at))
      next = comma_or_end(word_at);
    if (next == word_at) break;
    at = next;
  }
  return at;
}

bool FormLine::says_what_for(Verb verb, std::size_t to) const {
  constexpr std::size_t most_words = 6;
  const VerbInfo& what = info(verb);
  bool works = verb == Verb::shake || verb == Verb::dry_shake || verb == Verb::stir || verb == Verb::muddle ||
               verb == Verb::swizzle || verb == Verb::churn || verb == Verb::blend || verb == Verb::throw_ ||
               verb == Verb::roll || verb == Verb::whip;
  std::size_t stop = comma_or_end(to);
  return works && !what.takes_target && stop > to + 1 && stop - to <= most_words && hides_nothing(to, stop);
}

std::optional<std::size_t> FormLine::place_at(std::size_t i) const {
  auto at = after_any(i, {"on", "in", "over", "around", "round", "across", "inside", "along", "onto", "into",
                          "at", "up", "against", "down"});
  if (!at) return std::nullopt;
  std::size_t noun = *at;
  if (is_any(noun, {"the", "a", "an", "its", "one"})) ++noun;
  if (is_any(noun, {"cocktail", "bamboo", "metal", "wooden", "large", "big", "little"})) ++noun;
  auto next = after_any(noun, {"top",
                               "foam",
                               "rim",
                               "glass",
                               "drink",
                               "pick",
                               "stick",
                               "skewer",
                               "edge",
                               "ice",
                               "block",
                               "cube",
                               "middle",
                               "surface",
                               "lip",
                               "inside",
                               "wall",
                               "head",
                               "crown",
                               "bottom",
                               "outside",
                               "froth",
                               "cream",
                               "straw",
                               "peg",
                               "side of the glass",
                               "side of glass",
                               "inside wall",
                               "cube of ice",
                               "it",
                               "cup",
                               "mug",
                               "bottom of the cup",
                               "bottom of glass"});
  if (!next) return std::nullopt;
  if (auto of = after_any(*next, {"of the glass", "of glass", "of the drink", "of drink", "of the foam"}))
    next = of;
  return next;
}

bool FormLine::is_time(std::size_t first, std::size_t last) const {
  if (is(first, "about") && first + 1 < last) ++first;
  if (!begins_quantity(first) || line_.kind(first) == TokenKind::comma) return false;
  std::size_t at = first + 1;
  if (at < last && line_.kind(at) == TokenKind::dots) at += 2;
  auto match = context_.units.match(line_, at);
  return match.unit.valid() && context_.units[match.unit].kind == Kind::time && at + match.tokens == last;
}

std::size_t FormLine::time_stop(std::size_t i, std::size_t stop) const {
  for (std::size_t last = i + 2; last <= stop && last <= i + 6; ++last)
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
  auto [answer, is_new] = amounts_.try_emplace({first, last}, false);
  if (is_new) answer->second = names_amount(first, last);
  return answer->second;
}

bool FormLine::names_amount(std::size_t first, std::size_t last) const {
  if (use_of_amount(line_.part(first, last), context_)) return true;
  // A word with several meanings is a name, too: its reader asks.
  std::size_t at = first;
  diagnostics::DiagnosticSink silent;
  LineView part = line_.part(0, last);
  if (!begins_quantity(at) || !QuantityReader(part, context_.units, silent).read_number(at)) return false;
  auto match = context_.units.match(part, at);
  if (match.unit.valid()) at += match.tokens;
  if (is(at, "of")) ++at;
  return is_asked_about(LineReader(line_, context_), at, last);
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
      {"one", "1"},       {"two", "2"},      {"three", "3"},           {"four", "4"},
      {"five", "5"},      {"six", "6"},      {"seven", "7"},           {"eight", "8"},
      {"nine", "9"},      {"ten", "10"},     {"twelve", "12"},         {"half", "1/2"},
      {"quarter", "1/4"}, {"couple", "2"},   {"three-quarter", "3/4"}, {"three-quarters", "3/4"},
      {"eleven", "11"},   {"fifteen", "15"}, {"twenty", "20"},         {"thirty", "30"}};
  auto found = numbers.find(word);
  if (found == numbers.end()) return std::nullopt;
  return found->second;
}

}  // namespace gill::analysis

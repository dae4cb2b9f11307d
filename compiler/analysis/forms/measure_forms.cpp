// Measures that hurried hands write in brackets, in a row, or as what is to come out.
#include <fmt/format.h>

#include <algorithm>

#include "analysis/forms/form_matcher.h"
#include "analysis/remark.h"
#include "base/any_of.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::TokenKind;
using units::Kind;

/// What stands in brackets at the end of the stretch, and where they open; nothing where no brackets close
/// it.
std::optional<FormMatcher::Bracketed> FormMatcher::in_brackets(std::size_t stop) const {
  if (stop < 2 || !word(stop - 1).ends_with(")")) return std::nullopt;
  std::size_t open = stop - 1;
  while (open > 0 && !word(open).starts_with("(")) --open;
  std::string text = base::collapse_space(line_.raw(open, stop));
  if (open == 0 || text.size() < 3 || text.front() != '(') return std::nullopt;
  text = text.substr(1, text.size() - 2);
  if (text.find_first_of("()\"") != std::string::npos) return std::nullopt;
  return Bracketed{open, text};
}

Match FormMatcher::measured_again() const {
  // `60 ml gin (2 oz)`: two measures that must agree; `30 ml lime juice (1 lime)`: what it is had from.
  std::size_t stop = comma_or_end(0);
  auto said = in_brackets(stop);
  if (!said || line_.kind(0) != TokenKind::number || !is_amount(0, said->open)) return std::nullopt;
  std::string inner = said->text;
  for (std::string_view about : {"about ", "approx ", "approx. ", "around ", "~", "ca ", "or "})
    if (inner.starts_with(about)) inner = inner.substr(about.size());
  std::size_t digits = std::min(inner.find_first_not_of("0123456789./½¼¾ "), inner.size());
  if (digits == 0) return std::nullopt;
  std::string behind = base::lower_ascii(base::collapse_space(inner.substr(digits)));
  auto own = unit_at(1);
  auto unit = context_.units.find(behind);
  bool is_measure = unit.valid() && own && !context_.units[unit].is_item_word &&
                    context_.units[unit].kind == context_.units[context_.units.match(line_, 1).unit].kind;
  if (is_measure && inner == said->text) {
    Reading both = Reading().copy(line_, 0, *own).say("=").say(inner);
    return Readings{
        with_rest(both.copy(line_, is(*own, "of") ? *own + 1 : *own, said->open), line_, stop, end_)};
  }
  static constexpr std::string_view shots[] = {"shot", "shots", "single", "double", "bottle", "bottles"};
  std::string fruit = behind.ends_with("s") ? behind.substr(0, behind.size() - 1) : behind;
  auto known = context_.names.find(symbols::NameSpace::stock, fruit);
  bool is_fruit = known.valid() &&
                  context_.specs[StockId{context_.specs.index_of[known.index()]}].kind == StockKind::fruit;
  if (!own || !(is_fruit || base::is_any_of(std::string_view(behind), shots))) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, said->open).text += ", \"" + said->text + "\"";
  return Readings{with_rest(amount, line_, stop, end_)};
}

std::vector<std::string> FormMatcher::numbers_in_a_row(std::size_t& next) const {
  // `30/20/10 ml`: the first two are a fraction to the grammar.
  std::string text;
  next = 0;
  while (next < end_ && (line_.kind(next) == TokenKind::number || word(next).starts_with("/")))
    text += base::collapse_space(line_.raw(next, next + 1)), ++next;
  std::vector<std::string> numbers;
  for (std::size_t begin = 0; begin <= text.size();) {
    auto slash = std::min(text.find('/', begin), text.size());
    std::string number = text.substr(begin, slash - begin);
    if (number.empty() || number.find_first_not_of("0123456789.") != std::string::npos) return {};
    numbers.push_back(number);
    begin = slash + 1;
  }
  return numbers;
}

Match FormMatcher::warmth_behind() const {
  // `1 l water boiling`, `15 cl coffee hot`: how warm it is poured, behind the name.
  std::size_t first = 0, stop = comma_or_end(0);
  if (auto top = in_prep_ ? std::nullopt : verb_at(0, Verb::top)) first = is(*top, "with") ? *top + 1 : *top;
  if (stop < first + 3 || line_.kind(first) != TokenKind::number) return std::nullopt;
  std::size_t last = stop - 1;
  if (is_any(last - 1, {"very", "just", "really", "piping", "ice"})) --last;
  const std::string& how = word(stop - 1);
  bool is_warmth =
      is_any(stop - 1, {"boiling", "boiled", "hot", "warm", "cold", "chilled", "iced", "lukewarm"});
  if (!is_warmth || !is_amount(first, last) || is_amount(first, stop)) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, last);
  amount.text += how == "boiling" || how == "boiled" ? ", at 100 C"
                 : how == "hot"                      ? ", hot"
                 : how == "warm"                     ? ", at 50 C"
                 : how == "lukewarm"                 ? ", at 35 C"
                                                     : ", chilled";
  return Readings{with_rest(amount, line_, stop, end_)};
}

Match FormMatcher::amounts_in_a_row() const {
  // `30/20/10 ml gin, vermouth, lime juice`: to each its own.
  std::size_t unit = 0;
  auto numbers = numbers_in_a_row(unit);
  // `3/4 oz` is a fraction; nobody writes one with tens above and below.
  constexpr std::size_t fewest = 2;
  bool are_tens = std::all_of(numbers.begin(), numbers.end(), [](const std::string& one) {
    return one.size() >= 2 && one.find('.') != 1 && one[0] != '0';
  });
  if (numbers.size() < fewest || (numbers.size() == fewest && !are_tens)) return std::nullopt;
  auto name = unit_at(unit);
  // Without a unit nobody pours ten and more of anything but millilitres.
  bool are_ml = !name && !in_prep_ && are_tens;
  if (!name && !are_ml) return std::nullopt;
  if (are_ml) name = unit;
  std::size_t first = is(*name, "of") ? *name + 1 : *name;
  auto names = listed_uses(first, end_, {"and", "&", "plus", "+", "/"});
  if (!names || names->size() != numbers.size()) return std::nullopt;
  Readings lines;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    auto [begin, stop] = (*names)[i];
    lines.push_back(
        say(are_ml ? numbers[i] + " ml" : numbers[i]).copy(line_, unit, *name).copy(line_, begin, stop));
  }
  return lines;
}

Match FormMatcher::splash_behind() const {
  // `top soda, just a splash`: how much.
  std::size_t comma = comma_or_end(0);
  if (comma >= end_ || comma_or_end(comma + 1) != end_) return std::nullopt;
  std::size_t measure = is_any(comma + 1, {"just", "only"}) ? comma + 2 : comma + 1;
  bool has_article = is_any(measure, {"a", "an", "one"});
  if (has_article) ++measure;
  while (is_any(measure, {"small", "little", "tiny", "good", "big"})) ++measure;
  auto unit = unit_at(measure);
  if (!has_article || unit != end_ ||
      context_.units[context_.units.match(line_, measure).unit].kind != Kind::volume)
    return std::nullopt;
  auto verb = match_verb(line_, 0);
  bool is_top = verb && (verb->verb == Verb::top || verb->verb == Verb::float_);
  std::size_t name = is_top ? verb->tokens : 0;
  if (is_any(name, {"with", "up"})) ++name;
  if ((verb && !is_top) || !is_use(name, comma)) return std::nullopt;
  Reading poured = say(is_top ? info(verb->verb).name : std::string_view("top"));
  return Readings{poured.say("1").copy(line_, measure, end_).copy(line_, name, comma)};
}

Match FormMatcher::step_on_amounts() const {
  auto verb = match_verb(line_, 0);
  static constexpr Verb worked[] = {Verb::shake,  Verb::dry_shake, Verb::stir, Verb::blend,
                                    Verb::muddle, Verb::simmer,    Verb::whip};
  bool boils = in_prep_ && is_any(0, {"boil", "combine", "mix", "whisk"});
  if (!boils && !(verb && base::is_any_of(verb->verb, worked))) return std::nullopt;
  std::size_t begin = boils ? 1 : verb->tokens;
  if (is(begin, "with") && verb && verb->verb == Verb::muddle) ++begin;
  if (line_.kind(begin) != TokenKind::number) return std::nullopt;
  Readings lines;
  for (std::size_t i = begin; i <= end_; ++i) {
    bool divides =
        i == end_ || line_.kind(i) == TokenKind::comma || is_any(i, {"and", "&", "+", "with", "in"});
    if (!divides) continue;
    if (i == begin) {
      begin = i + 1;
      continue;
    }
    auto amount = begins_quantity(begin) ? amount_lines(begin, i) : std::nullopt;
    if (!amount) return std::nullopt;
    lines.insert(lines.end(), amount->begin(), amount->end());
    begin = i + 1;
  }
  if (lines.empty()) return std::nullopt;
  lines.push_back(say(is(0, "boil") ? "heat to 100 C" : boils ? "stir" : info(verb->verb).name));
  return lines;
}

Match FormMatcher::poured_each() const {
  // `90 ml per serve straight from the fridge`
  std::size_t first = is_any(0, {"pour", "serve"}) ? 1 : 0;
  auto own = line_.kind(first) == TokenKind::number ? unit_at(first + 1) : std::nullopt;
  if (!own) return std::nullopt;
  auto each = after_any(*own, {"per serve", "per pour", "per portion", "per drink", "a serve", "each serve",
                               "per glass", "pour", "serve", "per serving", "a portion", "a drink", "a pour",
                               "portion", "portions", "per cup", "pours", "serves"});
  if (!each || (*each < end_ && !is_plain_remark(LineReader(line_, context_), *each, end_) &&
                !is_any(*each, {"straight", "from", "out", "over", "into"})))
    return std::nullopt;
  return Readings{say("do").copy(line_, 0, end_)};
}

Match FormMatcher::poured_extract() const {
  // `1 tsp vanilla`: a spoon holds no pod.
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  auto own = unit_at(1);
  std::size_t stop = comma_or_end(0);
  if (!own || context_.units[context_.units.match(line_, 1).unit].kind != Kind::volume) return std::nullopt;
  std::size_t name = is(*own, "of") ? *own + 1 : *own;
  std::string extract = base::collapse_space(line_.raw(name, stop)) + " extract";
  auto use = find_use(LineReader(line_, context_), name, stop);
  if (!use || use->item.valid() || context_.specs[use->stock].is_prep ||
      context_.specs[use->stock].kind != StockKind::spice || ground_of(name, stop) ||
      !context_.names.find(symbols::NameSpace::stock, extract).valid())
    return std::nullopt;
  Reading amount;
  return Readings{with_rest(amount.copy(line_, 0, *own).say(extract), line_, stop, end_)};
}

Match FormMatcher::pack_in_brackets() const {
  // `1 punnet strawberries (400 g)`, `juice of 2 limes (50 ml)`: how much that is.
  std::size_t stop = comma_or_end(0);
  auto said = in_brackets(stop);
  if (!said) return std::nullopt;
  std::string inner = said->text;
  bool is_about = false;
  for (std::string_view about : {"about ", "approx ", "approx. ", "around ", "~", "ca "})
    if (inner.starts_with(about)) inner = inner.substr(about.size()), is_about = true;
  std::size_t digits = std::min(inner.find_first_not_of("0123456789./ "), inner.size());
  auto unit = context_.units.find(base::collapse_space(inner.substr(digits)));
  if (digits == 0 || !unit.valid() || context_.units[unit].is_item_word) return std::nullopt;
  if (is_about) inner = "about " + inner;
  if (is(0, "juice") && is(1, "of")) {
    auto juice = FormMatcher(line_.part(0, said->open), context_, in_prep_, state_).fruit_part();
    if (!juice || juice->size() != 1) return std::nullopt;
    const std::string& text = juice->front().text;
    Reading amount = say(inner).say(std::string_view(text).substr(text.find(" ml ") + 4));
    return Readings{with_rest(amount, line_, stop, end_)};
  }
  static constexpr std::string_view packs[] = {
      "double", "single", "shot",   "measure", "glass",  "punnet", "punnets", "tin",  "can",
      "jar",    "bag",    "pack",   "packet",  "carton", "tub",    "box",     "pot",  "tray",
      "basket", "tetra",  "sachet", "block",   "slab",   "bottle", "pouch",   "brick"};
  bool is_one = line_.kind(0) == TokenKind::number ? line_.text(0) == "1" : is_any(0, {"a", "one"});
  std::size_t pack = is_one ? 1 : 0, name = is(pack + 1, "of") ? pack + 2 : pack + 1;
  // `one espresso (30 ml)`: of a liquid.
  auto liquid = is_one ? find_use(LineReader(line_, context_), 1, said->open) : std::nullopt;
  if (liquid && !liquid->item.valid() && context_.specs[liquid->stock].effective_form() == Form::liquid) {
    Reading amount = say(inner);
    return Readings{with_rest(amount.copy(line_, 1, said->open), line_, stop, end_)};
  }
  if (!base::is_any_of(std::string_view(word(pack)), packs) || !is_use(name, said->open)) return std::nullopt;
  Reading amount = say(inner);
  return Readings{with_rest(amount.copy(line_, name, said->open), line_, stop, end_)};
}

Match FormMatcher::filled_to() const {
  // `water to 1 l`, `add water to make 1 l`, `top with water up to 1 l`
  std::size_t name = after_any(0, {"add", "top with", "top up with", "fill with", "fill up with",
                                   "make up with", "with", "then", "then add"})
                         .value_or(0);
  std::size_t stop = comma_or_end(0);
  for (std::size_t i = name + 1; i < stop; ++i) {
    auto to = after_any(i, {"to", "up to", "to make", "to fill to", "to make up to", "until", "to reach",
                            "to a total of", "to total", "to get"});
    if (!to || line_.kind(*to) != TokenKind::number || unit_at(*to + 1) != stop || !is_use(name, i)) continue;
    Kind kind = context_.units[context_.units.match(line_, *to + 1).unit].kind;
    auto use = find_use(LineReader(line_, context_), name, i);
    bool is_liquid = use && (context_.specs[use->stock].is_prep ||
                             context_.specs[use->stock].effective_form() == Form::liquid);
    if ((kind != Kind::volume && kind != Kind::mass) || !is_liquid) return std::nullopt;
    return Readings{
        with_rest(Reading(say("to")).copy(line_, *to, stop).copy(line_, name, i), line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::brought_to() const {
  // `dilute to 20 % abv`, `cut with water to 20 % abv`, `add sugar to 50 brix`: as much as brings it there.
  std::size_t stop = comma_or_end(0);
  auto first = after_any(0, {"dilute with", "cut with", "proof down with", "add", "adjust with", "bring",
                             "dilute", "cut", "water down", "proof down", "adjust"});
  std::size_t name = first.value_or(0);
  for (std::size_t i = name; i < stop; ++i) {
    auto to = after_any(i, {"down to", "to", "up to", "until"});
    if (!to || line_.kind(*to) != TokenKind::number) continue;
    auto unit = context_.units.match(line_, *to + 1);
    if (!unit.unit.valid()) return std::nullopt;
    bool is_strength = context_.units[unit.unit].kind == Kind::strength,
         is_sugar = context_.units[unit.unit].symbol == "brix";
    std::size_t end = *to + 1 + unit.tokens, with = end;
    if (is(end, "with") && i == name) with = end + 1;
    std::size_t of = with > end ? with : name, of_end = with > end ? stop : i;
    bool is_named = of < of_end && is_use(of, of_end);
    if (!(is_strength || is_sugar) || (with == end && end != stop) || (of < of_end && !is_named) ||
        !(is_named || is_strength))
      return std::nullopt;
    if (!first && !is_named) return std::nullopt;
    Reading until = say(is_strength ? "until strength" : "until sugar").copy(line_, *to, end);
    if (is_named)
      until.copy(line_, of, of_end);
    else
      until.say("water");
    return Readings{with_rest(until, line_, stop, end_)};
  }
  return std::nullopt;
}

}  // namespace gill::analysis

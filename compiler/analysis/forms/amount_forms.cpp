#include "analysis/forms/form_matcher.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/any_of.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;
using units::Kind;
using units::QuantityReader;

Match FormMatcher::amount_lines(std::size_t first, std::size_t last) const {
  if (is_amount(first, last)) {
    Reading own;
    return Readings{own.copy(line_, first, last)};
  }
  FormMatcher part(line_.part(first, last), context_, in_prep_, state_);
  auto lines = part.match();
  if (!lines || lines->empty() || !base::is_digit(lines->front().text[0])) return std::nullopt;
  return lines;
}

namespace {

/// The reading with a word in front of it.
Reading behind_word(std::string_view word, const Reading& reading) {
  Reading whole = say(word);
  auto shift = static_cast<std::uint32_t>(whole.text.size() + 1);
  for (auto part : reading.parts) {
    part.begin += shift;
    part.end += shift;
    whole.parts.push_back(part);
  }
  whole.text += " " + reading.text;
  return whole;
}

}  // namespace

Match FormMatcher::amount_in_brackets() const {
  std::size_t stop = comma_or_end(0);
  if (begins_quantity(0) || match_verb(line_, 0) || stop < 2) return std::nullopt;
  const auto brackets = last_brackets(1, stop);
  if (!brackets) return std::nullopt;
  const std::size_t open = *brackets;
  std::string inner = inside_brackets(base::collapse_space(line_.raw(open, stop)));
  if (inner.empty() || !(base::is_digit(inner[0]) || inner[0] == '.') ||
      inner.find_first_of("(),%:") != std::string::npos)
    return std::nullopt;
  // A count behind a thing is how many lie on the drink, once it is in its glass.
  std::size_t digits = std::min(inner.find_first_not_of("0123456789./ "), inner.size());
  auto unit = context_.units.find(inner.substr(digits));
  bool has_unit = digits < inner.size() && !(unit.valid() && context_.units[unit].is_item_word);
  std::size_t name = is_any(0, {"hot", "boiling", "cold", "chilled"}) && !is_use(0, open) ? 1 : 0;
  if (!is_use(name, open) || (!has_unit && !state_.is_finished)) return std::nullopt;
  Reading amount = say(has_unit ? inner : "garnish " + inner);
  amount.copy(line_, 0, open);
  return Readings{with_rest(amount, line_, stop, end_)};
}

Match FormMatcher::fraction_of_one() const {
  std::size_t stop = comma_or_end(0);
  // `one and a half ounces of vodka`
  bool is_whole = line_.kind(0) == TokenKind::number &&
                  line_.text(0).find_first_not_of("0123456789") == std::string_view::npos;
  auto whole = is_whole ? std::optional(line_.text(0)) : number_of(word(0));
  if (whole && whole->find('/') == std::string_view::npos)
    if (auto half = after_any(1, {"and a half", "and one half", "& a half"}); half && *half < stop) {
      Reading amount = say(std::string(*whole) + " 1/2");
      return Readings{amount.copy(line_, is(*half, "of") ? *half + 1 : *half, end_)};
    }
  // `1/2 a lime`, `1/2 of a lime`
  if (line_.kind(0) != TokenKind::number || line_.text(0).find('/') == std::string_view::npos)
    return std::nullopt;
  std::size_t name = is(1, "of") ? 2 : 1;
  if (!is_any(name, {"a", "an", "the"})) return std::nullopt;
  ++name;
  bool known = is_use(name, stop);
  if (auto unit = unit_at(name)) known = known || is_use(is(*unit, "of") ? *unit + 1 : *unit, stop);
  if (!known) return std::nullopt;
  Reading amount;
  return Readings{amount.copy(line_, 0, 1).copy(line_, name, end_)};
}

Match FormMatcher::goes_on_top() const {
  struct Ending {
    std::string_view words, verb;
  };
  static constexpr Ending endings[] = {
      {"to finish", "top"},      {"on top", "top"},       {"to top", "top"},
      {"to top up", "top"},      {"over the top", "top"}, {"floated on top", "float"},
      {"floated", "float"},      {"float", "float"},      {"as a float", "float"},
      {"float on top", "float"}, {"to float", "float"},   {"layered on top", "layer"},
      {"layered", "layer"},      {"at the last", "top"},  {"at the last minute", "top"},
      {"last of all", "top"}};
  std::size_t stop = comma_or_end(0);
  if (match_verb(line_, 0) || is_amount(0, stop)) return std::nullopt;
  for (std::size_t i = 2; i < stop; ++i)
    for (const auto& ending : endings) {
      if (after(i, ending.words) != stop) continue;
      // `champagne 60 ml on top`
      if (!is_amount(0, i) && !begins_quantity(0)) {
        auto amount = FormMatcher(line_.part(0, i), context_, in_prep_, state_).named_amount();
        if (amount && amount->size() == 1 && base::is_digit(amount->front().text[0]) &&
            std::string_view(ending.verb) != "layer")
          return Readings{behind_word(ending.verb, amount->front())};
      }
      // What is counted, dashed or dripped lies on the drink; what is poured is topped with.
      auto use = is_amount(0, i) ? use_of_amount(line_.part(0, i), context_) : std::nullopt;
      bool is_dripped = is_any(1, {"dash", "dashes", "drop", "drops", "spray", "sprays", "pinch"});
      // `splash soda on top`
      if (!use && std::string_view(ending.verb) == "top" && is_any(skip_article(0), {"splash"})) {
        auto lines = FormMatcher(line_.part(0, i), context_, in_prep_, state_).bare_unit();
        if (!lines || lines->size() != 1) return std::nullopt;
        return Readings{behind_word("top", lines->front())};
      }
      if (!use || (is_dripped && std::string_view(ending.verb) != "float")) continue;
      if (!context_.specs[use->stock].is_prep && context_.specs[use->stock].effective_form() != Form::liquid)
        continue;
      // Cream that goes on top lies there.
      bool is_cream = std::string_view(ending.verb) == "top" &&
                      context_.specs[use->stock].kind == StockKind::dairy &&
                      context_.specs[use->stock].head.name.find("cream") != std::string::npos;
      Reading poured = say(is_cream ? std::string_view("float") : ending.verb);
      poured.copy(line_, 0, i);
      return Readings{with_rest(poured, line_, stop, end_)};
    }
  return std::nullopt;
}

Match FormMatcher::said_behind() const {
  std::size_t first = 0, stop = comma_or_end(0);
  if (stop < 3) return std::nullopt;
  for (Verb verb : {Verb::float_, Verb::layer, Verb::top})
    if (auto at = in_prep_ ? std::nullopt : verb_at(0, verb)) first = *at;
  if (first > 0 ? (!begins_quantity(first) && !is_use(first, first + 1)) : !begins_quantity(0))
    return std::nullopt;
  if (first == 0 ? is_amount(0, stop) : is_use(first, stop) || is_amount(first, stop)) return std::nullopt;
  for (std::size_t i = stop - 1; i > first; --i) {
    bool is_place = is(i, "in") && place_at(i) == stop;
    if (!is_place && !is_any(i, {"to", "for", "as", "on", "over", "from", "so"})) continue;
    if (!is_amount(first, i) && !(first > 0 && is_use(first, i))) continue;
    // In a prep nothing is rinsed but a bag or a jar, and that goes in.
    bool rinses = in_prep_ && after_any(i, {"to rinse the bag", "to rinse bag", "to rinse out the bag",
                                            "to rinse the jar", "to rinse the pan", "to rinse out the jar",
                                            "to rinse the blender", "to rinse"}) == stop;
    if (!is_place && !rinses && !hides_nothing(i, stop)) return std::nullopt;
    Reading amount;
    amount.copy(line_, 0, i);
    amount.text += ", \"" + base::collapse_space(line_.raw(i, stop)) + "\"";
    return Readings{with_rest(amount, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::filled_measure() const {
  // `1 heaped barspoon marmalade`, `2 level tsp sugar`: how full it is, nobody measures.
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  std::size_t unit = 1;
  while (is_any(unit, {"heaped", "heaping", "level", "scant", "generous", "rounded", "big", "small", "good",
                       "large", "fat", "healthy", "bare", "full"}))
    ++unit;
  auto name = unit > 1 ? unit_at(unit) : std::nullopt;
  std::size_t stop = comma_or_end(0);
  if (!name || is_use(1, stop)) return std::nullopt;
  std::size_t first = is(*name, "of") ? *name + 1 : *name;
  if (!is_use(first, stop)) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, 1).copy(line_, unit, stop);
  amount.text += ", \"" + base::collapse_space(line_.raw(1, unit)) + "\"";
  return Readings{with_rest(amount, line_, stop, end_)};
}

Match FormMatcher::off_the_boil() const {
  // `150 ml water just off the boil`
  std::size_t stop = comma_or_end(0);
  for (std::size_t i = 1; i < stop; ++i) {
    if (after_any(i, {"just off the boil", "off the boil", "just boiled", "straight from the kettle",
                      "from the kettle", "from a just-boiled kettle"}) != stop)
      continue;
    std::size_t first = !in_prep_ && verb_at(0, Verb::top) ? *verb_at(0, Verb::top) : 0;
    if (is(first, "with")) ++first;
    if (!is_amount(first, i) && !(first > 0 && is_use(first, i))) return std::nullopt;
    Reading amount;
    amount.copy(line_, 0, i);
    amount.text += ", hot";
    return Readings{with_rest(amount, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::ratio_behind() const {
  std::size_t stop = comma_or_end(0);
  if (!begins_quantity(0) || stop + 2 != end_ || line_.text(stop + 1).find(':') == std::string_view::npos ||
      !is_amount(0, stop))
    return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, stop).copy(line_, stop + 1, end_);
  std::string ratio = base::collapse_space(line_.raw(stop + 1, end_));
  for (std::size_t name = 1; name < stop; ++name)
    if (is_use(name, stop) &&
        context_.names
            .find(symbols::NameSpace::stock, base::collapse_space(line_.raw(name, stop)) + " " + ratio)
            .valid())
      return Readings{amount};
  return std::nullopt;
}

Match FormMatcher::by_weight() const {
  std::size_t stop = comma_or_end(0);
  if (line_.kind(0) != TokenKind::number || stop < 5 || after_any(stop - 2, {"by weight", "by mass"}) != stop)
    return std::nullopt;
  auto unit = unit_at(1);
  if (!unit || *unit >= stop - 2) return std::nullopt;
  std::size_t name = is(*unit, "of") ? *unit + 1 : *unit;
  const auto& known = context_.units[context_.units.match(line_, 1).unit];
  if ((known.symbol != "oz" && known.kind != Kind::mass) || !is_use(name, stop - 2)) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, 1);
  if (known.symbol == "oz")
    amount.say("oz wt");
  else
    amount.copy(line_, 1, *unit);
  amount.copy(line_, name, stop - 2);
  return Readings{with_rest(amount, line_, stop, end_)};
}

Match FormMatcher::amount_beside() const {
  std::size_t stop = comma_or_end(0);
  if (stop >= end_ ||
      after_any(stop + 1, {"on the side", "on side", "at the side", "to the side", "beside"}) != end_)
    return std::nullopt;
  auto amount = amount_lines(0, stop);
  if (!amount || amount->size() != 1) return std::nullopt;
  return Readings{behind_word("side", amount->front())};
}

Match FormMatcher::bottle_of() const {
  std::size_t stop = comma_or_end(0);
  auto is_bottle = [&](std::size_t i) {
    return is_any(i, {"bottle", "bottles", "btl", "btls", "bot", "bots", "tin", "tins", "can", "cans",
                      "carton", "cartons", "jar", "jars"});
  };
  // `1 bottle (70cl) gin`: the size behind the bottle.
  if ((line_.kind(0) == TokenKind::number || is_any(0, {"a", "one"})) && is_bottle(1) &&
      word(2).starts_with("(")) {
    std::size_t close = 2;
    while (close < stop && !word(close).ends_with(")")) ++close;
    std::string inner = inside_brackets(base::collapse_space(line_.raw(2, std::min(close + 1, stop))));
    std::size_t digits = inner.find_first_not_of("0123456789.");
    std::size_t name = is(close + 1, "of") ? close + 2 : close + 1;
    auto size = digits == 0 || digits == std::string::npos ? std::nullopt
                                                           : base::parse_exact(inner.substr(0, digits));
    auto bottles =
        line_.kind(0) == TokenKind::number ? base::parse_exact(line_.text(0)) : std::optional(base::Exact(1));
    if (!size || !bottles || name >= stop || !is_use(name, stop)) return std::nullopt;
    Reading amount =
        say(base::to_decimal(*bottles * *size, 3)).say(base::collapse_space(inner.substr(digits)));
    return Readings{with_rest(amount.copy(line_, name, stop), line_, stop, end_)};
  }
  // `70 cl bottle bourbon`, `1 x 70 cl bottle bourbon`, `a 70 cl bottle of gin`
  bool counted = line_.kind(0) == TokenKind::number && line_.kind(is(1, "x") ? 2 : 1) == TokenKind::number;
  std::size_t at = counted ? (is(1, "x") ? 2 : 1) : skip_article(0);
  if (line_.kind(at) == TokenKind::number) {
    auto unit = unit_at(at + 1);
    if (unit && is_bottle(*unit) && !is_use(*unit, stop)) {
      std::size_t name = is(*unit + 1, "of") ? *unit + 2 : *unit + 1;
      auto bottles = counted ? base::parse_exact(line_.text(0)) : std::optional(base::Exact(1));
      auto size = base::parse_exact(line_.text(at));
      if (!bottles || !size || !is_use(name, stop)) return std::nullopt;
      Reading amount = say(base::to_decimal(*bottles * *size, 3));
      amount.copy(line_, at + 1, *unit).copy(line_, name, stop);
      return Readings{with_rest(amount, line_, stop, end_)};
    }
  }
  // `1 bottle gin, 700 ml`
  if (bool one = line_.kind(0) == TokenKind::number ? line_.text(0) == "1" : is_any(0, {"a", "one"});
      (one || is_bottle(0)) && is_bottle(one ? 1 : 0) && stop < end_ &&
      line_.kind(stop + 1) == TokenKind::number && unit_at(stop + 2) == end_) {
    std::size_t named = one ? 2 : 1;
    if (is(named, "of")) ++named;
    if (!is_use(named, stop)) return std::nullopt;
    Reading amount;
    return Readings{amount.copy(line_, stop + 1, end_).copy(line_, named, stop)};
  }
  // `1 bottle gin (700 ml)`
  bool is_number = line_.kind(0) == TokenKind::number;
  // `bottle of tonic (200 ml)`
  // `bottle of tonic 200 ml`: its brackets are read already.
  if (std::size_t named = is(1, "of") ? 2 : 1;
      !is_number && !in_prep_ && is_any(0, {"bottle", "can", "btl"}) && stop > named + 2 &&
      line_.kind(stop - 2) == TokenKind::number && unit_at(stop - 1) == stop && is_use(named, stop - 2)) {
    Reading amount;
    amount.copy(line_, stop - 2, stop).copy(line_, named, stop - 2);
    return Readings{with_rest(amount, line_, stop, end_)};
  }
  bool is_bare = !is_number && is_any(0, {"bottle", "btl", "can"}) && !in_prep_;
  std::size_t noun = is_bare ? 0 : 1;
  if (!is_bare && ((!is_number && !is_any(0, {"a", "one"})) || !is_bottle(1))) return std::nullopt;
  std::size_t name = is(noun + 1, "of") ? noun + 2 : noun + 1;
  const auto brackets = last_brackets(name, stop);
  if (!brackets || !is_use(name, *brackets)) return std::nullopt;
  const std::size_t open = *brackets;
  std::string inner = inside_brackets(base::collapse_space(line_.raw(open, stop)));
  std::size_t digits = inner.find_first_not_of("0123456789.");
  if (digits == 0 || digits == std::string::npos) return std::nullopt;
  auto size = base::parse_exact(inner.substr(0, digits));
  auto bottles = is_number ? base::parse_exact(line_.text(0)) : std::optional(base::Exact(1));
  if (!size || !bottles) return std::nullopt;
  Reading amount = say(base::to_decimal(*bottles * *size, 3)).say(base::collapse_space(inner.substr(digits)));
  amount.copy(line_, name, open);
  return Readings{with_rest(amount, line_, stop, end_)};
}

Match FormMatcher::named_amount() const {
  std::size_t stop = comma_or_end(0);
  // `Brandy, 15 ml`: the amount behind a comma.
  if (stop < end_ && comma_or_end(stop + 1) == end_ && line_.kind(stop + 1) == TokenKind::number &&
      !begins_quantity(0) && !match_verb(line_, 0) && unit_at(stop + 2) == end_ && is_use(0, stop) &&
      !context_.units[context_.units.match(line_, stop + 2).unit].is_item_word) {
    Reading amount;
    return Readings{amount.copy(line_, stop + 1, end_).copy(line_, 0, stop)};
  }
  if (begins_quantity(0) || match_verb(line_, 0) || is(0, "until") || is(0, "to")) return std::nullopt;
  for (std::size_t i = 1; i < stop; ++i) {
    if (!begins_quantity(i)) continue;
    // `gin - 50 ml`, `gin: 50 ml`.
    std::size_t name_end = i, name = 0;
    if (i > 1 && (is_any(i - 1, {"-", "–", "—", "x"}) || line_.kind(i - 1) == TokenKind::colon)) --name_end;
    // `fresh orange juice 120 ml`
    while (
        is_any(name, {"fresh", "freshly", "squeezed", "pressed", "good", "fluffy", "coarse", "fine", "finely",
                      "coarsely", "chopped", "sliced", "diced", "peeled", "ripe", "strong", "whole"}) &&
        !is_use(name, name_end))
      ++name;
    if (!is_use(name, name_end)) continue;
    std::size_t at = i;
    diagnostics::DiagnosticSink silent;
    LineView part = line_.part(0, stop);
    QuantityReader reader(part, context_.units, silent);
    auto quantity = reader.read(at);
    if (!quantity || at != stop) continue;
    if (quantity->kind != Kind::volume && quantity->kind != Kind::mass && quantity->kind != Kind::count &&
        quantity->kind != Kind::part)
      continue;
    // `cherries x2`, where the drink stands in its glass: they lie on it.
    bool is_piece = quantity->kind == Kind::count && is_garnish_by_kind(0, name_end);
    if (!in_prep_ && is_piece && is_past_mixing())
      return Readings{say("garnish").copy(line_, i, stop).copy(line_, 0, name_end)};
    Reading amount;
    amount.copy(line_, i, stop).copy(line_, name, name_end);
    if (name > 0) amount.text += ", \"" + base::collapse_space(line_.raw(0, name)) + "\"";
    with_rest(amount, line_, stop, end_);
    return Readings{amount};
  }
  return std::nullopt;
}

Match FormMatcher::bare_unit() const {
  std::size_t first = is_any(0, {"a", "an", "one"}) ? 1 : 0;
  std::size_t stop = comma_or_end(first);
  // `a good squeeze of lemon`: how big, which nobody measures.
  std::size_t size = first;
  while (is_any(size, {"good", "big", "small", "little", "generous", "heaped", "level", "scant", "healthy",
                       "tiny", "large", "fat", "decent"}) &&
         !unit_at(size))
    ++size;
  if (auto next = size > first ? unit_at(size) : std::nullopt; next && line_.kind(size) == TokenKind::word) {
    std::size_t name = is(*next, "of") ? *next + 1 : *next;
    bool is_piece = context_.units[context_.units.match(line_, size).unit].is_item_word;
    bool is_poured = !is_piece || is_any(size, {"pinch", "handful", "squeeze"});
    if (is_poured && is_use(name, stop)) {
      Reading amount = say("1");
      amount.copy(line_, size, *next).copy(line_, name, stop);
      amount.text += ", \"" + base::collapse_space(line_.raw(first, size)) + "\"";
      return Readings{with_rest(amount, line_, stop, end_)};
    }
  }
  // `half moon of orange`, once the drink is in its glass, lies on it.
  bool is_item = unit_at(first) && context_.units[context_.units.match(line_, first).unit].is_item_word;
  if (is_item && !in_prep_ && is_past_mixing()) {
    // `a pinch of salt` goes in whenever it is said.
    if (!is_any(first, {"pinch", "handful", "squeeze"}) || state_.is_finished)
      if (first == 0 || is(*unit_at(first), "of")) return std::nullopt;
  }
  if (auto next = unit_at(first)) {
    if (line_.kind(first) == TokenKind::word && match_verb(line_, first) && !is(*next, "of"))
      return std::nullopt;
    std::size_t name = is(*next, "of") ? *next + 1 : *next;
    // `pinch salt` is asked for its number; `dash absinthe` is one.
    bool is_piece = context_.units[context_.units.match(line_, first).unit].kind != Kind::volume;
    if (first == 0 && name == *next && is_piece) return std::nullopt;
    if (is_any(name, {"fresh", "some"}) && !is_use(name, stop)) ++name;
    if (is_use(name, stop) && !is_use(first, stop)) {
      Reading amount = say("1");
      amount.copy(line_, first, *next).copy(line_, name, end_);
      return Readings{amount};
    }
  }
  if (first == 1 && is_use(1, stop)) {
    Reading amount = say("1");
    amount.copy(line_, 1, end_);
    return Readings{amount};
  }
  return std::nullopt;
}

Match FormMatcher::word_number() const {
  // `a dozen mint leaves`, `half a dozen raspberries`
  if (auto dozen = after_any(0, {"a dozen", "dozen", "half a dozen", "half dozen"});
      dozen && *dozen < comma_or_end(0)) {
    std::size_t thing = is(*dozen, "of") ? *dozen + 1 : *dozen;
    if (!is_use(thing, comma_or_end(0))) return std::nullopt;
    return Readings{say(is(0, "half") ? "6" : "12").copy(line_, thing, end_)};
  }
  std::size_t i = is(0, "a") && is_any(1, {"half", "quarter", "couple"}) ? 1 : 0;
  if (i >= end_ || line_.kind(i) != TokenKind::word) return std::nullopt;
  auto number = number_of(word(i));
  if (!number) return std::nullopt;
  std::string text(*number);
  std::size_t next = i + 1;
  if (*number == "3" && is_any(next, {"quarter", "quarters"})) text = "3/4", ++next;
  if (is(next, "of")) ++next;
  if (is_any(next, {"a", "an", "the"})) ++next;
  std::size_t stop = comma_or_end(next);
  if (next >= stop) return std::nullopt;
  bool known = is_use(next, stop);
  // `half orange slice` lies on the drink that is poured.
  if (auto use = find_use(LineReader(line_, context_), next, stop);
      use && use->item.valid() && !in_prep_ && number->find('/') != std::string_view::npos &&
      !state_.liquids.empty() && is_garnish_by_kind(next, stop) &&
      is_any(stop - 1, {"slice", "wheel", "wedge"}))
    return Readings{say("garnish").say("half").copy(line_, next, end_)};
  // `half slice of orange` lies on the drink that is poured.
  if (auto unit = unit_at(next); unit && is(*unit, "of") && !in_prep_ && !state_.liquids.empty() &&
                                 number->find('/') != std::string_view::npos &&
                                 is_any(next, {"slice", "wheel", "wedge"}) &&
                                 is_garnish_by_kind(*unit + 1, stop)) {
    Reading half = say("garnish half").copy(line_, *unit + 1, stop).copy(line_, next, *unit);
    return Readings{with_rest(half, line_, stop, end_)};
  }
  // `half slice of orange` lies on a drink that was mixed.
  if (auto unit = unit_at(next); unit && is(*unit, "of") && !in_prep_ && is_past_mixing() &&
                                 context_.units[context_.units.match(line_, next).unit].is_item_word &&
                                 is_garnish_by_kind(*unit + 1, stop))
    return std::nullopt;
  if (auto unit = unit_at(next)) known = known || is_use(is(*unit, "of") ? *unit + 1 : *unit, stop);
  // `half pint lager`: which pint is asked.
  known = known || (line_.kind(next) == TokenKind::word && next + 1 < stop &&
                    !context_.units.explain_unknown(line_.text(next)).units.empty() &&
                    is_use(is(next + 1, "of") ? next + 2 : next + 1, stop));
  // `half a lime in cubes`: how it is cut.
  for (std::size_t i = next + 1; i < stop && !known; ++i)
    known = is_any(i, {"in", "cut"}) && is_use(next, i) && !is_any(i + 1, {"the", "a"});
  if (!known) return std::nullopt;
  Reading amount = say(text);
  amount.copy(line_, next, end_);
  return Readings{amount};
}

Match FormMatcher::fruit_part() const {
  // `zest and juice of 2 lemons`: each of them.
  if (auto both = after_any(0, {"zest and juice of", "juice and zest of", "zest & juice of",
                                "juice & zest of", "zest + juice of", "juice + zest of", "peel and juice of",
                                "juice and peel of", "peel & juice of", "juice & peel of", "peel + juice of",
                                "juice + peel of", "peels and juice of", "juice and zests of"})) {
    auto zest = given_by("zest", *both), juice = given_by("juice", *both);
    if (!zest || !juice) return std::nullopt;
    return Readings{zest->front(), juice->front()};
  }
  if (!is_any(0, {"juice", "zest", "peel", "pulp", "peels", "zests", "rind", "rinds"})) return std::nullopt;
  // `zest of 2 lemons and 2 limes`
  for (std::size_t i = 3; is(1, "of") && i + 1 < end_; ++i) {
    bool divides = is_any(i, {"and", "&", "+"}) || line_.kind(i) == TokenKind::comma;
    if (!divides || line_.kind(i + 1) != TokenKind::number) continue;
    auto first = FormMatcher(line_.part(0, i), context_, in_prep_, state_).fruit_part(),
         second = given_by(word(0), i + 1);
    if (!first || !second) return std::nullopt;
    first->insert(first->end(), second->begin(), second->end());
    return first;
  }
  // `zest 9 limes`, `juice 3 lemons`.
  if (!is(1, "of") && line_.kind(1) != TokenKind::number) return std::nullopt;
  return given_by(word(0), is(1, "of") ? 2 : 1);
}

/// What the fruit gives that is named from `at` on, with its number before it: its juice, or its zest or
/// peel.
Match FormMatcher::given_by(std::string_view part, std::size_t at) const {
  base::Exact fruits = 1;
  if (is(at, "the") && begins_quantity(at + 1)) ++at;
  if (begins_quantity(at)) {
    diagnostics::DiagnosticSink silent;
    QuantityReader reader(line_, context_.units, silent);
    auto number = reader.read_number(at);
    if (!number) return std::nullopt;
    fruits = number->value;
  } else if (auto number = at < end_ ? number_of(word(at)) : std::nullopt) {
    fruits = *number == "1/2"   ? base::Exact(1, 2)
             : *number == "1/4" ? base::Exact(1, 4)
                                : base::Exact(std::stoi(std::string(*number)));
    ++at;
    if (is(at, "of")) ++at;
  }
  at = skip_article(at);
  std::size_t stop = comma_or_end(at);
  auto use = find_use(LineReader(line_, context_), at, stop);
  if (!use) return std::nullopt;
  bool wants_juice = part == "juice" || part == "pulp";
  for (const auto& gives : context_.specs[use->stock].gives) {
    if (!gives.what.stock.valid()) continue;
    if (part == "pulp" && !context_.specs[gives.what.stock].head.name.ends_with(" pulp")) continue;
    if ((gives.quantity.kind == Kind::volume) != wants_juice) continue;
    Reading amount = say(fmt::format("{} {} {}", base::to_decimal(gives.quantity.value * fruits, 2),
                                     gives.quantity.unit.valid() ? context_.units[gives.quantity.unit].symbol
                                                                 : std::string(wants_juice ? "ml" : "g"),
                                     context_.specs[gives.what.stock].head.name));
    if (gives.quantity.kind == Kind::volume || gives.quantity.kind == Kind::mass)
      amount = say(fmt::format("{} {} {}", base::to_decimal(gives.quantity.value * fruits, 2),
                               wants_juice ? "ml" : "g", context_.specs[gives.what.stock].head.name));
    with_rest(amount, line_, stop, end_);
    return Readings{amount};
  }
  return std::nullopt;
}

Match FormMatcher::whole_fruit() const {
  std::size_t stop = comma_or_end(0);
  if (!begins_quantity(0)) return std::nullopt;
  std::size_t name_end = stop;
  auto done = after_any(stop + 1, {"peel only",
                                   "peels only",
                                   "zest only",
                                   "zested",
                                   "just the peel",
                                   "just the zest",
                                   "just peel",
                                   "just zest",
                                   "zested and juiced",
                                   "juiced and zested",
                                   "zest and juice",
                                   "juice and zest",
                                   "squeezed",
                                   "juiced",
                                   "squeezed and dropped in",
                                   "squeezed & dropped in",
                                   "squeezed and dropped",
                                   "squeezed then dropped in",
                                   "freshly squeezed",
                                   "pressed",
                                   "squeezed in",
                                   "juice only",
                                   "juice of",
                                   "just the juice"});
  if (stop == end_ || !done) {
    // `12 limes juiced`.
    if (!is_any(stop - 1, {"juiced", "squeezed", "zested"})) return std::nullopt;
    name_end = stop - 1;
    done = stop;
  }
  if (comma_or_end(*done) != *done) return std::nullopt;
  bool both =
      after_any(stop + 1, {"zested and juiced", "juiced and zested", "zest and juice", "juice and zest"})
          .has_value();
  bool peel = both ||
              after_any(stop + 1, {"peel only", "peels only", "zest only", "zested", "just the peel",
                                   "just the zest", "just peel", "just zest"})
                  .has_value() ||
              (name_end < stop && is(name_end, "zested"));
  std::size_t at = 0;
  diagnostics::DiagnosticSink silent;
  QuantityReader reader(line_, context_.units, silent);
  auto number = reader.read_number(at);
  if (!number) return std::nullopt;
  auto use = find_use(LineReader(line_, context_), at, name_end);
  if (!use || use->item.valid()) return std::nullopt;
  Readings lines;
  for (const auto& gives : context_.specs[use->stock].gives) {
    bool is_juice = gives.quantity.kind == Kind::volume;
    if (!gives.what.stock.valid() || !(both || is_juice != peel)) continue;
    Reading amount = say(fmt::format("{} {} {}", base::to_decimal(gives.quantity.value * number->value, 2),
                                     is_juice ? "ml" : "g", context_.specs[gives.what.stock].head.name));
    lines.push_back(with_rest(amount, line_, *done, end_));
    if (!both) break;
  }
  if (lines.empty()) return std::nullopt;
  return lines;
}

std::string FormMatcher::juice_of(StockId id) const {
  for (const auto& gives : context_.specs[id].gives)
    if (gives.what.stock.valid() && gives.quantity.kind == Kind::volume)
      return context_.specs[gives.what.stock].head.name;
  return {};
}

Match FormMatcher::poured_fruit() const {
  // `25 ml lime`: what is poured of a fruit is its juice. An ounce may be a weight: it is asked about.
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  std::size_t stop = comma_or_end(0);
  auto match = context_.units.match(line_, 1);
  if (!match.unit.valid()) return std::nullopt;
  // An ounce and a cup may be filled with the fruit; a dash and a spoon cannot.
  static constexpr std::string_view poured[] = {"ml",  "cl",   "dl",       "l",    "dash",
                                                "tsp", "tbsp", "barspoon", "drop", "splash"};
  if (!base::is_any_of(std::string_view(context_.units[match.unit].symbol), poured)) return std::nullopt;
  std::size_t name = 1 + match.tokens;
  if (is(name, "of")) ++name;
  // `2 cl juice of lime`
  if (auto juice = after_any(name, {"juice of", "juice from", "fresh juice of"}); juice && *juice < stop)
    name = *juice;
  if (is_any(name, {"fresh", "freshly"}) && !is_use(name, stop)) ++name;
  auto use = find_use(LineReader(line_, context_), name, stop);
  if (!use || use->item.valid() || context_.specs[use->stock].kind != StockKind::fruit) return std::nullopt;
  std::string juice = juice_of(use->stock);
  if (juice.empty()) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, 1 + match.tokens).say(juice);
  with_rest(amount, line_, stop, end_);
  return Readings{amount};
}

Match FormMatcher::counted_dashes() const {
  // `2d aromatic bitters`: nobody stands bitters for two days in a line of its own.
  if (line_.kind(0) != TokenKind::number || !is(1, "d")) return std::nullopt;
  std::size_t stop = comma_or_end(0);
  // What nobody knows is asked about as what is dashed.
  bool is_unknown = !in_prep_ && stop > 2 && stop <= 4 && is_plain_word(2);
  if (!is_use(2, stop) && !is_unknown) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, 1).say("dashes").copy(line_, 2, end_);
  return Readings{amount};
}

Match FormMatcher::dashed_bitters() const {
  // `2 dashes aromatic`: bitters are what is dashed.
  std::size_t first = line_.kind(0) == TokenKind::number ? 1 : 0;
  std::size_t stop = comma_or_end(0);
  auto unit = unit_at(first);
  if (!unit || !is_any(first, {"dash", "dashes", "drop", "drops"})) return std::nullopt;
  std::size_t name = is(*unit, "of") ? *unit + 1 : *unit;
  if (name >= stop || is_use(name, stop)) return std::nullopt;
  std::string bitters = base::collapse_space(line_.raw(name, stop)) + " bitters";
  if (!context_.names.find(symbols::NameSpace::stock, bitters).valid()) return std::nullopt;
  Reading amount;
  if (first == 0) amount.say("1");
  amount.copy(line_, 0, *unit).copy(line_, name, stop).say("bitters");
  with_rest(amount, line_, stop, end_);
  return Readings{amount};
}

Match FormMatcher::bracketed() const {
  // `1 egg white (optional)`: what stands in brackets behind a name is what follows a comma.
  if (end_ < 3 || !begins_quantity(0)) return std::nullopt;
  const auto brackets = last_brackets(1, end_);
  if (!brackets) return std::nullopt;
  const std::size_t open = *brackets;
  std::string inner = inside_brackets(base::collapse_space(line_.raw(open, end_)));
  // `20 g salt (2 %)`: what share that is.
  if (inner.size() > 1 && inner.back() == '%' && is_amount(0, open)) {
    Reading amount;
    amount.copy(line_, 0, open);
    amount.text += ", \"" + inner + "\"";
    return Readings{amount};
  }
  // `2 oz tequila (blanco)`: the name has the word in it.
  std::size_t name_at = 1;
  if (auto unit = unit_at(1); unit && !is_use(1, open)) name_at = is(*unit, "of") ? *unit + 1 : *unit;
  std::string bare = base::collapse_space(line_.raw(name_at, open));
  for (const std::string& name : {bare + " " + inner, inner + " " + bare})
    if (context_.names.find(symbols::NameSpace::stock, name).valid()) {
      Reading amount;
      return Readings{amount.copy(line_, 0, name_at).say(name)};
    }
  if (inner.empty() || base::is_digit(inner[0]) || inner[0] == '.' ||
      inner.find_first_of("()\"") != std::string::npos)
    return std::nullopt;
  if (!is_amount(0, open) || is_amount(0, end_)) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, open);
  amount.text += ", " + inner;
  return Readings{amount};
}

Match FormMatcher::goes_in() const {
  // `soak with 3 dashes bitters`, `pour in 400 ml milk`, `stir in 20 g salt`: an amount at this place.
  auto next = after_any(0, {"soak with",
                            "soak in",
                            "soaked with",
                            "soaked in",
                            "douse with",
                            "wet with",
                            "season with",
                            "pour in",
                            "pour into",
                            "pour over",
                            "pour on",
                            "stir in",
                            "whisk in",
                            "mix in",
                            "then add",
                            "and add",
                            "add in",
                            "dash in",
                            "splash in",
                            "plus",
                            "sweeten with",
                            "dissolve in",
                            "dilute with",
                            "cut with",
                            "stretch with",
                            "add",
                            "pour",
                            "measure",
                            "measure in",
                            "pour the lot over",
                            "pour everything over",
                            "pour it all over",
                            "pour it over",
                            "pour the mix over",
                            "pour mix over",
                            "pour the punch over",
                            "pour over the",
                            "pour onto",
                            "pour this over",
                            "pour the lot onto",
                            "pour the lot into",
                            "pour everything into",
                            "pour it into"});
  bool mixes = false;
  if (!next && in_prep_) {
    next = after_any(0, {"stir with", "whisk with", "combine with", "mix with", "blend with"});
    mixes = next.has_value();
  }
  // `pour cold soda 120 ml`
  bool amount_last = next && *next == 1 && is_any(0, {"pour", "add"}) && !in_prep_;
  if (!next || (!begins_quantity(*next) && !amount_last)) return std::nullopt;
  std::size_t stop = comma_or_end(*next);
  auto amounts = amount_lines(*next, tool_begin(*next, stop));
  if (!amounts) return std::nullopt;
  Readings lines = *amounts;
  with_rest(lines.back(), line_, stop, end_);
  if (mixes && is(0, "blend"))
    lines.push_back(say("blend"));
  else if (in_prep_ && (mixes || is_any(0, {"stir", "whisk", "mix"})))
    lines.push_back(say("stir"));
  return lines;
}

Match FormMatcher::ground_spice() const {
  // `pinch of cinnamon`, `1 tsp cinnamon`, `grind of black pepper`: a powder.
  std::size_t first = line_.kind(0) == TokenKind::number ? 1 : skip_article(0);
  while (is_any(first, {"little", "tiny", "small", "wee"})) ++first;
  std::size_t stop = comma_or_end(0);
  // `4 grinds pepper`
  bool is_milled = first == 1 && line_.kind(0) == TokenKind::number &&
                   is_any(first, {"grind", "grinds", "cracks", "turns"}) && !is(first + 1, "of");
  bool is_ground = is_milled || (is_any(first, {"grind", "grinds", "crack", "cracks", "twist", "twists",
                                                "dusting", "sprinkle", "bit", "touch", "hint"}) &&
                                 is(first + 1, "of"));
  auto unit = unit_at(first);
  if (!unit && !is_ground) return std::nullopt;
  std::size_t name = is_milled ? first + 1 : is_ground ? first + 2 : is(*unit, "of") ? *unit + 1 : *unit;
  if (name >= stop) return std::nullopt;
  auto use = find_use(LineReader(line_, context_), name, stop);
  if (!use || use->item.valid() || context_.specs[use->stock].kind != StockKind::spice) return std::nullopt;
  bool is_pinch = is_ground || is_any(first, {"pinch", "pinches"});
  const auto& known = unit ? &context_.units[context_.units.match(line_, first).unit] : nullptr;
  if (!is_pinch && !(known && known->kind == Kind::volume)) return std::nullopt;
  auto ground = ground_of(name, stop);
  if (!ground && !is_ground) return std::nullopt;
  Reading amount;
  if (first == 1 && line_.kind(0) == TokenKind::number)
    amount.copy(line_, 0, 1);
  else
    amount.say("1");
  if (is_ground)
    amount.say("pinch");
  else
    amount.copy(line_, first, *unit);
  if (ground)
    amount.say(*ground);
  else
    amount.copy(line_, name, stop);
  with_rest(amount, line_, stop, end_);
  return Readings{amount};
}

Match FormMatcher::described() const {
  // `100 g coarse ground coffee`, `1 pineapple peeled and cubed`: how it is, or what was done to it, around
  // its name. What makes another thing of it (dried, toasted, smoked) is no such word.
  static constexpr std::string_view before[] = {
      "fluffy",  "long",    "fresh",   "freshly", "squeezed",       "pressed", "coarse", "coarsely", "fine",
      "finely",  "roughly", "thinly",  "chopped", "sliced",         "diced",   "peeled", "ripe",     "good",
      "quality", "strong",  "organic", "local",   "homemade",       "large",   "small",  "medium",   "big",
      "torn",    "bruised", "grated",  "whole",   "fresh-squeezed", "pulled",  "brewed"};
  static constexpr std::string_view behind[] = {
      "fresh",   "freshly", "squeezed",  "pressed",  "peeled",   "chopped", "sliced",   "diced",    "cubed",
      "torn",    "crushed", "bruised",   "smashed",  "grated",   "zested",  "melted",   "softened", "split",
      "scraped", "halved",  "quartered", "deseeded", "washed",   "hulled",  "pitted",   "beaten",   "sifted",
      "packed",  "roughly", "finely",    "thinly",   "and",      "&",       "coarsely", "trimmed",  "cored",
      "stoned",  "seeds",   "in",        "half",     "quarters", "lightly", "cut",      "up",       "wedges",
      "vs",      "vsop",    "xo",        "only",     "cubes",    "pieces",  "chunks"};
  auto is_in = [&](const auto& words, std::size_t i) { return base::is_any_of(word(i), words); };
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  std::size_t name = 1;
  if (auto unit = unit_at(1); unit && !is_use(1, comma_or_end(1))) name = *unit;
  if (is(name, "of")) ++name;
  std::size_t stop = comma_or_end(0), first = name, last = stop;
  if (name >= stop || is_use(name, stop) || is_amount(0, stop)) return std::nullopt;
  for (std::size_t i = name; i < stop; ++i)
    if (word(i).empty() && line_.kind(i) != TokenKind::number) return std::nullopt;
  while (first + 1 < stop && is_in(before, first) && !is_use(first, stop)) ++first;
  while (last > first + 1 && is_in(behind, last - 1) && !is_use(first, last)) --last;
  // `1 lime cut into 8 wedges`.
  for (std::size_t i = first + 1; i < stop && !is_use(first, last); ++i)
    if (is_any(i, {"cut", "sliced", "chopped", "in", "broken"}) && is_use(first, i) &&
        !(begins_quantity(i + 1) && is_amount(i + 1, stop)))
      last = i;
  if (!is_use(first, last)) {
    // The name may begin with such a word itself.
    first = name;
    if (!is_use(first, last)) return std::nullopt;
  }
  if (first == name && last == stop) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, name).copy(line_, first, last);
  if (first > name) amount.text += ", \"" + base::collapse_space(line_.raw(name, first)) + "\"";
  if (last < stop) amount.text += ", \"" + base::collapse_space(line_.raw(last, stop)) + "\"";
  with_rest(amount, line_, stop, end_);
  return Readings{amount};
}

Match FormMatcher::shots_of_coffee() const {
  // `1 shot espresso`, `a double espresso`: what the machine gives at one go.
  std::size_t first = line_.kind(0) == TokenKind::number ? 1 : skip_article(0);
  if (first == 0 && !is_any(0, {"double", "single"})) return std::nullopt;
  std::size_t name = first + 1;
  if (is(name, "shot")) ++name;
  if (is(name, "of")) ++name;
  bool is_double = is(first, "double");
  if (is(name, "coffee") && name + 1 == comma_or_end(0) &&
      is_any(first, {"shot", "shots", "single", "double"})) {
    Reading coffee = line_.kind(0) == TokenKind::number ? Reading().copy(line_, 0, 1) : say("1");
    if (is_double) return std::nullopt;
    coffee.say("espresso");
    return Readings{with_rest(coffee, line_, comma_or_end(name), end_)};
  }
  if (!is_any(first, {"shot", "shots", "single", "double"}) ||
      after_any(name, {"espresso", "ristretto", "decaf espresso"}) != comma_or_end(0))
    return std::nullopt;
  diagnostics::DiagnosticSink silent;
  std::size_t at = 0;
  base::Exact count = 1;
  if (line_.kind(0) == TokenKind::number) {
    auto number = QuantityReader(line_, context_.units, silent).read_number(at);
    if (!number) return std::nullopt;
    count = number->value;
  }
  if (is_double) count = count * base::Exact(2);
  Reading amount = say(base::to_decimal(count, 2));
  amount.copy(line_, name, comma_or_end(name));
  with_rest(amount, line_, comma_or_end(name), end_);
  return Readings{amount};
}

Match FormMatcher::counted_times() const {
  // `25 ml espresso x 1`: once.
  if (std::size_t stop = comma_or_end(0); stop > 4 && line_.kind(0) == TokenKind::number &&
                                          is(stop - 2, "x") && line_.text(stop - 1) == "1" &&
                                          is_amount(0, stop - 2)) {
    Reading once;
    return Readings{with_rest(once.copy(line_, 0, stop - 2), line_, stop, end_)};
  }
  // `1x egg white`, `2 x lemon twist`.
  if (line_.kind(0) != TokenKind::number || !is(1, "x") || !is_use(2, comma_or_end(0))) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, 1).copy(line_, 2, end_);
  return Readings{amount};
}

Match FormMatcher::bulleted() const {
  // `- 50 ml gin`, `* shake`: the mark of a list.
  bool is_mark = end_ > 1 && is_any(0, {"-", "–", "—", "*", "•", "·"});
  if (!is_mark) return std::nullopt;
  Reading rest;
  return Readings{rest.copy(line_, 1, end_)};
}

Match FormMatcher::warm_or_cold() const {
  std::size_t at = 0;
  if (auto top = verb_at(0, Verb::top); top && !in_prep_) {
    at = is(*top, "with") ? *top + 1 : *top;
    if (is(at, "about")) ++at;
    if (line_.kind(at) == TokenKind::number)
      if (auto measure = unit_at(at + 1)) at = is(*measure, "of") ? *measure + 1 : *measure;
  } else if (begins_quantity(0) && line_.kind(0) == TokenKind::number) {
    diagnostics::DiagnosticSink silent;
    QuantityReader reader(line_, context_.units, silent);
    if (!reader.read_number(at)) return std::nullopt;
    auto match = context_.units.match(line_, at);
    if (match.unit.valid()) at += match.tokens;
    if (is(at, "of")) ++at;
  } else {
    return std::nullopt;
  }
  std::size_t stop = comma_or_end(at);
  bool hot = is(at, "hot"), boiling = is(at, "boiling"),
       cold = is_any(at, {"cold", "chilled", "iced", "ice-cold"});
  std::string_view warm = is_any(at, {"warm", "warmed"}) ? ", at 50 C" : is(at, "steamed") ? ", at 65 C" : "";
  if (!hot && !boiling && !cold && warm.empty()) return std::nullopt;
  auto whole = context_.names.find(symbols::NameSpace::stock, syntax::name_text(line_, at, stop));
  bool is_own_name = whole.valid() && base::fold_name(context_.names[whole].name) ==
                                          base::fold_name(syntax::name_text(line_, at, stop));
  // `cold brew` is a coffee by that name.
  bool is_in_name = whole.valid() && base::fold_name(context_.names[whole].name).starts_with(word(at) + " ");
  if (is_own_name || is_in_name || (!whole.valid() && !is_use(at + 1, stop))) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, at);
  if (whole.valid())
    amount.say(context_.names[whole].name);
  else
    amount.copy(line_, at + 1, stop);
  amount.text += hot ? ", hot" : boiling ? ", at 100 C" : cold ? ", chilled" : warm;
  with_rest(amount, line_, stop, end_);
  return Readings{amount};
}

Match FormMatcher::range_in_words() const {
  if (line_.kind(0) != TokenKind::number || !is_any(1, {"to", "or"}) || line_.kind(2) != TokenKind::number ||
      end_ < 4)
    return std::nullopt;
  if (is(1, "or") && !(unit_at(3) || is_use(3, comma_or_end(3)))) return std::nullopt;
  Reading amount = say(base::collapse_space(line_.raw(0, 1)) + ".." + base::collapse_space(line_.raw(2, 3)));
  amount.copy(line_, 3, end_);
  return Readings{amount};
}

Match FormMatcher::two_measures() const {
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  std::size_t stop = comma_or_end(0);
  for (std::size_t i = 1; i < stop && i < 5; ++i) {
    if (line_.kind(i) != TokenKind::word) continue;
    std::string_view text = line_.text(i);
    auto slash = text.find('/');
    if (slash == std::string_view::npos) continue;
    std::string left = base::collapse_space(line_.raw(0, i)) + " " + std::string(text.substr(0, slash));
    std::string right(text.substr(slash + 1));
    if (right.empty() ? line_.kind(i + 1) != TokenKind::number : !base::is_digit(right.front())) continue;
    if (context_.units.find(base::lower_ascii(text)).valid()) continue;
    Reading amount = say(left).say("=").say(right);
    amount.copy(line_, i + 1, end_);
    return Readings{amount};
  }
  return std::nullopt;
}

Match FormMatcher::shared_amount() const {
  std::size_t first = 0, last = end_;
  std::string amount;
  if (auto next = after_any(0, {"equal parts of", "equal parts"})) {
    amount = "1 part";
    first = *next;
    // `equal parts gin, lime - 3/4 oz each`: as much as is said behind.
    if (is_any(end_ - 1, {"each", "ea", "each)", "ea)", "ea.", "ea.)", "each.", "each.)"}) &&
        end_ > first + 4) {
      std::size_t number = end_ - 1;
      while (number > first + 1 && line_.kind(number) != TokenKind::number && !word(number).starts_with("("))
        --number;
      std::string text = base::collapse_space(line_.raw(number, end_ - 1));
      if (text.starts_with("(")) text.erase(0, 1);
      std::size_t figures = std::min(text.find_first_not_of("0123456789./ "), text.size());
      auto unit = context_.units.find(base::collapse_space(text.substr(figures)));
      if (figures == 0 || !unit.valid() || context_.units[unit].kind != Kind::volume) return std::nullopt;
      amount = text;
      last = number;
      while (last > first + 1 &&
             (is_any(last - 1, {"-", "–", "—", "at"}) || line_.kind(last - 1) == TokenKind::colon ||
              line_.kind(last - 1) == TokenKind::comma))
        --last;
    }
  } else if (auto each = each_at(0)) {
    // `half oz each A, B`, `1 oz ea A, B`.
    amount = shared_measure(0, *each);
    if (amount.empty()) return std::nullopt;
    first = *each + 1;
    if (is(first, "of")) ++first;
  } else if (end_ > 3 && is_any(end_ - 1, {"each", "ea"})) {
    // `gin, sweet vermouth 30 ml each`: the amount behind the names.
    std::size_t number = end_ - 1;
    while (number > 1 && !(line_.kind(number - 1) == TokenKind::number || number_of(word(number - 1))))
      --number;
    amount = shared_measure(number - 1, end_ - 1);
    if (amount.empty() || number - 1 == 0) return std::nullopt;
    last = number - 1;
    if (is_any(last - 1, {"-", "–", ":"}) || line_.kind(last - 1) == TokenKind::colon ||
        line_.kind(last - 1) == TokenKind::comma)
      --last;
  } else {
    return std::nullopt;
  }
  if (first < end_ && (line_.kind(first) == TokenKind::colon || line_.kind(first) == TokenKind::comma))
    ++first;
  auto stretches = listed_uses(first, last, {"and", "&", "plus", "+"});
  Readings lines;
  if (!stretches) {
    // `15 ml each sweet & dry vermouth`: the last word is for both.
    for (std::size_t i = first + 1; i + 2 < last; ++i) {
      if (!is_any(i, {"and", "&", "+"}) || !is_use(i + 1, last)) continue;
      std::string name = base::collapse_space(line_.raw(first, i)) + " " + std::string(line_.text(last - 1));
      if (!context_.names.find(symbols::NameSpace::stock, name).valid()) continue;
      lines.push_back(say(amount).copy(line_, first, i).say(line_.text(last - 1)));
      lines.push_back(say(amount).copy(line_, i + 1, last));
      return lines;
    }
    return std::nullopt;
  }
  if (stretches->size() < 2) return std::nullopt;
  bool is_poured = std::any_of(stretches->begin(), stretches->end(), [&](const auto& one) {
    auto use = find_use(LineReader(line_, context_), one.first, one.second);
    return use && (context_.specs[use->stock].is_prep ||
                   context_.specs[use->stock].effective_form() == Form::liquid);
  });
  for (const auto& [begin, stop] : *stretches) {
    // Beside what is poured, a fruit is its juice.
    auto use = find_use(LineReader(line_, context_), begin, stop);
    bool is_fruit = use && !use->item.valid() && context_.specs[use->stock].kind == StockKind::fruit;
    std::string juice = is_poured && is_fruit && !in_prep_ ? juice_of(use->stock) : std::string();
    if (juice.empty())
      lines.push_back(say(amount).copy(line_, begin, stop));
    else
      lines.push_back(say(amount).say(juice));
  }
  return lines;
}

/// Where `each` stands behind a measure that begins the line.
std::optional<std::size_t> FormMatcher::each_at(std::size_t first) const {
  if (line_.kind(first) != TokenKind::number && !number_of(word(first))) return std::nullopt;
  for (std::size_t i = first + 1; i < end_ && i < first + 6; ++i)
    if (is_any(i, {"each", "ea"})) return i;
  return std::nullopt;
}

/// `half oz`, `3/4 oz`, `20 ml` as a measure; empty where it is none.
std::string FormMatcher::shared_measure(std::size_t first, std::size_t last) const {
  std::string number;
  std::size_t unit = first + 1;
  if (line_.kind(first) == TokenKind::number) {
    number = base::collapse_space(line_.raw(first, first + 1));
  } else if (auto named = number_of(word(first))) {
    number = *named;
    if (is(unit, "of")) ++unit;
    unit = skip_article(unit);
  } else {
    return {};
  }
  if (unit == last) return number;
  auto stop = unit_at(unit);
  bool is_part = !stop && is_any(unit, {"part", "parts"});
  if (!is_part && stop != last && line_.kind(unit) == TokenKind::word) return {};
  return number + " " + base::collapse_space(line_.raw(unit, last));
}

Match FormMatcher::from_where() const {
  std::size_t stop = comma_or_end(0);
  if (!begins_quantity(0)) return std::nullopt;
  // `60 ml vodka, straight from the freezer`
  if (stop < end_ && is_amount(0, stop)) {
    std::size_t from = is_any(stop + 1, {"straight", "out", "direct"}) ? stop + 2 : stop + 1;
    bool is_freezer = after_any(from, {"from the freezer", "from freezer", "of the freezer"}) == end_;
    bool is_fridge = after_any(from, {"from the fridge", "from fridge", "of the fridge"}) == end_;
    if (is_freezer || is_fridge) {
      Reading amount = Reading().copy(line_, 0, stop);
      amount.text += is_freezer ? ", frozen" : ", chilled";
      return Readings{amount};
    }
  }
  for (std::size_t i = 1; i < stop; ++i) {
    std::string_view how;
    if (after_any(i, {"from the freezer", "from freezer", "straight from the freezer",
                      "out of the freezer"}) == stop)
      how = ", frozen";
    else if (after_any(i, {"from the fridge", "from fridge", "straight from the fridge",
                           "out of the fridge"}) == stop)
      how = ", chilled";
    if (how.empty() || !is_amount(0, i)) continue;
    Reading amount;
    amount.copy(line_, 0, i);
    amount.text += how;
    with_rest(amount, line_, stop, end_);
    return Readings{amount};
  }
  return std::nullopt;
}

Match FormMatcher::bare_egg() const {
  std::size_t stop = comma_or_end(0);
  if (begins_quantity(0) || match_verb(line_, 0)) return std::nullopt;
  auto use = find_use(LineReader(line_, context_), 0, stop);
  if (!use || use->item.valid()) return std::nullopt;
  const auto& stock = context_.specs[use->stock];
  if (stock.kind != StockKind::egg && !stock.head.name.ends_with(" cube")) return std::nullopt;
  Reading amount = say("1");
  amount.copy(line_, 0, end_);
  return Readings{amount};
}

Match FormMatcher::word_behind_amount() const {
  std::size_t stop = comma_or_end(0), last = comma_or_end(stop + 1);
  if (stop + 1 >= last || line_.kind(0) != TokenKind::number || last - stop > 3) return std::nullopt;
  for (std::size_t i = stop + 1; i < last; ++i)
    if (line_.kind(i) != TokenKind::word) return std::nullopt;
  // `3 cardamom pods, crushed`: no ice is meant, though ice is called so, too.
  std::size_t done = stop + 1;
  while (done + 1 < last && is_adverb(word(done))) ++done;
  if (done + 1 == last && is_any(done, {"crushed", "cracked", "cubed", "shaved", "block", "cubes"}) &&
      is_amount(0, stop)) {
    Reading amount = Reading().copy(line_, 0, stop);
    amount.text += ", \"" + base::collapse_space(line_.raw(stop + 1, last)) + "\"";
    return Readings{with_rest(amount, line_, last, end_)};
  }
  // `20 g butter, salted`: another thing than butter, where the library or the house has it.
  if (is_any(stop + 1, {"chilled", "frozen", "hot", "cold", "optional", "sealed", "or", "boiling", "browned",
                        "melted", "toasted", "roasted", "charred", "grilled", "clarified", "infused"}))
    return std::nullopt;
  std::string before = base::lower_ascii(base::collapse_space(line_.raw(stop + 1, last)));
  for (std::size_t name = 1; name < stop; ++name) {
    if (!is_use(name, stop)) continue;
    auto plain = find_use(LineReader(line_, context_), name, stop);
    // `whiskey, rye` names nothing before its comma: its reader tells how to write it.
    if (!plain || plain->item.valid()) return std::nullopt;
    std::string known = base::lower_ascii(base::collapse_space(line_.raw(name, stop)));
    auto id = context_.names.find(symbols::NameSpace::stock, before + " " + known);
    if (!id.valid() && known.ends_with('s')) {
      known.pop_back();
      id = context_.names.find(symbols::NameSpace::stock, before + " " + known);
    }
    if (!id.valid()) return std::nullopt;
    const std::string& meant = context_.names[id].name;
    bool is_same = base::fold_name(context_.specs[plain->stock].head.name) == base::fold_name(meant);
    if (is_same) return std::nullopt;
    Reading amount = Reading().copy(line_, 0, name).say(before + " " + known);
    return Readings{with_rest(amount, line_, last, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::amount_in_amount() const {
  std::size_t stop = comma_or_end(0);
  if (!begins_quantity(0)) return std::nullopt;
  for (std::size_t i = 2; i + 1 < stop; ++i) {
    auto next = after_any(
        i,
        {"soaked with",         "soaked in",   "doused with",   "doused in",    "dissolved in", "in",
         "soaked through with", "wetted with", "stirred into",  "mixed with",   "mixed in",     "melted in",
         "let down with",       "let down in", "loosened with", "thinned with", "with",         "plus",
         "muddled with",        "muddled in",  "macerated in",  "mixed into"});
    if (!next || !begins_quantity(*next) || !is_amount(0, i)) continue;
    auto other = amount_lines(*next, stop);
    if (!other) return std::nullopt;
    Readings lines{Reading().copy(line_, 0, i)};
    lines.insert(lines.end(), other->begin(), other->end());
    if (is(i, "muddled") && !state_.has_muddled) lines.push_back(say("muddle"));
    if (is_any(i, {"dissolved", "melted"})) lines.push_back(say(in_prep_ ? "dissolve" : "do dissolve"));
    with_rest(lines[lines.size() - 1], line_, stop, end_);
    return lines;
  }
  return std::nullopt;
}

Match FormMatcher::times_measure() const {
  if (line_.kind(0) != TokenKind::number || !is(1, "x") || line_.kind(2) != TokenKind::number)
    return std::nullopt;
  auto unit = unit_at(3);
  if (!unit || match_verb(line_, 0)) return std::nullopt;
  const auto& known = context_.units[context_.units.match(line_, 3).unit];
  if (known.kind != Kind::volume && known.kind != Kind::mass) return std::nullopt;
  auto times = base::parse_exact(line_.text(0)), size = base::parse_exact(line_.text(2));
  std::size_t name = *unit, stop = comma_or_end(0);
  if (is_any(name, {"bottle", "bottles", "btl", "btls", "can", "cans", "tin", "tins", "carton", "cartons",
                    "pack", "packs"}) &&
      !is_use(name, stop))
    ++name;
  if (is(name, "of")) ++name;
  if (!times || !size || name >= stop || !is_use(name, stop)) return std::nullopt;
  Reading amount = say(base::to_decimal(*times * *size, 3));
  amount.copy(line_, 3, *unit).copy(line_, name, stop);
  return Readings{with_rest(amount, line_, stop, end_)};
}

Match FormMatcher::amount_at() const {
  std::size_t stop = comma_or_end(0);
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  for (std::size_t i = 2; i + 2 < stop; ++i) {
    if (!is(i, "at") || line_.kind(i + 1) != TokenKind::number || !is_amount(0, i)) continue;
    auto unit = context_.units.match(line_, i + 2);
    if (!unit.unit.valid() || context_.units[unit.unit].kind != Kind::temperature ||
        i + 2 + unit.tokens != stop)
      return std::nullopt;
    Reading amount;
    amount.copy(line_, 0, i);
    amount.text += ",";
    amount.copy(line_, i, stop);
    return Readings{with_rest(amount, line_, stop, end_)};
  }
  return std::nullopt;
}

Match FormMatcher::words_turned() const {
  std::size_t stop = comma_or_end(0), name = 1;
  if (line_.kind(0) != TokenKind::number) return std::nullopt;
  if (auto unit = unit_at(1)) name = is(*unit, "of") ? *unit + 1 : *unit;
  constexpr std::size_t most_words = 6;
  std::size_t bad = 0;
  if (name + 2 > stop || stop - name > most_words || is_use(name, stop) ||
      !syntax::is_plain_name(line_, name, stop, bad))
    return std::nullopt;
  auto turned =
      context_.names.same_words(symbols::NameSpace::stock, base::collapse_space(line_.raw(name, stop)));
  if (!turned) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, name).say(*turned);
  return Readings{with_rest(amount, line_, stop, end_)};
}

Match FormMatcher::pinches_of() const {
  // `pinch of nutmeg and cinnamon`: of each; `big pinch celery salt`.
  std::size_t first = skip_article(0);
  while (is_any(first, {"big", "small", "good", "little", "tiny", "generous", "large"})) ++first;
  if (line_.kind(0) == TokenKind::number || !is_any(first, {"pinch", "dusting", "grating"}))
    return std::nullopt;
  // `pinch each of celery salt and black pepper`
  bool is_each = is(first + 1, "each");
  std::size_t unit = is_each ? first + 1 : first;
  std::size_t name = is(unit + 1, "of") ? unit + 2 : unit + 1, stop = comma_or_end(0);
  std::size_t divider = name;
  while (divider < stop && !is_any(divider, {"and", "&", "+"})) ++divider;
  if (divider >= stop || state_.is_finished || !is_use(name, divider) || !is_use(divider + 1, stop))
    return std::nullopt;
  // Without `of` or an article its number is asked for.
  if (first == 0 && !is(first + 1, "of") && !is_each) return std::nullopt;
  Readings lines;
  for (auto [begin, end] : {std::pair(name, divider), std::pair(divider + 1, stop)}) {
    Reading pinch = say("1 pinch");
    if (auto ground = ground_of(begin, end))
      pinch.say(*ground);
    else
      pinch.copy(line_, begin, end);
    lines.push_back(pinch);
  }
  with_rest(lines.back(), line_, stop, end_);
  return lines;
}

}  // namespace gill::analysis

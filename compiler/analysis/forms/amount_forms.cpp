#include "analysis/forms/form_matcher.h"

#include <fmt/format.h>

#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;
using units::Kind;
using units::QuantityReader;

Match FormMatcher::named_amount() const {
  std::size_t stop = comma_or_end(0);
  if (begins_quantity(0) || match_verb(line_, 0) || is(0, "until") || is(0, "to")) return std::nullopt;
  for (std::size_t i = 1; i < stop; ++i) {
    if (!begins_quantity(i) || !is_use(0, i)) continue;
    std::size_t at = i;
    diagnostics::DiagnosticSink silent;
    LineView part = line_.part(0, stop);
    QuantityReader reader(part, context_.units, silent);
    auto quantity = reader.read(at);
    if (!quantity || at != stop) continue;
    if (quantity->kind != Kind::volume && quantity->kind != Kind::mass && quantity->kind != Kind::count &&
        quantity->kind != Kind::part)
      continue;
    Reading amount;
    amount.copy(line_, i, stop).copy(line_, 0, i);
    with_rest(amount, line_, stop, end_);
    return Readings{amount};
  }
  return std::nullopt;
}

Match FormMatcher::bare_unit() const {
  std::size_t first = is_any(0, {"a", "an", "one"}) ? 1 : 0;
  std::size_t stop = comma_or_end(first);
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
  if (auto unit = unit_at(next)) known = known || is_use(is(*unit, "of") ? *unit + 1 : *unit, stop);
  if (!known) return std::nullopt;
  Reading amount = say(text);
  amount.copy(line_, next, end_);
  return Readings{amount};
}

Match FormMatcher::fruit_part() const {
  if (!is_any(0, {"juice", "zest", "peel"}) || !is(1, "of")) return std::nullopt;
  std::size_t at = 2;
  base::Exact fruits = 1;
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
  bool wants_juice = is(0, "juice");
  for (const auto& gives : context_.specs[use->stock].gives) {
    if (!gives.what.stock.valid()) continue;
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
  if (stop == end_ || !begins_quantity(0)) return std::nullopt;
  auto done = after_any(stop + 1, {"squeezed", "juiced", "freshly squeezed", "pressed", "squeezed in"});
  if (!done || comma_or_end(*done) != *done) return std::nullopt;
  std::size_t at = 0;
  diagnostics::DiagnosticSink silent;
  QuantityReader reader(line_, context_.units, silent);
  auto number = reader.read_number(at);
  if (!number) return std::nullopt;
  auto use = find_use(LineReader(line_, context_), at, stop);
  if (!use || use->item.valid()) return std::nullopt;
  for (const auto& gives : context_.specs[use->stock].gives) {
    if (!gives.what.stock.valid() || gives.quantity.kind != Kind::volume) continue;
    Reading amount = say(fmt::format("{} ml {}", base::to_decimal(gives.quantity.value * number->value, 2),
                                     context_.specs[gives.what.stock].head.name));
    with_rest(amount, line_, *done, end_);
    return Readings{amount};
  }
  return std::nullopt;
}

Match FormMatcher::warm_or_cold() const {
  std::size_t at = 0;
  if (auto top = verb_at(0, Verb::top); top && !in_prep_) {
    at = is(*top, "with") ? *top + 1 : *top;
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
  if (!hot && !boiling && !cold) return std::nullopt;
  auto whole = context_.names.find(symbols::NameSpace::stock, syntax::name_text(line_, at, stop));
  bool is_own_name = whole.valid() && base::fold_name(context_.names[whole].name) ==
                                          base::fold_name(syntax::name_text(line_, at, stop));
  if (is_own_name || (!whole.valid() && !is_use(at + 1, stop))) return std::nullopt;
  Reading amount;
  amount.copy(line_, 0, at);
  if (whole.valid())
    amount.say(context_.names[whole].name);
  else
    amount.copy(line_, at + 1, stop);
  amount.text += hot ? ", hot" : boiling ? ", at 100 C" : ", chilled";
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
  std::size_t first = 0;
  std::string amount;
  if (auto next = after_any(0, {"equal parts of", "equal parts"})) {
    amount = "1 part";
    first = *next;
  } else if (line_.kind(0) == TokenKind::number) {
    std::size_t i = 1;
    while (i < end_ && i < 6 && !is(i, "each")) ++i;
    if (!is(i, "each")) return std::nullopt;
    amount = base::collapse_space(line_.raw(0, i));
    first = i + 1;
    if (is(first, "of")) ++first;
  } else {
    return std::nullopt;
  }
  if (first < end_ && (line_.kind(first) == TokenKind::colon || line_.kind(first) == TokenKind::comma))
    ++first;
  auto stretches = listed_uses(first, end_, {"and", "&", "plus"});
  if (!stretches || stretches->size() < 2) return std::nullopt;
  Readings lines;
  for (const auto& [begin, stop] : *stretches) lines.push_back(say(amount).copy(line_, begin, stop));
  return lines;
}

Match FormMatcher::from_where() const {
  std::size_t stop = comma_or_end(0);
  if (!begins_quantity(0)) return std::nullopt;
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
  if (!use || context_.specs[use->stock].kind != StockKind::egg) return std::nullopt;
  Reading amount = say("1");
  amount.copy(line_, 0, end_);
  return Readings{amount};
}

}  // namespace gill::analysis

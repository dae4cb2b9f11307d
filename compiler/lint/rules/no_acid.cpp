#include <fmt/format.h>

#include "base/any_of.h"
#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

using analysis::StockKind;
using analysis::Verb;

// Less acid than this (g/100 ml) is not tasted, and sugar from this on is a sour's, not a seasoning's.
// Common practice, no source.
constexpr double tasted_acid = 0.1;
constexpr double sweet_from_sugar = 4;

constexpr StockKind kinds_of_a_sour[] = {StockKind::spirit,   StockKind::liqueur,   StockKind::bitters,
                                         StockKind::syrup,    StockKind::sweetener, StockKind::egg,
                                         StockKind::additive, StockKind::saline,    StockKind::water};

/// Soda water and its like: fizzy, and nothing of taste in it.
bool is_plain_soda(const DrinkCase& drink, analysis::StockId id) {
  auto kind = drink.house.specs[id].kind;
  const auto& facts = drink.house.facts[id];
  return (kind == StockKind::water || kind == StockKind::mixer) && facts.fizz_vol > 0 &&
         facts.sugar_g_per_100ml < tasted_acid && facts.acid_g_per_100ml < tasted_acid;
}

/// What a sour is made of besides its juice. Anything else (cream, coffee, fruit, an herb, wine) makes it
/// another drink, which may well have no acid.
bool belongs_to_a_sour(const DrinkCase& drink, analysis::StockId id) {
  const auto& per_gram = drink.house.facts[id].composition.per_gram;
  if (is_plain_soda(drink, id)) return true;
  bool is_usual = base::is_any_of(drink.house.specs[id].kind, kinds_of_a_sour);
  return is_usual && per_gram[model::Component::fat] < yolk_from_fat;
}

bool is_mixed_as_a_sour(const DrinkCase& drink) {
  for (const auto& step : drink.drink.recipe.steps)
    if (step.verb == Verb::shake || step.verb == Verb::dry_shake || step.verb == Verb::blend) return true;
  // A collins is built: spirit, syrup and plain soda water.
  for (const auto& entry : drink.facts.entries)
    if (is_plain_soda(drink, entry.use.stock)) return true;
  return false;
}

}  // namespace

void no_acid(const DrinkCase& drink, Reporter& report) {
  // A family has its own range.
  if (drink.drink.family.valid() || drink.drink.serves > 1) return;
  const auto& served = drink.facts.served;
  if (served.acid_g_per_100ml >= tasted_acid || served.sugar_g_per_100ml < sweet_from_sugar) return;
  bool has_spirit = false, has_syrup = false;
  for (const auto& entry : drink.facts.entries) {
    if (entry.role == model::Role::garnish || entry.role == model::Role::side ||
        entry.role == model::Role::rim)
      continue;
    if (!belongs_to_a_sour(drink, entry.use.stock)) return;
    auto kind = drink.house.specs[entry.use.stock].kind;
    has_spirit = has_spirit || kind == StockKind::spirit;
    has_syrup = has_syrup || kind == StockKind::syrup || kind == StockKind::sweetener;
  }
  if (!has_spirit || !has_syrup || !is_mixed_as_a_sour(drink)) return;
  report.add(
      drink.name_span(),
      fmt::format("{:.2g} g/100 ml of sugar, and nothing sour against it", served.sugar_g_per_100ml),
      "Was the juice forgotten? A sour takes about as much lemon or lime juice as syrup, say `25 ml lime "
      "juice`; allow it with a reason if it is meant so sweet.");
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// A serve with this much acid (g citric equivalents in 100 ml) is a sour, and with less sugar than acid
// nothing stands against it. A rickey stays below. Common practice, no source.
constexpr double wants_sugar_from_acid = 0.6;
constexpr double min_sugar_to_acid = 1;
// Salt of this share makes it savoury, and the acid is meant. Common practice, no source.
constexpr double savoury_share = 0.001;
constexpr double min_strength_percent = 3;

}  // namespace

void no_sweetness(const DrinkCase& drink, Reporter& report) {
  // A family has its own range; a salted rim goes with a drink that is meant sharp.
  for (const auto& entry : drink.facts.entries)
    if (entry.role == model::Role::rim &&
        drink.house.specs[entry.use.stock].kind != analysis::StockKind::sweetener)
      return;
  if (drink.drink.family.valid() || drink.drink.serves > 1 || drink.facts.trace.empty()) return;
  const auto& served = drink.facts.served;
  if (served.acid_g_per_100ml < wants_sugar_from_acid || served.abv_percent < min_strength_percent ||
      served.sugar_g_per_100ml >= min_sugar_to_acid * served.acid_g_per_100ml)
    return;
  const auto& masses = drink.facts.trace.back().after.masses;
  if (masses[model::Component::salt] >= savoury_share * masses.total()) return;
  for (const auto& entry : drink.facts.entries) {
    auto kind = drink.house.specs[entry.use.stock].kind;
    bool sour = kind == analysis::StockKind::juice || kind == analysis::StockKind::acid;
    if (!sour || entry.role != model::Role::amount) continue;
    report.add(
        drink.name_span(),
        fmt::format("{:.2g} g/100 ml of acid, and {:.2g} g of sugar against it: a sour with nothing sweet",
                    served.acid_g_per_100ml, served.sugar_g_per_100ml),
        "Was a line forgotten? A sour takes about as much simple syrup as juice, say `20 ml simple "
        "syrup`; allow it with a reason if it is meant so sharp.");
    return;
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

using analysis::StockKind;

/// Why something should not stand in a house bottle; empty where nothing speaks against it.
std::string_view why_not(const House& house, analysis::StockId id) {
  const auto& stock = house.specs[id];
  const auto& facts = house.facts[id];
  if (facts.fizz_vol > 0.3) return "it goes flat in the bottle";
  if (stock.kind == StockKind::egg) return "egg belongs to the glass it is shaken for";
  if (stock.kind == StockKind::dairy) return "dairy spoils within days of opening";
  if (stock.kind == StockKind::juice) return "fresh juice is at its best for hours";
  if (stock.kind == StockKind::fruit || stock.kind == StockKind::herb)
    return "fresh fruit and herbs fade within hours";
  return {};
}

}  // namespace

void perishable_in_batch(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.batched) return;
  for (const auto& use : drink.drink.batched->uses) {
    auto why = why_not(drink.house, use.stock);
    if (why.empty()) continue;
    const std::string& name = drink.house.specs[use.stock].head.name;
    report.add(use.span.file_id.valid() ? use.span : drink.drink.batched->span,
               fmt::format("`{}` is in the house bottle: {}", name, why),
               "Leave it out of `batched` and add it at service. Where it is meant, date the bottle by its "
               "shortest-lived part.");
  }
}

}  // namespace gill::lint

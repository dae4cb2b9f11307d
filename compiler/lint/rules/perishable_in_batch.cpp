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
  switch (stock.kind) {
    case StockKind::egg:
      return "egg belongs to the glass it is shaken for";
    case StockKind::dairy:
      return "dairy turns within days of opening";
    case StockKind::juice:
      return "fresh juice is at its best for hours";
    case StockKind::fruit:
    case StockKind::herb:
      return "fresh fruit and herbs tire within hours";
    case StockKind::unstated:
    case StockKind::spirit:
    case StockKind::liqueur:
    case StockKind::fortified_wine:
    case StockKind::wine:
    case StockKind::sparkling:
    case StockKind::beer:
    case StockKind::bitters:
    case StockKind::syrup:
    case StockKind::sweetener:
    case StockKind::acid:
    case StockKind::fat:
    case StockKind::spice:
    case StockKind::tea_coffee:
    case StockKind::mixer:
    case StockKind::water:
    case StockKind::saline:
    case StockKind::additive:
    case StockKind::garnish:
      break;
  }
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

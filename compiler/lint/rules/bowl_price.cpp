#include <fmt/format.h>

#include "base/text.h"
#include "lint/rules.h"
#include "model/money.h"
#include "units/money.h"

namespace gill::lint {
namespace {

/// A serve that costs less of its price than this is no serve: the price is that of the bowl. Common
/// practice, no source: pour costs run from 15 to 30 %.
constexpr double least_pour_cost_percent = 5;

void judge_entry(const analysis::Menu& menu, analysis::MenuId id, const analysis::MenuEntry& entry,
                 const HouseCase& judged) {
  if (!entry.price || !entry.sold_by.empty() || !entry.drink.valid()) return;
  const auto& drink = judged.house.specs[entry.drink];
  const auto& facts = judged.house.facts[entry.drink];
  if (drink.serves <= 1 || !facts.valid || !facts.cost) return;
  auto price = model::price_of(entry, id, judged.house.specs.house, judged.house.facts.currency);
  auto pour_cost =
      price ? model::pour_cost_percent(facts.cost->amount, price->without_tax.amount) : std::nullopt;
  if (!pour_cost || *pour_cost >= base::Exact(least_pour_cost_percent)) return;
  std::string serves = base::to_decimal(base::Exact(drink.serves), 1);
  judged.about(menu).add(
      entry.span,
      fmt::format(
          "{} is read as the price of one serve of `{}`: the {} of them come to {}",
          units::price_text(*entry.price), drink.head.name, serves,
          units::money_text({entry.price->amount * base::Exact(drink.serves), entry.price->currency})),
      fmt::format(
          "Write `{0} at {1} a bowl` where {1} is for all {2}, or `{0} at {1} a cup` where it is for one.",
          drink.head.name, units::price_text(*entry.price), serves));
}

}  // namespace

void bowl_price(const HouseCase& judged) {
  const auto& menus = judged.house.specs.menus;
  for (std::size_t m = 0; m < menus.size(); ++m)
    for (const auto& section : menus[m].sections)
      for (const auto& entry : section.entries) judge_entry(menus[m], analysis::MenuId::at(m), entry, judged);
}

}  // namespace gill::lint

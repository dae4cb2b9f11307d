#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void no_menu_price(const HouseCase& judged) {
  for (const auto& menu : judged.house.specs.menus) {
    bool has_prices = false;
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries) has_prices = has_prices || entry.price;
    if (!has_prices) continue;
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries) {
        if (entry.price || !entry.drink.valid()) continue;
        judged.about(menu).add(
            entry.span,
            fmt::format("`{}` has no price on this menu", judged.house.specs[entry.drink].head.name),
            fmt::format("Add it: `{} at 12 {}`.", judged.house.specs[entry.drink].head.name,
                        judged.house.facts.currency.empty() ? "EUR" : judged.house.facts.currency));
      }
  }
}

}  // namespace gill::lint

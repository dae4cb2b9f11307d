#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void draft_on_menu(const HouseCase& judged) {
  for (const auto& menu : judged.house.specs.menus)
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries) {
        if (!entry.drink.valid()) continue;
        const auto& drink = judged.house.specs[entry.drink];
        if (drink.status != analysis::Status::draft) continue;
        judged.about(menu).add(
            entry.span,
            fmt::format("the menu sells `{}`, which is a draft: no book and no card holds it",
                        drink.head.name),
            "Approve the drink (`status approved DATE`), or take it off the menu.");
      }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include <vector>

#include "lint/rules.h"

namespace gill::lint {

void not_on_menu(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  std::vector<bool> listed(specs.drinks.size());
  bool has_menu = false;
  for (const auto& menu : specs.menus) {
    has_menu = has_menu || !menu.head.from_library;
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries)
        if (entry.drink.valid()) listed[entry.drink.index()] = true;
    // A line that could not be read may have named it.
    if (menu.head.has_errors) return;
  }
  if (!has_menu) return;
  for (std::size_t i = 0; i < specs.drinks.size(); ++i) {
    const auto& drink = specs.drinks[i];
    if (drink.head.from_library || listed[i] || drink.status != analysis::Status::approved) continue;
    judged.about(drink).add(drink.head.name_span, fmt::format("`{}` is on no menu", drink.head.name),
                            "List it, or write `status draft` or `status retired`.");
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void unknown_garnish(const DrinkCase& drink, Reporter& report) {
  for (const auto& line : drink.drink.recipe.order) {
    if (line.is_amount || line.inherited) continue;
    const auto& step = drink.drink.recipe.steps[line.index];
    if (!step.unknown_garnish) continue;
    report.add(
        step.span, fmt::format("`{}` is not declared, so its allergens and cost are not known", step.words),
        fmt::format(
            "Declare it (`ingredient {}` with its kind and allergens), or use a known thing with an item "
            "word, such as `lemon twist`.",
            step.words));
  }
}

}  // namespace gill::lint

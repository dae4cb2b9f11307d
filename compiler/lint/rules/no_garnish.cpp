#include "analysis/groups.h"
#include "lint/rules.h"

namespace gill::lint {

void no_garnish(const DrinkCase& drink, Reporter& report) {
  if (drink.drink.head.has_errors) return;
  for (const auto& step : drink.drink.recipe.steps)
    if (step.verb == analysis::Verb::garnish || step.verb == analysis::Verb::rim ||
        analysis::is_flamed_garnish(step, drink.house.specs))
      return;
  report.add(drink.name_span(), "the drink says nothing of a garnish",
             "Add `garnish lemon twist`, say, or `garnish none` if it is meant bare.");
}

}  // namespace gill::lint

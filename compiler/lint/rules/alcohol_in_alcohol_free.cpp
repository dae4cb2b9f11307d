#include <fmt/format.h>

#include "base/percent.h"
#include "lint/rules.h"

namespace gill::lint {

void alcohol_in_alcohol_free(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.alcohol) return;
  double limit = base::percent_of_share(drink.drink.alcohol->high), strength = drink.facts.served.abv_percent;
  if (strength <= limit + 1e-9) return;
  std::string strongest;
  double maximum = 0;
  for (const auto& entry : drink.facts.entries) {
    const auto& stock = drink.house.facts[entry.use.stock];
    double ethanol = entry.mass_g.value_or(0) * stock.composition.per_gram[model::Component::ethanol];
    if (ethanol > maximum) maximum = ethanol, strongest = entry.name;
  }
  report.add(
      drink.drink.alcohol->span,
      fmt::format("the drink comes to {:.2f} % abv, and the line declares at most {:g} %{}", strength, limit,
                  strongest.empty() ? "" : fmt::format("; most of it comes with `{}`", strongest)),
      "A guest may drink it because of that line. Take the alcohol out, or declare the strength that it has; "
      "local law "
      "says what may be called alcohol-free.");
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "base/percent.h"
#include "lint/rules.h"
#include "model/entries.h"

namespace gill::lint {

void alcohol_in_alcohol_free(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.alcohol) return;
  double limit = base::percent_of_share(drink.drink.alcohol->high), strength = drink.facts.served.abv_percent;
  if (strength <= limit + 1e-9) return;
  const auto* strongest = model::strongest_part(drink.facts.entries, drink.house.facts).entry;
  report.add(
      drink.drink.alcohol->span,
      fmt::format("the drink comes to {:.2f} % abv, and the line declares at most {:g} %{}", strength, limit,
                  strongest ? fmt::format("; most of it comes with `{}`", strongest->name) : ""),
      "A guest may drink it because of that line. Take the alcohol out, or declare the strength that it has; "
      "local law "
      "says what may be called alcohol-free.");
}

}  // namespace gill::lint

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void no_strain(const DrinkCase& drink, Reporter& report) {
  if (const auto* trace = stays_in_vessel(drink))
    report.add(drink.span_of(*trace), "the drink stays in the mixing vessel: no line moves it to the glass",
               "Add `strain`, `double strain` or `dump` after it, or `build` before the first amount.");
}

}  // namespace gill::lint

#include "lint/rules.h"

namespace gill::lint {

void no_glass(const DrinkCase& drink, Reporter& report) {
  if (drink.drink.glass.valid() || drink.drink.head.has_errors) return;
  report.add(drink.name_span(), "the drink names no glass",
             "Add `glass coupe`, say: staff need to know what to reach for.");
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void off_measure(const DrinkCase&, Reporter&) {}

}  // namespace gill::lint

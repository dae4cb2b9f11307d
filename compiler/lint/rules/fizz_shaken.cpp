#include <fmt/format.h>

#include "analysis/groups.h"
#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void fizz_shaken(const DrinkCase& drink, Reporter& report) {
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount || !analysis::is_done_closed(drink.step(trace).verb)) continue;
    double gas = gas_volumes(trace.before);
    if (gas < flat_below_volumes) continue;
    report.add(
        drink.span_of(trace),
        fmt::format("something fizzy ({:.1f} volumes of gas) is in the closed shaker", gas),
        "Pressure builds up and the lid can fly off. Add what is fizzy after the strain: `top soda water`.");
    return;
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// A stir in the glass up to this long (s) lifts rather than stirs. Common practice, no source.
constexpr double longest_lift_s = 15;

}  // namespace

void fizz_stirred(const DrinkCase& drink, Reporter& report) {
  // A bowl is stirred by turning its ladle.
  if (drink.drink.serves > 1) return;
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = drink.step(trace);
    if (step.verb != analysis::Verb::stir) continue;
    bool long_stir = step.time && step.time->number() > longest_lift_s;
    if (trace.in_glass && !long_stir) continue;
    double gas = gas_volumes(trace.before);
    if (gas < flat_below_volumes) continue;
    report.add(drink.span_of(trace),
               fmt::format("something fizzy ({:.1f} volumes of gas) is stirred{}: it goes flat", gas,
                           trace.in_glass ? "" : " with ice before it is poured"),
               trace.in_glass
                   ? "One lift of the spoon mixes it: write `stir 3 s`."
                   : "Stir the rest without it, strain, and add what is fizzy in the glass: write `top` "
                     "before it, below the strain.");
    return;
  }
}

}  // namespace gill::lint

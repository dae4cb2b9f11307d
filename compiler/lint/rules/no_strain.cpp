#include "lint/rules.h"

namespace gill::lint {

namespace {

/// Steps that are done in a vessel from which a drink must be moved.
bool needs_mixing_vessel(spec::Verb verb) {
  switch (verb) {
    case spec::Verb::dry_shake:
    case spec::Verb::shake:
    case spec::Verb::whip:
    case spec::Verb::stir:
    case spec::Verb::throw_:
    case spec::Verb::roll:
    case spec::Verb::blend: return true;
    default: return false;
  }
}

}  // namespace

void no_strain(const DrinkCase& drink, Reporter& report) {
  if (drink.facts.reached_glass) return;
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount || !needs_mixing_vessel(drink.step(trace).verb)) continue;
    report.add(drink.span_of(trace), "the drink stays in the mixing vessel: no line moves it to the glass",
               "Add `strain`, `double strain` or `dump` after it, or `build` before the first amount.");
    return;
  }
}

}  // namespace gill::lint

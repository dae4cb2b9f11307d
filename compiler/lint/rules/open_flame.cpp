#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// From this strength on a spirit at room temperature catches a flame readily (flash point about 26 °C;
// published flash points of ethanol and water).
constexpr double catches_from = 0.40;

/// The strongest thing that lies on the drink when the flame comes: a float keeps its own strength.
double strongest_on_top(const DrinkCase& drink, const model::TraceStep& flame) {
  double strength = 0;
  for (const auto& trace : drink.facts.trace) {
    if (&trace == &flame) break;
    if (trace.is_amount) continue;
    const auto& step = drink.step(trace);
    bool lies_on_top = step.verb == analysis::Verb::float_ || step.verb == analysis::Verb::layer ||
                       step.verb == analysis::Verb::mist;
    if (lies_on_top && step.use)
      strength = std::max(strength, model::strength(drink.house.facts[step.use->stock].composition.per_gram));
  }
  return strength;
}

}  // namespace

void open_flame(const DrinkCase& drink, Reporter& report) {
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount || drink.step(trace).verb != analysis::Verb::flame) continue;
    const auto& step = drink.step(trace);
    double strength = model::strength(trace.before.masses);
    strength = std::max(strength, strongest_on_top(drink, trace));
    if (step.use)
      strength = std::max(strength, model::strength(drink.house.facts[step.use->stock].composition.per_gram));
    report.add(
        drink.span_of(trace),
        reaches_strength(strength, catches_from)
            ? fmt::format("a flame near {:.0f} % abv, which catches fire", base::percent_of_share(strength))
            : fmt::format("a flame near {:.0f} % abv", base::percent_of_share(strength)),
        "Measure first: never pour from a bottle near a flame. Keep away from hair, hangings and open "
        "bottles; lid and wet cloth ready; put it "
        "out before it is served, and mind the hot rim. The local fire code, the licence and a "
        "trained person decide (flash points: "
        "published tables of ethanol and water).");
    return;
  }
}

}  // namespace gill::lint

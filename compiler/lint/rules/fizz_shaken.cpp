#include <fmt/format.h>

#include "lint/rules.h"
#include "model/physics/gas.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// Less gas than this (volumes) is flat on the tongue. Common practice, no source.
constexpr double flat_below_volumes = 0.3;

bool is_closed(analysis::Verb verb) {
  return verb == analysis::Verb::shake || verb == analysis::Verb::dry_shake || verb == analysis::Verb::whip ||
         verb == analysis::Verb::blend;
}

}  // namespace

void fizz_shaken(const DrinkCase& drink, Reporter& report) {
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount || !is_closed(drink.step(trace).verb)) continue;
    double gas = model::volumes_from_carbon_dioxide_g(trace.before.masses[model::Component::carbon_dioxide],
                                                      model::volume_ml(trace.before.masses));
    if (gas < flat_below_volumes) continue;
    report.add(
        drink.span_of(trace),
        fmt::format("something fizzy ({:.1f} volumes of gas) is in the closed shaker", gas),
        "Pressure builds up and the lid can fly off. Add what is fizzy after the strain: `top soda water`.");
    return;
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// A float may be heavier by this much (g/ml) within what labels and tables are good for.
constexpr double density_error = 0.005;
// Cream from this much fat on (g in one g) is laid on thickened with air: its own density says nothing.
// Common practice.
constexpr double whipping_fat = 0.18;

/// A liqueur drizzled over crushed ice, or over a long drink on ice: it is meant to run down through the
/// glass. In a short drink on a few cubes it lies on the bottom, and a syrup does so everywhere.
bool is_meant_to_run_down(const DrinkCase& drink, const model::TraceStep& trace, analysis::StockId id) {
  constexpr double long_from_ml = 100;  // common practice, no source
  if (drink.house.specs[id].kind != analysis::StockKind::liqueur || trace.before.ice_g <= 0) return false;
  return is_on_crushed_ice(drink) || model::volume_ml(trace.before.masses) >= long_from_ml;
}

bool holds_air(const DrinkCase& drink, analysis::StockId id) {
  const auto& stock = drink.house.specs[id];
  const auto& facts = drink.house.facts[id];
  if (stock.kind == analysis::StockKind::dairy &&
      facts.composition.per_gram[model::Component::fat] >= whipping_fat)
    return true;
  for (const auto& step : stock.recipe.steps)
    if (step.verb == analysis::Verb::whip || step.verb == analysis::Verb::charge) return true;
  return false;
}

}  // namespace

void float_sinks(const DrinkCase& drink, Reporter& report) {
  std::optional<double> last_float;
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = drink.step(trace);
    if ((step.verb != analysis::Verb::float_ && step.verb != analysis::Verb::layer) || !step.use) continue;
    double below = last_float.value_or(model::density_g_per_ml(trace.before.masses));
    double own = drink.house.facts[step.use->stock].density_g_per_ml;
    bool rests_on_something = trace.before.masses.liquid() > 0;
    if (rests_on_something && !is_meant_to_run_down(drink, trace, step.use->stock) &&
        !holds_air(drink, step.use->stock) && own > below + density_error)
      report.add(drink.span_of(trace),
                 fmt::format("`{}` weighs {:.3f} g/ml and what it should rest on {:.3f}: it sinks",
                             drink.house.specs[step.use->stock].head.name, own, below),
                 "Pour the heavier one first, or write it as an amount if it is meant to sink.");
    last_float = own;
  }
}

}  // namespace gill::lint

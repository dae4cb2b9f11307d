#include <algorithm>

#include "base/any_of.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// What makes a drink cloudy whatever is done to it, as shares of its mass, and the acid (g/100 ml) at which
// it is a sour rather than a wine. Common practice, no source.
constexpr double cloudy_share = 0.002;
constexpr double shakes_from_acid = 0.35;
// Weaker than this nobody stirs for strength. Common practice, no source.
constexpr double spirituous_from = 0.15;

bool is_clear_kind(const analysis::Stock& stock) {
  using analysis::StockKind;
  // What a prep is shows in its composition.
  if (stock.kind == StockKind::unstated) return stock.is_prep;
  return base::is_any_of(stock.kind, {StockKind::spirit, StockKind::liqueur, StockKind::fortified_wine,
                                      StockKind::wine, StockKind::bitters, StockKind::syrup,
                                      StockKind::sweetener, StockKind::saline, StockKind::water});
}

bool is_clear(const model::Masses& masses) {
  using model::Component;
  double cloud = masses[Component::fat] + masses[Component::protein] + masses[Component::solids];
  return masses.total() > 0 && cloud < cloudy_share * masses.total() &&
         reaches_strength(model::strength(masses), spirituous_from) &&
         model::acid_g_per_100_ml(masses) < shakes_from_acid;
}

}  // namespace

void spirits_shaken(const DrinkCase& drink, Reporter& report) {
  // Over crushed ice it is watered anyway: shaken is then the style.
  if (is_on_crushed_ice(drink)) return;
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount || drink.step(trace).verb != analysis::Verb::shake || trace.in_glass ||
        !is_clear(trace.before.masses))
      continue;
    bool all_clear = std::all_of(trace.contents.begin(), trace.contents.end(),
                                 [&](analysis::StockId id) { return is_clear_kind(drink.house.specs[id]); });
    if (!all_clear) continue;
    report.add(drink.span_of(trace), "nothing in this drink needs a shake: it holds spirits and wines alone",
               "Stir it (`stir 30 s`): a shake clouds it and waters it more. Allow it with a reason where "
               "that is the style.");
    return;
  }
}

}  // namespace gill::lint

#pragma once

#include <cstdint>

#include "model/physics/components.h"
#include "model/physics/ethanol_water.h"

/// Drinks for the tests.
namespace gill::model::testing {

/// 100 ml with this strength (v/v) and this much sugar, a gram of sugar taking 0.620 ml: as the worked
/// examples have it.
inline Masses hundred_ml(double strength, double sugar_g) {
  const double solvent_ml = 100.0 - 0.620 * sugar_g;
  const double p = ethanol_water::mass_fraction_from_strength(100.0 * strength / solvent_ml);
  const double solvent_g = solvent_ml * ethanol_water::density_g_per_ml(p);
  Masses drink;
  drink[Component::ethanol] = p * solvent_g;
  drink[Component::water] = (1.0 - p) * solvent_g;
  drink[Component::sugar] = sugar_g;
  return drink;
}

/// Numbers between 0 and 1, the same on every run and every machine (a linear congruential generator with the
/// multiplier of "Numerical Recipes", Cambridge University Press).
class Draws {
 public:
  double between(double low, double high) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return low + (high - low) * (static_cast<double>(state_ >> 11) / 9007199254740992.0);
  }

 private:
  std::uint64_t state_ = 20260704;
};

/// A drink such as people mix: 40–200 ml, up to 60 % alcohol, sweet or dry, sour or not.
inline Masses any_drink(Draws& draws) {
  Masses drink = hundred_ml(draws.between(0.0, 0.60), draws.between(0.0, 25.0));
  drink[Component::citric] = draws.between(0.0, 1.5);
  drink[Component::malic] = draws.between(0.0, 0.5);
  drink[Component::protein] = draws.between(0.0, 2.0);
  drink[Component::salt] = draws.between(0.0, 0.3);
  return drink * draws.between(0.4, 2.0);
}

}  // namespace gill::model::testing

#include "model/physics/volume.h"

#include <algorithm>

#include "model/physics/acid.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/sucrose.h"
#include "model/physics/tables.h"
#include "model/physics/water.h"

namespace gill::model {
namespace {

// Volume of the dissolved parts that do not depend on the mixture: acids to `other`, and gas.
double constant_solutes_ml(const Masses& masses) noexcept {
  double sum = 0;
  for (std::size_t i = index_of(Component::citric); i <= index_of(Component::other); ++i)
    sum += masses.grams[i] * tables::specific_volume_ml_per_g[i];
  return sum + masses[Component::carbon_dioxide] *
                   tables::specific_volume_ml_per_g[index_of(Component::carbon_dioxide)];
}

// Ethanol and water above the range of R 22 expand from 40 °C on as water does.
double hot_expansion(double celsius) noexcept {
  if (celsius <= ethanol_water::highest_celsius) return 1.0;
  return water::density_g_per_ml(ethanol_water::highest_celsius) / water::density_g_per_ml(celsius);
}

double per_100_ml(double grams, double ml) noexcept { return ml > 0 ? 100.0 * grams / ml : 0.0; }

}  // namespace

double volume_ml(const Masses& masses, double celsius) noexcept {
  const double ethanol = masses[Component::ethanol];
  const double solvent = ethanol + masses[Component::water];
  double volume = constant_solutes_ml(masses);
  if (solvent > 0)
    volume += solvent / ethanol_water::density_g_per_ml(ethanol / solvent, celsius) * hot_expansion(celsius);
  const double sugar = masses[Component::sugar];
  if (sugar > 0)
    volume += sugar * sucrose::apparent_specific_volume_ml_per_g(sugar / (sugar + solvent), celsius);
  return volume;
}

double volume_ml(const Masses& masses) noexcept {
  const double ethanol = masses[Component::ethanol];
  const double solvent = ethanol + masses[Component::water];
  double volume = constant_solutes_ml(masses);
  if (solvent > 0) volume += solvent / ethanol_water::density_g_per_ml(ethanol / solvent);
  const double sugar = masses[Component::sugar];
  if (sugar > 0) volume += sugar * sucrose::apparent_specific_volume_ml_per_g(sugar / (sugar + solvent));
  return volume;
}

double solids_volume_ml(const Masses& masses) noexcept {
  return masses[Component::solids] * specific_volume_ml_per_g(Component::solids);
}

double specific_volume_ml_per_g(Component component) noexcept {
  return tables::specific_volume_ml_per_g[index_of(component)];
}

double density_g_per_ml(const Masses& masses, double celsius) noexcept {
  const double volume = volume_ml(masses, celsius);
  return volume > 0 ? masses.liquid() / volume : 0.0;
}

double strength(const Masses& masses) noexcept {
  const double volume = volume_ml(masses);
  return volume > 0 ? masses[Component::ethanol] / (ethanol_water::ethanol_density_g_per_ml * volume) : 0.0;
}

double sugar_g_per_100_ml(const Masses& masses) noexcept {
  return per_100_ml(masses[Component::sugar], volume_ml(masses));
}

double acid_g_per_100_ml(const Masses& masses) noexcept {
  return per_100_ml(citric_equivalents_g(masses), volume_ml(masses));
}

double brix(const Masses& masses) noexcept {
  const double liquid = masses.liquid();
  return liquid > 0 ? 100.0 * masses[Component::sugar] / liquid : 0.0;
}

Concentrations concentrations(const Masses& masses) noexcept {
  const double volume = volume_ml(masses);
  if (!(volume > 0)) return {};
  return {.volume_ml = volume,
          .density_g_per_ml = masses.liquid() / volume,
          .strength = masses[Component::ethanol] / (ethanol_water::ethanol_density_g_per_ml * volume),
          .sugar_g_per_100_ml = per_100_ml(masses[Component::sugar], volume),
          .acid_g_per_100_ml = per_100_ml(citric_equivalents_g(masses), volume),
          .brix = brix(masses)};
}

}  // namespace gill::model

#include "model/physics/gas.h"

#include <algorithm>
#include <cmath>

#include "model/physics/volume.h"

namespace gill::model {
namespace {

constexpr double bar_per_atmosphere = 1.01325;
constexpr double carbon_dioxide_g_per_mol = 44.01;

// Regulation (EEC) No 2676/90, chapter 37: litres in a litre of wine at 20 °C and a bar, and how far it
// holds.
constexpr double in_water_at_20_c = 0.86, by_percent_of_alcohol = 0.01, by_g_per_l_of_sugar = 0.00144;
constexpr double highest_strength = 0.18, highest_sugar_g_per_l = 200;

}  // namespace

GasSolvent gas_solvent(const Masses& liquid, double celsius) noexcept {
  const Concentrations in = concentrations(liquid);
  return {celsius, in.strength, 10.0 * in.sugar_g_per_100_ml};
}

double carbon_dioxide_solubility_volumes(const GasSolvent& solvent) noexcept {
  // mol in a litre at one atmosphere: ln K = A1 + A2 (100/T) + A3 ln(T/100), T in kelvin.
  const double t = (std::clamp(solvent.celsius, -1.0, 40.0) + 273.15) / 100.0;
  const double moles_per_litre = std::exp(-58.0931 + 90.5069 / t + 22.2940 * std::log(t));
  const double in_water = moles_per_litre * carbon_dioxide_g_per_mol / carbon_dioxide_g_per_volume_litre;
  const double percent = 100.0 * std::clamp(solvent.strength, 0.0, highest_strength);
  const double sugar = std::clamp(solvent.sugar_g_per_l, 0.0, highest_sugar_g_per_l);
  return in_water * (in_water_at_20_c - by_percent_of_alcohol * percent) / in_water_at_20_c *
         (1.0 - by_g_per_l_of_sugar * sugar);
}

double carbonation_pressure_bar_gauge(double volumes, const GasSolvent& solvent) noexcept {
  return (volumes / carbon_dioxide_solubility_volumes(solvent) - 1.0) * bar_per_atmosphere;
}

double volumes_at_pressure(double bar_gauge, const GasSolvent& solvent) noexcept {
  return std::max(bar_gauge / bar_per_atmosphere + 1.0, 0.0) * carbon_dioxide_solubility_volumes(solvent);
}

}  // namespace gill::model

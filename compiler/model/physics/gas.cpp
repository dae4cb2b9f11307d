#include "model/physics/gas.h"

#include <algorithm>
#include <cmath>

namespace gill::model {
namespace {

constexpr double bar_per_atmosphere = 1.01325;
constexpr double carbon_dioxide_g_per_mol = 44.01;

}  // namespace

double carbon_dioxide_solubility_volumes(double celsius) noexcept {
  // mol in a litre at one atmosphere: ln K = A1 + A2 (100/T) + A3 ln(T/100), T in kelvin.
  const double t = (std::clamp(celsius, -1.0, 40.0) + 273.15) / 100.0;
  const double moles_per_litre = std::exp(-58.0931 + 90.5069 / t + 22.2940 * std::log(t));
  return moles_per_litre * carbon_dioxide_g_per_mol / carbon_dioxide_g_per_volume_litre;
}

double carbonation_pressure_bar_gauge(double volumes, double celsius) noexcept {
  return (volumes / carbon_dioxide_solubility_volumes(celsius) - 1.0) * bar_per_atmosphere;
}

double volumes_at_pressure(double bar_gauge, double celsius) noexcept {
  return std::max(bar_gauge / bar_per_atmosphere + 1.0, 0.0) * carbon_dioxide_solubility_volumes(celsius);
}

}  // namespace gill::model

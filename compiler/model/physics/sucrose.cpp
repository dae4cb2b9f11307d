#include "model/physics/sucrose.h"

#include <algorithm>

#include "model/physics/ethanol_water.h"
#include "model/physics/numeric.h"
#include "model/physics/tables.h"
#include "model/physics/water.h"

namespace gill::model::sucrose {
namespace {

using numeric::polynomial;

constexpr double highest_celsius = 80.0;

double clamp_mass_fraction(double w) noexcept { return std::clamp(w, 0.0, highest_mass_fraction); }

double clamp_celsius(double t) noexcept {
  return std::clamp(t, ethanol_water::lowest_celsius, highest_celsius);
}

// How much denser than water the solution is, per mass fraction, in g/ml: (rho − rho_water)/w.
double rise_g_per_ml(double w) noexcept { return 1e-3 * polynomial(tables::icumsa_0, w); }

double rise_g_per_ml(double w, double t) noexcept {
  const double u = (t - 20.0) / 100.0;
  const double warm = polynomial(tables::icumsa_1, w) +
                      u * (polynomial(tables::icumsa_2, w) +
                           u * (polynomial(tables::icumsa_3, w) + u * polynomial(tables::icumsa_4, w)));
  return 1e-3 * (polynomial(tables::icumsa_0, w) + u * warm);
}

// (1/rho − (1 − w)/rho_water)/w, multiplied out so that it holds at w = 0 too.
double apparent_volume(double w, double rise, double water) noexcept {
  return (water - rise * (1.0 - w)) / ((water + w * rise) * water);
}

}  // namespace

double density_g_per_ml(double mass_fraction, double celsius) noexcept {
  const double w = clamp_mass_fraction(mass_fraction);
  const double t = clamp_celsius(celsius);
  return water::density_g_per_ml(t) + w * rise_g_per_ml(w, t);
}

double apparent_specific_volume_ml_per_g(double mass_fraction) noexcept {
  const double w = clamp_mass_fraction(mass_fraction);
  return apparent_volume(w, rise_g_per_ml(w), ethanol_water::water_density_g_per_ml);
}

double apparent_specific_volume_ml_per_g(double mass_fraction, double celsius) noexcept {
  const double w = clamp_mass_fraction(mass_fraction);
  const double t = clamp_celsius(celsius);
  return apparent_volume(w, rise_g_per_ml(w, t), water::density_g_per_ml(t));
}

double mass_fraction_from_density(double density_g_per_ml, double celsius) noexcept {
  const double t = clamp_celsius(celsius);
  const double water = water::density_g_per_ml(t);
  const auto excess = [&](double w) noexcept { return water + w * rise_g_per_ml(w, t) - density_g_per_ml; };
  constexpr double usual_rise = 0.46;  // g/ml for w from 0 to 1, about 50 brix
  return numeric::zero_of_increasing(excess, 0.0, highest_mass_fraction,
                                     (density_g_per_ml - water) / usual_rise, usual_rise, 1e-9);
}

}  // namespace gill::model::sucrose

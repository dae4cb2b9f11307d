#include "model/physics/ethanol_water.h"

#include <algorithm>
#include <cmath>

#include "model/physics/numeric.h"
#include "model/physics/tables.h"

namespace gill::model::ethanol_water {

using numeric::polynomial;
using numeric::polynomial_with_slope;

namespace {

constexpr double kilograms_per_cubic_metre = 1e-3;  // in g/ml

// R 22 at mass fraction p and u = °C − 20 is a polynomial in u whose coefficients are polynomials in p.
double density_kg_per_m3(double p, double u) noexcept {
  const double u1 = tables::r22_b[0] + p * polynomial(tables::r22_c1, p);
  const double u2 = tables::r22_b[1] + p * polynomial(tables::r22_c2, p);
  const double u3 = tables::r22_b[2] + p * polynomial(tables::r22_c3, p);
  const double u4 = tables::r22_b[3] + p * polynomial(tables::r22_c4, p);
  const double u5 = tables::r22_b[4] + p * polynomial(tables::r22_c5, p);
  const double u6 = tables::r22_b[5];
  return polynomial(tables::r22_a, p) + u * (u1 + u * (u2 + u * (u3 + u * (u4 + u * (u5 + u * u6)))));
}

}  // namespace

double density_g_per_ml(double mass_fraction, double celsius) noexcept {
  const double p = std::clamp(mass_fraction, 0.0, 1.0);
  const double t = std::clamp(celsius, lowest_celsius, highest_celsius);
  return kilograms_per_cubic_metre * density_kg_per_m3(p, t - 20.0);
}

double density_g_per_ml(double mass_fraction) noexcept {
  return kilograms_per_cubic_metre * polynomial(tables::r22_a, std::clamp(mass_fraction, 0.0, 1.0));
}

double strength_from_mass_fraction(double mass_fraction) noexcept {
  const double p = std::clamp(mass_fraction, 0.0, 1.0);
  return p * density_g_per_ml(p) / ethanol_density_g_per_ml;
}

double mass_fraction_from_strength(double strength) noexcept {
  const double q = std::clamp(strength, 0.0, 1.0);
  if (q == 0.0 || q == 1.0) return q;
  // A cubic within 0.003 of the answer, so that three Newton steps are all it takes.
  double p = q * (0.7907 + 0.2093 * q * (0.4 + 0.6 * q * q));
  constexpr int max_steps = 8;
  for (int step = 0; step < max_steps; ++step) {
    const auto [rho, slope] = polynomial_with_slope(tables::r22_a, p);
    const double density_one = 1e3 * ethanol_density_g_per_ml;
    const double change = (p * rho - q * density_one) / (rho + p * slope);
    p -= change;
    if (std::abs(change) < 1e-9) break;  // the next step would be its square
  }
  return std::clamp(p, 0.0, 1.0);
}

double mass_fraction_from_density(double density_g_per_ml, double celsius) noexcept {
  const double t = std::clamp(celsius, lowest_celsius, highest_celsius);
  const double target = density_g_per_ml / kilograms_per_cubic_metre;
  const auto excess = [&](double p) noexcept { return target - density_kg_per_m3(p, t - 20.0); };
  const double guess = (998.0 - target) / 209.0;
  return numeric::zero_of_increasing(excess, 0.0, 1.0, guess, 209.0, 1e-9);
}

}  // namespace gill::model::ethanol_water

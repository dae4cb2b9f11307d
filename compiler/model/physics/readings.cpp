#include "model/physics/readings.h"

#include <algorithm>
#include <cmath>

#include "model/physics/ethanol_water.h"
#include "model/physics/numeric.h"
#include "model/physics/sucrose.h"
#include "model/physics/tables.h"
#include "model/physics/volume.h"

namespace gill::model {
namespace {

// More fat than this, g/g of the liquid, and the line is a haze. Common practice, no source.
constexpr double haze_from_fat = 0.1;
constexpr double highest_brix = 85.0;

/// A table with a step of `step` from 0, by the cubic through the four nearest rows.
template <std::size_t count>
double smooth(const std::array<double, count>& table, double place) noexcept {
  const double held = std::clamp(place, 0.0, static_cast<double>(count - 1));
  const auto first =
      static_cast<std::size_t>(std::clamp(std::floor(held) - 1.0, 0.0, static_cast<double>(count - 4)));
  double sum = 0;
  for (std::size_t i = first; i < first + 4; ++i) {
    double weight = 1;
    for (std::size_t j = first; j < first + 4; ++j)
      if (j != i)
        weight *= (held - static_cast<double>(j)) / (static_cast<double>(i) - static_cast<double>(j));
    sum += weight * table[i];
  }
  return sum;
}

// Sugar in water.
double index_of_sugar(double mass_fraction) noexcept {
  return smooth(tables::sucrose_refractive_index, mass_fraction * 20.0);
}

// ml a gram brings to (n − 1) V.
double refraction_of_water() noexcept {
  return (tables::sucrose_refractive_index[0] - 1.0) / ethanol_water::water_density_g_per_ml;
}

double refraction_of_solvent(double ethanol_fraction) noexcept {
  const double index = numeric::interpolate(tables::ethanol_refractive_index, ethanol_fraction * 50.0);
  return (index - 1.0) / ethanol_water::density_g_per_ml(ethanol_fraction);
}

double refraction_of_sugar(double mass_fraction) noexcept {
  // Below this a table's last digit is all there would be left of it.
  constexpr double thinnest = 0.05;
  const double w = std::clamp(mass_fraction, thinnest, sucrose::highest_mass_fraction);
  return ((index_of_sugar(w) - 1.0) / sucrose::density_g_per_ml(w) - (1.0 - w) * refraction_of_water()) / w;
}

// What bends light: everything but what is undissolved, fat and gas.
Masses clear(Masses masses) noexcept {
  for (const Component component : {Component::fat, Component::solids, Component::carbon_dioxide})
    masses[component] = 0;
  return masses;
}

// What the reading is with water in place of some of the parts.
template <std::size_t count>
double reading_without(Masses masses, const std::array<Component, count>& parts) noexcept {
  for (const Component part : parts) {
    masses[Component::water] += masses[part];
    masses[part] = 0;
  }
  return refractometer_brix(masses).value_or(0);
}

}  // namespace

std::optional<double> refractive_index(const Masses& masses) noexcept {
  const double solvent = masses[Component::water] + masses[Component::ethanol];
  if (!(solvent > 0) || masses[Component::fat] > haze_from_fat * masses.liquid()) return std::nullopt;
  const Masses liquid = clear(masses);
  const double volume = volume_ml(liquid);
  double sum = solvent * refraction_of_solvent(liquid[Component::ethanol] / solvent);
  const double sugar = liquid[Component::sugar];
  const double thickness = sugar / (sugar + solvent);
  sum += sugar * refraction_of_sugar(thickness);
  for (const Component component : components) {
    if (component == Component::water || component == Component::ethanol || component == Component::sugar)
      continue;
    const double grams = liquid[component];
    if (grams > 0) sum += grams * tables::specific_refraction_ml_per_g[index_of(component)];
  }
  return 1.0 + sum / volume;
}

std::optional<double> refractometer_brix(const Masses& masses) noexcept {
  const auto index = refractive_index(masses);
  if (!index) return std::nullopt;
  constexpr double usual_rise = 0.18;  // of the index for a mass fraction from 0 to 1, about 40 brix
  const auto excess = [&](double w) noexcept { return index_of_sugar(w) - *index; };
  return 100.0 * numeric::zero_of_increasing(excess, 0.0, highest_brix / 100.0,
                                             (*index - tables::sucrose_refractive_index[0]) / usual_rise,
                                             usual_rise, 1e-9);
}

double refractometer_doubt_brix(const Masses& masses) noexcept {
  const auto reading = refractometer_brix(masses);
  if (!reading) return 0;
  constexpr double acid_share = 0.08, extract_share = 0.1, alcohol_share = 0.03;
  const double acid = acid_share * (*reading - reading_without(masses, acids));
  const double extract =
      extract_share *
      (*reading - reading_without(masses, std::array{Component::protein, Component::salt, Component::other}));
  // Of alcohol alone in water, and of sugar alone, the tables are exact.
  const double alcohol = *reading - reading_without(masses, std::array{Component::ethanol});
  const double beside =
      alcohol_share *
      std::min(std::abs(alcohol), *reading - reading_without(masses, std::array{Component::sugar}));
  return std::sqrt(acid * acid + extract * extract + beside * beside);
}

double specific_gravity(double density_g_per_ml) noexcept {
  return density_g_per_ml / ethanol_water::water_density_g_per_ml;
}

std::optional<double> hydrometer_brix(double density_g_per_ml) noexcept {
  if (density_g_per_ml < ethanol_water::water_density_g_per_ml) return std::nullopt;
  return 100.0 * sucrose::mass_fraction_from_density(density_g_per_ml);
}

std::optional<double> hydrometer_strength(double density_g_per_ml) noexcept {
  if (density_g_per_ml > ethanol_water::water_density_g_per_ml) return std::nullopt;
  return ethanol_water::strength_from_mass_fraction(
      ethanol_water::mass_fraction_from_density(density_g_per_ml, 20.0));
}

}  // namespace gill::model

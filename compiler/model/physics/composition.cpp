#include "model/physics/composition.h"

#include <algorithm>
#include <cmath>

#include "model/physics/ethanol_water.h"
#include "model/physics/gas.h"
#include "model/physics/numeric.h"
#include "model/physics/volume.h"

namespace gill::model {
namespace {

constexpr double whole_ml = 100.0;
constexpr double label_rounding = 0.0005;  // of the whole: 0.05 g in 100 g
constexpr double highest_misfit = 0.15;
constexpr double highest_density_g_per_ml = 25.0;  // above that of any substance

/// The terms as two lists of masses: grams in 100 ml, and grams in each gram.
struct Parts {
  Masses in_100_ml;
  Masses in_1_g;
  double grams;     // sum of the first
  double fraction;  // sum of the second

  Masses of(double whole_g, Component remainder) const noexcept {
    Masses masses = in_100_ml + in_1_g * whole_g;
    masses[remainder] += std::max(whole_g * (1.0 - fraction) - grams, 0.0);
    return masses;
  }
};

double filled_ml(const Masses& masses) noexcept { return volume_ml(masses) + solids_volume_ml(masses); }

Impossible out_of_range(Component component, double declared, double possible) noexcept {
  return {Impossible::Reason::out_of_range, component, declared, possible};
}

/// What is declared beyond its own limits, if anything.
std::optional<Impossible> impossible_alone(const DeclaredTerms& terms) noexcept {
  for (const Component component : components) {
    const Declared& part = terms[component];
    if (!(part.grams_in_100_ml >= 0)) return out_of_range(component, part.grams_in_100_ml, 0);
    if (!(part.mass_fraction >= 0)) return out_of_range(component, part.mass_fraction, 0);
    if (part.mass_fraction > 1 + label_rounding) return out_of_range(component, part.mass_fraction, 1);
  }
  const double strength = terms.strength.value_or(0);
  if (!(strength >= 0)) return out_of_range(Component::ethanol, strength, 0);
  if (strength > 1) return out_of_range(Component::ethanol, strength, 1);
  const double gas = terms.carbon_dioxide_volumes.value_or(0);
  if (!(gas >= 0)) return out_of_range(Component::carbon_dioxide, gas, 0);
  if (terms.density_g_per_ml && !(*terms.density_g_per_ml > 0))
    return out_of_range(terms.remainder, *terms.density_g_per_ml, 0);
  if (terms.density_g_per_ml && *terms.density_g_per_ml > highest_density_g_per_ml)
    return out_of_range(terms.remainder, *terms.density_g_per_ml, highest_density_g_per_ml);
  return std::nullopt;
}

Parts parts_of(const DeclaredTerms& terms) noexcept {
  Parts parts{};
  for (const Component component : components) {
    parts.in_100_ml[component] = terms[component].grams_in_100_ml;
    parts.in_1_g[component] = terms[component].mass_fraction;
  }
  parts.in_100_ml[Component::ethanol] +=
      terms.strength.value_or(0) * whole_ml * ethanol_water::ethanol_density_g_per_ml;
  parts.in_100_ml[Component::carbon_dioxide] +=
      carbon_dioxide_g_from_volumes(terms.carbon_dioxide_volumes.value_or(0), whole_ml);
  parts.grams = parts.in_100_ml.total();
  parts.fraction = parts.in_1_g.total();
  return parts;
}

Composition composed(const Masses& masses, double density_g_per_ml) noexcept {
  Composition composition;
  composition.per_gram = masses * (1.0 / masses.total());
  composition.density_g_per_ml = density_g_per_ml;
  return composition;
}

std::variant<Composition, Impossible> with_density(const DeclaredTerms& terms, const Parts& parts) noexcept {
  const double density = *terms.density_g_per_ml;
  const double whole_g = density * whole_ml;
  const double declared_g = parts.grams + parts.fraction * whole_g;
  if (declared_g > whole_g * (1 + label_rounding))
    return Impossible{Impossible::Reason::parts_over_whole, terms.remainder, declared_g, whole_g};

  const Masses masses = parts.of(whole_g, terms.remainder);
  Composition composition = composed(masses, density);
  composition.density_declared = true;
  if (terms.form == DeclaredTerms::Form::liquid) {
    const double model_density = masses.total() / filled_ml(masses);
    composition.density_disagreement = model_density / density - 1.0;
    if (std::abs(composition.density_disagreement) > highest_misfit)
      return Impossible{Impossible::Reason::density_misfit, terms.remainder, density, model_density};
  }
  return composition;
}

std::variant<Composition, Impossible> without_density(const DeclaredTerms& terms,
                                                      const Parts& parts) noexcept {
  if (parts.fraction > 1 + label_rounding)
    return Impossible{Impossible::Reason::parts_over_whole, terms.remainder, 100 * parts.fraction, 100};

  const double left = 1.0 - parts.fraction;
  if (left <= label_rounding && parts.grams == 0) {  // mass fractions are the whole of it
    const Masses masses = parts.in_1_g;
    return composed(masses, masses.total() / filled_ml(masses));
  }
  if (left <= label_rounding)
    return Impossible{Impossible::Reason::parts_over_whole, terms.remainder,
                      100 * parts.fraction + parts.grams, 100};

  const double min_g = parts.grams / left;  // no remainder yet
  const Masses minimum = parts.of(min_g, terms.remainder);
  const double min_ml = filled_ml(minimum);
  if (min_ml > whole_ml * (1 + label_rounding))
    return Impossible{Impossible::Reason::water_negative, terms.remainder, min_ml, whole_ml};
  if (min_ml >= whole_ml) return composed(minimum, min_g / min_ml);

  const auto excess = [&](double whole_g) noexcept {
    return filled_ml(parts.of(whole_g, terms.remainder)) - whole_ml;
  };
  constexpr double max_g = 400.0;  // four times as heavy as water: beyond any food
  const double whole_g =
      numeric::zero_of_increasing(excess, min_g, max_g, min_g + (whole_ml - min_ml), 1.0, 1e-7);
  return composed(parts.of(whole_g, terms.remainder), whole_g / whole_ml);
}

}  // namespace

std::variant<Composition, Impossible> solve_composition(const DeclaredTerms& terms) noexcept {
  if (const auto impossible = impossible_alone(terms)) return *impossible;
  const Parts parts = parts_of(terms);
  return terms.density_g_per_ml ? with_density(terms, parts) : without_density(terms, parts);
}

}  // namespace gill::model

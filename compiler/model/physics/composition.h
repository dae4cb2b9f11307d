#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <variant>

#include "model/physics/components.h"

/// From what a label or a handbook declares to the masses that fit it.
namespace gill::model {

/// What is declared of one component, in the two ways labels state it; lines of several kinds that are one
/// component add up.
struct Declared {
  double grams_in_100_ml = 0;  ///< `6 % w/v`, `60 g/l`
  double mass_fraction = 0;    ///< `6 % w/w`, `50 brix`; 0…1

  static constexpr Declared per_100_ml(double grams) noexcept { return {grams, 0}; }
  static constexpr Declared by_mass(double fraction) noexcept { return {0, fraction}; }

  constexpr Declared& operator+=(const Declared& more) noexcept {
    grams_in_100_ml += more.grams_in_100_ml;
    mass_fraction += more.mass_fraction;
    return *this;
  }
  constexpr Declared& operator*=(double factor) noexcept {
    grams_in_100_ml *= factor;
    mass_fraction *= factor;
    return *this;
  }
  /// Grams in one gram of a substance of this density.
  constexpr double in_a_gram(double density_g_per_ml) const noexcept {
    return mass_fraction + grams_in_100_ml / (100 * density_g_per_ml);
  }
};

/// Everything declared of one ingredient. What is left out is not declared, and is then none of it.
struct DeclaredTerms {
  enum class Form : std::uint8_t { liquid, solid };
  Form form = Form::liquid;  ///< a solid's density is that of a heap or a fruit: it checks nothing
  std::array<Declared, component_count>
      parts{};                     ///< by component; `strength` and `carbon_dioxide_volumes` add to it
  std::optional<double> strength;  ///< ethanol v/v at 20 °C, 0…1
  std::optional<double>
      carbon_dioxide_volumes;              ///< litres of gas at 0 °C and 1.01325 bar in a litre of drink
  std::optional<double> density_g_per_ml;  ///< at 20 °C
  Component remainder = Component::water;  ///< what the rest is: water in liquids; `solids` in fruit, herbs …

  constexpr Declared& operator[](Component component) noexcept { return parts[index_of(component)]; }
  constexpr const Declared& operator[](Component component) const noexcept {
    return parts[index_of(component)];
  }
};

/// What an ingredient is made of.
struct Composition {
  Masses per_gram;  ///< grams in one gram: sums to 1
  double density_g_per_ml =
      1;  ///< at 20 °C, as declared or else as the model has it: turns volume into mass and back
  bool density_declared =
      false;  ///< false: for a solid the figure is that of the closed substance, not of a heap
  /// Liquids with a declared density only: by how much the model's density is the higher, as a fraction of
  /// the declared (0.02 is 2 %). Worth a word to the user beyond ±0.01; beyond ±0.15 the terms are
  /// `Impossible`.
  double density_disagreement = 0;

  /// Masses in so many grams, or so many ml (by `density_g_per_ml`).
  constexpr Masses of_grams(double grams) const noexcept { return per_gram * grams; }
  constexpr Masses of_ml(double ml) const noexcept { return per_gram * (ml * density_g_per_ml); }
};

/// Why declared terms cannot be met.
struct Impossible {
  enum class Reason : std::uint8_t {
    out_of_range,      ///< a negative amount, a fraction or strength over 1, a density that is not above 0
    parts_over_whole,  ///< the declared parts outweigh 100 ml of the declared density, or their mass
                       ///< fractions pass 1
    water_negative,    ///< without a density: the declared parts fill more than 100 ml before any remainder
    density_misfit,    ///< the model's density is more than 15 % off the declared
  };
  Reason reason = Reason::out_of_range;
  Component component = Component::water;  ///< out_of_range: of which component (ethanol for strength)
  double declared =
      0;  ///< out_of_range: the value; parts_over_whole: g of parts in 100 ml, or in 100 g where no density
          ///< is declared; water_negative: ml the parts take up; density_misfit: the declared g/ml
  double possible =
      0;  ///< the limit it broke: 0 or 1; g of 100 ml by its density, or 100 g; 100 ml; the model's g/ml
};

/// Masses that fit the terms. Without a density the remainder fills up 100 ml, undissolved solids among them;
/// with one, 100 ml weigh what it says and the remainder is what the declared parts leave of that mass. A
/// remainder short of nothing by up to 0.05 g in 100 is the rounding of labels: it counts as 0.
std::variant<Composition, Impossible> solve_composition(const DeclaredTerms& terms) noexcept;

}  // namespace gill::model

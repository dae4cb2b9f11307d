#pragma once

#include "model/physics/components.h"

/// Food energy by the conversion factors of Regulation (EU) No 1169/2011, Annex XIV.
namespace gill::model {

/// Energy in both units. Each is summed by its own factors; one is not the other converted.
struct Energy {
  double kcal = 0;
  double kj = 0;

  constexpr Energy& operator+=(const Energy& more) noexcept {
    kcal += more.kcal;
    kj += more.kj;
    return *this;
  }
};

/// What carries energy and is no component of its own (it is part of `other` or `solids`): grams.
struct MoreNutrients {
  double digestible_carbohydrate_g = 0;  ///< beyond sugar: starch, dextrins
  double polyols_g = 0;                  ///< glycerol among them; erythritol is not (it counts 0)
  double fibre_g = 0;                    ///< gums among it

  constexpr MoreNutrients& operator+=(const MoreNutrients& more) noexcept {
    digestible_carbohydrate_g += more.digestible_carbohydrate_g;
    polyols_g += more.polyols_g;
    fibre_g += more.fibre_g;
    return *this;
  }
  friend constexpr MoreNutrients operator*(MoreNutrients nutrients, double factor) noexcept {
    nutrients.digestible_carbohydrate_g *= factor;
    nutrients.polyols_g *= factor;
    nutrients.fibre_g *= factor;
    return nutrients;
  }
};

/// Energy of the masses: ethanol 7 kcal or 29 kJ a gram, sugar and other digestible carbohydrate 4/17,
/// protein 4/17, fat 9/37, organic acids 3/13, polyols 2.4/10, fibre 2/8. Phosphoric acid (not organic),
/// salt, `other`, `solids`, water and gas count 0.
Energy energy(const Masses& masses, const MoreNutrients& more = {}) noexcept;

}  // namespace gill::model

#pragma once

#include "model/physics/components.h"

/// Volume of a liquid from its masses, and the concentrations that follow from it.
namespace gill::model {

/// Volume in ml of the liquid, undissolved solids not counted. Ethanol and water by OIML R 22 (their volumes
/// do not add up); sugar by its ICUMSA apparent specific volume at w = sugar/(sugar + water + ethanol), so
/// that a pure syrup has the ICUMSA density; everything else by a constant ml/g (`specific_volume_ml_per_g`).
/// Other temperatures: R 22 within −20…40 °C and, above, water's own expansion; solutes other than sugar keep
/// theirs.
double volume_ml(const Masses& masses, double celsius) noexcept;

/// The same at 20 °C, faster.
double volume_ml(const Masses& masses) noexcept;

/// Volume in ml of the undissolved solids.
double solids_volume_ml(const Masses& masses) noexcept;

/// ml a gram of this component takes up in solution at 20 °C; for water, ethanol and sugar the value on its
/// own or in thin solution (those three depend on the mixture, see `volume_ml`). Sources stand beside the
/// figures in tables.h.
double specific_volume_ml_per_g(Component component) noexcept;

/// Density in g/ml of the liquid; 0 when there is none.
double density_g_per_ml(const Masses& masses, double celsius = 20.0) noexcept;

/// Volume of ethanol over volume of liquid, both at 20 °C, as a label states it; 0…1.
double strength(const Masses& masses) noexcept;

/// Grams of sugar in 100 ml of liquid at 20 °C.
double sugar_g_per_100_ml(const Masses& masses) noexcept;

/// Grams of citric equivalents (acid.h) in 100 ml of liquid at 20 °C.
double acid_g_per_100_ml(const Masses& masses) noexcept;

/// Brix: mass per cent of sugar in the liquid.
double brix(const Masses& masses) noexcept;

/// All of these at once, for the cost of one volume. Zero where there is no liquid.
struct Concentrations {
  double volume_ml = 0;         ///< at 20 °C
  double density_g_per_ml = 0;  ///< at 20 °C
  double strength = 0;          ///< v/v, 0…1
  double sugar_g_per_100_ml = 0;
  double acid_g_per_100_ml = 0;  ///< citric equivalents
  double brix = 0;               ///< mass per cent
};
Concentrations concentrations(const Masses& masses) noexcept;

}  // namespace gill::model

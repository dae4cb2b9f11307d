#pragma once

#include "model/physics/components.h"

/// Heat of liquids and of ice. Joules; the zero is each substance liquid and by itself at 25 °C.
namespace gill::model {

/// Enthalpy in J of the liquid (undissolved solids warm and cool with it). Ethanol and water: heat capacity
/// from the fit of the International Institute of Refrigeration's "Properties of secondary working fluids"
/// (2010), bilinear in steps of 5 % by mass and 10 K from −20 to 20 °C (beyond: the value at the end), to 60
/// % by mass, then straight to pure ethanol; heat of mixing at 25 °C by J. Chem. Thermodynamics 7 (1975),
/// Academic Press.
double liquid_enthalpy_j(const Masses& masses, double celsius) noexcept;

/// Heat capacity in J/K of the liquid: the slope of `liquid_enthalpy_j` over temperature.
double liquid_heat_capacity_j_per_k(const Masses& masses, double celsius) noexcept;

/// Enthalpy in J of one gram of ice; above 0 °C that of ice at 0 °C.
double ice_enthalpy_j_per_g(double celsius) noexcept;

/// Enthalpy in J of one gram of water at 0 °C.
inline constexpr double water_at_0_c_enthalpy_j_per_g = -104.83;

/// Temperature at which this liquid holds this enthalpy: the inverse of `liquid_enthalpy_j`. 0 for no mass.
double temperature_from_enthalpy_c(const Masses& masses, double enthalpy_j) noexcept;

}  // namespace gill::model

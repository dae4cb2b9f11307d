#pragma once

#include <cstddef>

#include "model/physics/components.h"

/// The heat of one liquid as a function of temperature alone: what `heat.h` and the ice balance are made of.
namespace gill::model {

/// Heat of mixing of so much ethanol and water at 25 °C, J; 0 or below.
double heat_of_mixing_j(double ethanol_g, double water_g) noexcept;

/// Heat capacity in J/K of all that is neither ethanol nor water.
double solute_heat_capacity_j_per_k(const Masses& masses) noexcept;

/// Enthalpy over temperature: heat capacity in straight lines between the table's temperatures, so enthalpy
/// in parabolas; zero as in heat.h.
class MixtureHeat {
 public:
  MixtureHeat(double ethanol_g, double water_g, double solute_heat_capacity_j_per_k) noexcept;
  explicit MixtureHeat(const Masses& masses) noexcept
      : MixtureHeat(masses[Component::ethanol], masses[Component::water],
                    solute_heat_capacity_j_per_k(masses)) {}

  double enthalpy_j(double celsius) const noexcept;
  double heat_capacity_j_per_k(double celsius) const noexcept;

  /// The inverse of `enthalpy_j`; 0 where there is no mass.
  double temperature_c(double enthalpy_j) const noexcept;

 private:
  double solvent_g_;
  double mixing_j_;
  double solute_j_per_k_;
  std::size_t row_;  // of the table by mixtures: between this and the next
  double along_;     // as far, 0…1
};

}  // namespace gill::model

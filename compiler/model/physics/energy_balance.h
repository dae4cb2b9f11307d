#pragma once

#include "model/physics/components.h"
#include "model/physics/ice_balance.h"

/// The energy balance of ice, drink and vessel that `ice_balance.h` and `dilution.h` solve.
namespace gill::model {

class EnergyBalance {
 public:
  /// `ice_below_g` is how much ice is cooled along with the drink below the ice's own temperature: all of it in the plain
  /// balance. A drink over its ice can only be cooled further by melting, and then this much ice gives heat to it.
  EnergyBalance(const Masses& drink, double start_c, const IceBath& bath, double ice_below_g) noexcept;

  /// As `gill::model::equilibrium`.
  IceBalance equilibrium() const noexcept;

  /// As `temperature_after_melt_c`. `part` of what is left of the ice and of the vessel has come to the drink's
  /// temperature; the rest is as it was.
  double temperature_c(double melt_g, double part = 1.0) const noexcept;

  /// The freezing point of the drink with `melt_g` and the surface water in it.
  double freezing_point_c(double melt_g) const noexcept;

 private:
  double heat_missing_j(double melt_g, double celsius) const noexcept;
  double ice_warming_j(double melt_g, double celsius) const noexcept;

  Masses drink_;  // with the surface water
  IceBath bath_;
  double ice_below_g_;
  double solute_heat_capacity_j_per_k_;
  double ice_j_per_g_;
  double before_j_;  // drink, surface water and heat; ice and vessel are counted from where they start
};

}  // namespace gill::model

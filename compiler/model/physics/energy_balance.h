#pragma once

#include "model/physics/components.h"
#include "model/physics/ice_balance.h"

/// The energy balance of ice, drink and vessel that `ice_balance.h` and `dilution.h` solve.
namespace gill::model {

class EnergyBalance {
 public:
  /// `reference_ice_g`: how much ice gives heat to a drink that gets colder than it (all there is, in the
  /// plain balance). Below 0 °C a drink over ice is cooled by melting alone, and ice core, tin and hands then
  /// give it heat; the fits of dilution.h were measured with as much of that as so much ice holds, however
  /// much there is in the case at hand.
  EnergyBalance(const Masses& drink, double start_c, const IceBath& bath, double reference_ice_g) noexcept;

  /// As `gill::model::equilibrium`.
  IceBalance equilibrium() const noexcept;

  /// As `temperature_after_melt_c`. `part` of what is left of the ice and of the vessel has come to the
  /// drink's temperature; the rest is as it was.
  double temperature_c(double melt_g, double part = 1.0) const noexcept;

  /// The freezing point of the drink with `melt_g` and the surface water in it.
  double freezing_point_c(double melt_g) const noexcept;

 private:
  double heat_missing_j(double melt_g, double celsius) const noexcept;
  double ice_warming_j(double melt_g, double celsius) const noexcept;

  Masses drink_;  // with the surface water
  IceBath bath_;
  double reference_ice_g_;
  double solute_heat_capacity_j_per_k_;
  double ice_j_per_g_;
  double before_j_;  // drink, surface water and heat; ice and vessel are counted from where they start
};

}  // namespace gill::model

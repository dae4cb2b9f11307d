#pragma once

#include "model/physics/components.h"
#include "model/physics/ice_balance.h"

/// The energy balance of ice, drink and vessel that `dilution.h` solves.
namespace gill::model {

class EnergyBalance {
 public:
  /// `max_warming_ice_g`: how much of the ice, at the most, gives heat to a drink that gets colder than it.
  /// Below 0 °C a drink over ice is cooled by melting alone, and what ice there is gives it heat; of more
  /// than the fits of dilution.h were measured with, the rest keeps its temperature. All of it in the plain
  /// balance.
  EnergyBalance(const Masses& drink, double start_c, const IceBath& bath, double max_warming_ice_g) noexcept;

  /// Ice and drink stirred until nothing changes: the drink ends at the freezing point of what it has become,
  /// or, when all ice melts, wherever the balance leaves it.
  IceBalance equilibrium() const noexcept;

  /// Temperature of the drink after `melt_g` of ice (clamped to what there is) has melted. Not held to the
  /// freezing point: more melt than the equilibrium's gives a figure below it. `part` of what is left of the
  /// ice and of the vessel has come to the drink's temperature; the rest is as it was.
  double temperature_c(double melt_g, double part = 1.0) const noexcept;

  /// The freezing point of the drink with `melt_g` and the surface water in it.
  double freezing_point_c(double melt_g) const noexcept;

 private:
  double heat_missing_j(double melt_g, double celsius) const noexcept;
  double ice_warming_j(double melt_g, double celsius) const noexcept;

  Masses drink_;  // with the surface water
  IceBath bath_;
  double warming_ice_g_;  // of the ice there is, what gives heat to a drink colder than it
  double solute_heat_capacity_j_per_k_;
  double ice_j_per_g_;
  double before_j_;  // drink, surface water and heat; ice and vessel are counted from where they start
};

}  // namespace gill::model

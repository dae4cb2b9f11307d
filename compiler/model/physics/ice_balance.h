#pragma once

#include "model/physics/components.h"

/// Ice, drink and vessel brought to one energy balance.
namespace gill::model {

/// The ice a drink meets, and what else gives or takes heat.
struct IceBath {
  double ice_g = 0;
  double ice_c = 0;            ///< at most 0
  double surface_water_g = 0;  ///< water at 0 °C clinging to the ice: joins the drink
  double vessel_j_per_k = 0;   ///< heat capacity of tin or glass
  double vessel_c = 20;        ///< its temperature before
  double heat_j = 0;           ///< heat from the room, hands and work
};

struct IceBalance {
  double melt_g = 0;  ///< ice turned to water; negative where water freezes on. Surface water is not counted
  double end_c = 0;
  bool all_melted = false;  ///< no ice is left (also when there was none)
};

/// Ice and drink stirred until nothing changes: the drink ends at the freezing point of what it has become,
/// or, when all ice melts, wherever the balance leaves it. All that is left of the ice has the drink's
/// temperature.
IceBalance equilibrium(const Masses& drink, double start_c, const IceBath& bath) noexcept;

/// Temperature of drink, rest of the ice and vessel after `melt_g` of ice has melted, by the energy balance.
/// Not held to the freezing point: more melt than the equilibrium's gives a figure below it. `melt_g` is
/// clamped to the ice.
double temperature_after_melt_c(const Masses& drink, double start_c, const IceBath& bath,
                                double melt_g) noexcept;

}  // namespace gill::model

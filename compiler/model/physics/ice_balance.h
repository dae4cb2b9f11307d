#pragma once

#include "model/physics/components.h"

/// What a drink meets on ice, and what comes of it.
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

}  // namespace gill::model

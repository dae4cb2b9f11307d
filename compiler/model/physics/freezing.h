#pragma once

#include "model/physics/components.h"

/// Where a drink begins to freeze.
namespace gill::model {

/// Freezing point in °C: minus the sum of each solute's own depression, taken at the mass fraction
/// solute/(solute + water). Ethanol, sucrose and acids by CRC Handbook of Chemistry and Physics, 102nd
/// edition, CRC Press, "Concentrative properties of aqueous solutions", in straight lines between its rows.
///
/// Beyond the rows, without a jump: ethanol above 68 % by mass in a straight line to pure ethanol's −114.1 °C
/// (no table, an order of magnitude only); sucrose above 42 % by the Norrish water activity, constant above
/// 80 %; acids and salt by their last slope. `other` counts as sugar; fat, protein and undissolved solids
/// count nothing. Sugar is reckoned as sucrose: one all of glucose and fructose (honey) depresses about 1.85
/// times as much. Error in a drink about 0.3 K.
double freezing_point_c(const Masses& masses) noexcept;

/// The same with `water_g` of water in place of its own: for solving how much melts.
double freezing_point_c(const Masses& masses, double water_g) noexcept;

}  // namespace gill::model

#pragma once

#include "model/lowering.h"

/// The glass that a drink is made for: how far it is filled, and the heat that it brings along.
namespace gill::model {

/// How warm the drink's glass is when the drink comes: the freezer's, the fridge's or the room's temperature,
/// or warmed.
units::Celsius glass_temperature(const analysis::Drink& drink, const analysis::Specs& specs);

/// Heat capacity in J/K of the wall and bottom that so much drink touches: stem, foot and the dry rim stay as
/// they are in the time in which a drink is handed over.
double glass_heat_capacity_j_per_k(const analysis::Glass& glass, units::Millilitres filled);

/// Sets what the program and the lowering know of the glass, where the drink names one.
void choose_glass(Lowering& job, const analysis::Specs& specs);

}  // namespace gill::model

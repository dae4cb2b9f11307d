#pragma once
#include "model/program_builder.h"

/// The drink as it comes out of its program, and how it stands in the glass.
namespace gill::model {

/// The figures of so much liquid, its volume and mass times `scale`.
Figures figures_of(const Masses& masses, double temperature_c, double scale);

/// What stands in the glass as the drink is served. Of the facts it asks only what the drink is served on and
/// for how many, and whether they fill cups from a bowl.
InGlass in_glass_of(const DrinkFacts& drink, const analysis::Specs& specs, const BuiltProgram& built,
                    const Outcome& outcome);

}  // namespace gill::model

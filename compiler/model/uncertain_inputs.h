#pragma once
#include "model/measuring.h"
#include "model/program_builder.h"

namespace gill::model {

/// The inputs of a program that are uncertain, each with the move that shows its effect: amounts by their own
/// ± or their unit's, ingredients by their strength, sugar and acid.
std::vector<BuiltProgram::Uncertain> uncertain_inputs(const Program& program, const analysis::Recipe& recipe,
                                                      const Measuring& measuring,
                                                      const std::vector<StockFacts>& stock,
                                                      const analysis::Specs& specs,
                                                      const units::UnitTable& units);

}  // namespace gill::model

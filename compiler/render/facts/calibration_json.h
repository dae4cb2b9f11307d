#pragma once
#include <string>

#include "model/calibration.h"
#include "render/book/book.h"

namespace gill::render {

/// A calibration for programs: what was found, the lines for the house, every measurement beside the model,
/// what was left out and what to measure next. `table` is the file whose rows some of the measurements are.
std::string calibration_json(const model::Calibration& calibration, const BookInput& input,
                             const std::string& table);

}  // namespace gill::render

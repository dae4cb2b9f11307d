#pragma once
#include <string>

namespace gill::importer {

/// Takes bullets and the numbers that count lines off the start of a line: `• 60 ml gin`, `2) Stir`, `[ ]
/// ice`.
void strip_list_marks(std::string& text);

/// `1. Steep the oats`, `Step 2: strain`: the step without what counts it.
std::string without_step_number(std::string step);

}  // namespace gill::importer

#pragma once
#include <string>

#include "render/facts/facts_json.h"

namespace gill::render {

/// The computation of one drink, prep or ingredient step by step: every figure that goes in with where it
/// comes from, the method used at every step, and what makes the result uncertain. `input.only` names it;
/// empty when nothing has that name. To be followed on paper.
std::string explanation_text(const FactsInput& input);

}  // namespace gill::render

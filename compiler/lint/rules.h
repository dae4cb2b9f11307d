#pragma once
#include "lint/lint.h"

/// One function for each rule of diagnostics/registry.def and kind of declaration that it checks; each is
/// defined in the file of its name in rules/.
namespace gill::lint {

#define CHECKS_drink(identifier) void identifier(const DrinkCase& drink, Reporter& report);
#define CHECKS_prep(identifier) void identifier(const PrepCase& prep, Reporter& report);
#define CHECKS_drink_and_prep(identifier) CHECKS_drink(identifier) CHECKS_prep(identifier)
#define CHECKS_house(identifier) void identifier(const HouseCase& house);
#define STAGE_RULE(identifier, name, severity, group, stages, summary)
#define LINT_RULE(identifier, name, severity, group, checks, amounts, summary) CHECKS_##checks(identifier)
#include "diagnostics/registry.def"
#undef CHECKS_drink
#undef CHECKS_prep
#undef CHECKS_drink_and_prep
#undef CHECKS_house

}  // namespace gill::lint

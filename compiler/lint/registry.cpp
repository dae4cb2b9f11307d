#include "lint/rules.h"

namespace gill::lint {

const std::vector<RuleCheck>& all_checks() {
#define CHECKS_drink(identifier) .drink = identifier
#define CHECKS_prep(identifier) .prep = identifier
#define CHECKS_drink_and_prep(identifier) .drink = identifier, .prep = identifier
#define CHECKS_house(identifier) .house = identifier
#define NEEDS_valid_amounts true
#define NEEDS_any_amounts false
  static const std::vector<RuleCheck> checks = {
#define STAGE_RULE(identifier, name, severity, group, stages, summary)
#define LINT_RULE(identifier, name, severity, group, checks, amounts, summary) \
  {.rule = diagnostics::Rule::identifier,                                      \
   CHECKS_##checks(identifier),                                                \
   .needs_valid_amounts = NEEDS_##amounts},
#include "diagnostics/registry.def"
  };
  return checks;
}

}  // namespace gill::lint

#include "diagnostics/rule_group.h"

namespace gill::diagnostics {

std::string_view name_of(RuleGroup group) {
  switch (group) {
    case RuleGroup::language:
      return "language";
    case RuleGroup::units:
      return "units";
    case RuleGroup::build:
      return "build";
    case RuleGroup::balance:
      return "balance";
    case RuleGroup::stock:
      return "stock";
    case RuleGroup::safety:
      return "safety";
    case RuleGroup::housekeeping:
      return "housekeeping";
  }
  return "";
}

}  // namespace gill::diagnostics

#pragma once
#include <array>
#include <string_view>

#include "diagnostics/diagnostic.h"

namespace gill::diagnostics {

/// Every group, in the registry's order.
inline constexpr std::array all_groups = {RuleGroup::language,    RuleGroup::units, RuleGroup::build,
                                          RuleGroup::balance,     RuleGroup::stock, RuleGroup::safety,
                                          RuleGroup::housekeeping};

/// `language`, `units` … as documents and SARIF tags name it.
std::string_view name_of(RuleGroup group);

}  // namespace gill::diagnostics

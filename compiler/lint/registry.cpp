#include "lint/rules.h"

namespace gill::lint {

using diagnostics::Rule;

const std::vector<RuleCheck>& all_checks() {
  static const std::vector<RuleCheck> checks = {
      // build
      {Rule::fizz_shaken, fizz_shaken},
      {Rule::no_chill, no_chill},
      {Rule::no_strain, no_strain},
      {Rule::fat_without_emulsifier, fat_without_emulsifier},
      {Rule::glass_overflows, glass_overflows},
      {Rule::no_glass, no_glass, nullptr, false},
      {Rule::no_time, no_time, no_time_in_prep, false},
      {Rule::unknown_garnish, unknown_garnish, nullptr, false},
      // balance
      {Rule::out_of_family, out_of_family},
      {Rule::unmet_expectation, unmet_expectation, unmet_expectation_of_prep, false},
      // safety
      {Rule::raw_egg, raw_egg, raw_egg_in_prep, false},
      {Rule::alcohol_in_alcohol_free, alcohol_in_alcohol_free, nullptr, false},
  };
  return checks;
}

}  // namespace gill::lint

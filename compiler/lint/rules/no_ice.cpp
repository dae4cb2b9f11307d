#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void no_ice(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.family.valid() || drink.facts.entries.empty()) return;
  const auto& family = drink.house.specs[drink.drink.family];
  // Families that are built stand on ice, the hot ones aside.
  if (family.method != analysis::Verb::build || drink.facts.is_hot) return;
  if (drink.facts.in_glass.ice_g > 0 || drink.facts.served.volume_ml <= 0) return;
  if (drink.facts.shared) return;
  // A strained drink without an `ice` line gets none: that is easily forgotten.
  report.add(
      drink.name_span(),
      fmt::format("drinks of the family `{}` stand on ice, and none is in the glass", family.head.name),
      "Add `ice cubed`, say, or choose another family.");
}

}  // namespace gill::lint

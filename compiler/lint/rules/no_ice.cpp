#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void no_ice(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.family.valid() || drink.facts.entries.empty()) return;
  const auto& family = drink.house.specs[drink.drink.family];
  // A family says on which ice its drinks stand; one that is built stands on some.
  // A hot drink of such a family (or one that should be) wants none; what is blended brings its ice along.
  bool on_ice = family.ice || family.method == analysis::Verb::build;
  if (!on_ice || drink.facts.is_hot || is_hot_drink_gone_cold(drink)) return;
  if (drink.facts.served_on.kind == model::ServedIce::Kind::blended) return;
  if (drink.facts.in_glass.ice_g > 0 || drink.facts.served.volume_ml <= 0) return;
  if (drink.facts.shared) return;
  // A strained drink without an `ice` line gets none: that is easily forgotten.
  report.add(
      drink.name_span(),
      fmt::format("drinks of the family `{}` stand on ice, and none is in the glass", family.head.name),
      fmt::format("Add `ice {}`, or choose another family.",
                  family.ice ? drink.house.specs[family.ice->ice].head.name : "cubed"));
}

}  // namespace gill::lint

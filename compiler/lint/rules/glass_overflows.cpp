#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void glass_overflows(const DrinkCase& drink, Reporter& report) {
  if (!drink.facts.overflows || stays_in_vessel(drink)) return;
  const auto& glass = drink.house.specs[drink.facts.drunk_from];
  const auto& in_glass = drink.facts.in_glass;
  std::string parts = fmt::format("{:.0f} ml of drink", in_glass.liquid_ml);
  if (in_glass.ice_below_ml > 0.5)
    parts += fmt::format(", {:.0f} ml of ice under the surface", in_glass.ice_below_ml);
  if (in_glass.foam_ml > 0.5) parts += fmt::format(", {:.0f} ml of foam", in_glass.foam_ml);
  report.add(drink.drink.glass_span.file_id.valid() ? drink.drink.glass_span : drink.name_span(),
             fmt::format("the drink comes to {:.0f} ml ({}), and the {} holds {:g} ml", in_glass.level_ml,
                         parts, glass.head.name, glass.holds->number()),
             "Use a larger glass, less ice, or a smaller build.");
}

}  // namespace gill::lint

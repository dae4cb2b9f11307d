#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// A scoop of ice that nobody measured can as well be half of what is reckoned with. Common practice, no
// source.
constexpr double min_scoop_share = 0.5;

// So little over the brim (share of what the glass holds) is within what jiggers and glasses are good for.
// Common practice, no source.
constexpr double petty_share = 0.02;

/// Where the drink comes to at least, ml: within what its amounts are good for.
double lowest_level(const DrinkCase& drink) {
  const auto& in_glass = drink.facts.in_glass;
  double spare_ice = drink.facts.served_on.is_measured ? 0 : (1 - min_scoop_share) * in_glass.ice_below_ml;
  return in_glass.level_ml - spare_ice - drink.facts.written_tolerance.volume_ml;
}

}  // namespace

void glass_overflows(const DrinkCase& drink, Reporter& report) {
  if (!drink.facts.glass_fill_percent || *drink.facts.glass_fill_percent <= 100 || stays_in_vessel(drink))
    return;
  const auto& glass = drink.house.specs[drink.facts.drunk_from];
  const auto& in_glass = drink.facts.in_glass;
  if (lowest_level(drink) <= (1 + petty_share) * glass.holds->number()) return;
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

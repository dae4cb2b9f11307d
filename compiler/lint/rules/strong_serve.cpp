#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void strong_serve(const DrinkCase& drink, Reporter& report) {
  const auto& house = drink.house.specs.house;
  if (drink.facts.ethanol_g <= house.strongest_g) return;
  auto units = drink.facts.alcohol_units.find(house.alcohol_unit);
  std::string in_units = units == drink.facts.alcohol_units.end()
                             ? std::string()
                             : fmt::format(", {:.1f} {} units", units->second, house.alcohol_unit);
  report.add(drink.name_span(),
             fmt::format("a serve holds {:.0f} g of alcohol{}, and the house's line is {:g} g",
                         drink.facts.ethanol_g, in_units, house.strongest_g),
             "Say so on the menu, limit it to one a guest, or pour less. Licence terms and serving law "
             "differ by place: they and a trained person "
             "decide (the line is the house's own `strongest`).");
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

bool is_bare_copper(const std::string& material) {
  if (material.find("copper") == std::string::npos) return false;
  for (std::string_view lining : {"lined", "tin", "nickel", "steel", "silver"})
    if (material.find(lining) != std::string::npos && material.find("unlined") == std::string::npos)
      return false;
  return true;
}

}  // namespace

void bare_copper(const DrinkCase& drink, Reporter& report) {
  for (auto id : {drink.drink.glass, drink.drink.cup}) {
    if (!id.valid() || !is_bare_copper(drink.house.specs[id].material)) continue;
    double acid = drink.facts.served.acid_g_per_100ml;
    report.add(drink.drink.glass_span.file_id.valid() ? drink.drink.glass_span : drink.name_span(),
               acid > 0.05 ? fmt::format("{:.2g} g/100 ml of acid stand in bare copper", acid)
                           : std::string("a drink stands in bare copper"),
               "Acid dissolves copper, and copper makes people ill: food below pH 6 (juice, wine, vinegar, "
               "ginger beer) is kept from it (FDA Food Code "
               "2022, 4-101.14). Use a lined mug (`glass lined copper mug`). Your local health code and a "
               "trained person decide.");
    return;
  }
}

}  // namespace gill::lint

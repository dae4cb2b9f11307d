#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "accuracy/table.h"
#include "model/physics/energy.h"
#include "unit/driver/house_fixture.h"

// USDA National Nutrient Database for Standard Reference, release 27 (2014), US Department of Agriculture. It
// reckons ethanol at 6.93 kcal a gram where the European Regulation has 7: 1 % is theirs.

using namespace gill;
using namespace gill::accuracy;

TEST_CASE("spirits have the energy of the USDA table", "[accuracy]") {
  struct Row {
    double percent, kcal_per_100_g;
  };
  Table table({"usda_spirit_energy", "National Nutrient Database, release 27, US Dept of Agriculture",
               "energy of 100 g of spirit", "kcal"},
              within_percent(1.2));
  for (const auto& [percent, kcal] : {Row{40, 231}, Row{43, 250}, Row{45, 263}, Row{47, 275}, Row{50, 295}}) {
    const auto house = test::compile(
        fmt::format("ingredient spirit\n  kind spirit\n  strength {} % abv\n  allergen none\n", percent));
    table.add(fmt::format("spirit of {} %", percent), kcal,
              model::energy(test::stock(*house, "spirit").composition.of_grams(100)).kcal);
  }
  table.check();
}

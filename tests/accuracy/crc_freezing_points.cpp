#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "accuracy/table.h"
#include "model/physics/freezing.h"
#include "unit/physics/published_table.h"

using namespace gill;
using namespace gill::accuracy;
using model::Component;
using model::testing::PublishedTable;

namespace {

// CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press, "Concentrative properties of aqueous
// solutions".
constexpr std::string_view crc_handbook = "CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press";

double freezing_point_c(Component solute, double mass_percent) {
  model::Masses masses;
  masses[solute] = mass_percent;
  masses[Component::water] = 100 - mass_percent;
  return model::freezing_point_c(masses);
}

Component component_of(const std::string& solute) {
  if (solute == "sucrose") return Component::sugar;
  for (const Component component : model::components)
    if (solute == model::component_name(component)) return component;
  FAIL("no component is called " << solute);
  return Component::water;
}

}  // namespace

TEST_CASE("spirits freeze where the CRC table says", "[accuracy]") {
  const PublishedTable published("ethanol_freezing_and_heat.csv");
  Table table({"crc_freezing_points-ethanol", crc_handbook, "freezing point of ethanol in water", "C"},
              within(0.05));
  for (std::size_t row = 0; row < published.size(); ++row) {
    const double percent = published.number(row, "mass_percent");
    table.add(fmt::format("{:4.1f} % ethanol by mass", percent), published.number(row, "freezing_c"),
              freezing_point_c(Component::ethanol, percent));
  }
  table.check();
}

TEST_CASE("sugar and acids freeze where the CRC table says", "[accuracy]") {
  const PublishedTable published("solute_freezing.csv");
  Table table(
      {"crc_freezing_points-solutes", crc_handbook, "freezing point of sugar and acids in water", "C"},
      within(0.05));
  for (std::size_t row = 0; row < published.size(); ++row) {
    const std::string& solute = published.text(row, "solute");
    const double percent = published.number(row, "mass_percent");
    table.add(fmt::format("{:4.1f} % {} by mass", percent, solute), -published.number(row, "depression_k"),
              freezing_point_c(component_of(solute), percent));
  }
  table.check();
}

TEST_CASE("compared with an independent fit, spirits' freezing points part by less than half a degree",
          "[accuracy]") {
  // A comparison of two sources; what holds the model is the CRC table above. Its polynomial lies within 0.2
  // K of the CRC table, 0.4 K at 15 % by mass.
  const PublishedTable published("ethanol_freezing_and_heat.csv");
  Table table({"crc_freezing_points-refrigeration",
               "Properties of secondary working fluids, Int. Inst. of Refrigeration",
               "freezing point of ethanol in water", "C"},
              within(0.45));
  for (std::size_t row = 0; row < published.size(); ++row) {
    if (!published.has(row, "freezing_c_fit")) continue;
    const double percent = published.number(row, "mass_percent");
    table.add(fmt::format("{:4.1f} % ethanol by mass", percent), published.number(row, "freezing_c_fit"),
              freezing_point_c(Component::ethanol, percent));
  }
  table.check();
}

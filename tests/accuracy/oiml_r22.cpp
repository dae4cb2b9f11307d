#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "accuracy/table.h"
#include "model/physics/ethanol_water.h"
#include "unit/physics/published_table.h"

using namespace gill;
using namespace gill::accuracy;
using model::testing::PublishedTable;
namespace ethanol_water = model::ethanol_water;

// Source: OIML R 22 (1975), International alcoholometric tables, Organisation Internationale de Métrologie
// Légale; its formula was evaluated in another program.
constexpr std::string_view oiml_r22 = "OIML R 22, International alcoholometric tables";

TEST_CASE("the density of ethanol and water is that of OIML R 22", "[accuracy]") {
  const PublishedTable formula("ethanol_water_formula.csv");
  Table table({"oiml_r22-density", oiml_r22, "density of ethanol and water, -20 to 40 C", "kg/m3"},
              within(0.001));
  for (std::size_t row = 0; row < formula.size(); ++row) {
    const double percent = formula.number(row, "mass_percent"), celsius = formula.number(row, "celsius");
    table.add(fmt::format("{:7.4f} % by mass at {:3.0f} °C", percent, celsius),
              formula.number(row, "density_kg_per_m3"),
              1e3 * ethanol_water::density_g_per_ml(percent / 100, celsius));
  }
  table.check();
}

TEST_CASE("the strength of a mixture is that of OIML R 22", "[accuracy]") {
  const PublishedTable formula("ethanol_water_formula.csv");
  Table table({"oiml_r22-strength", oiml_r22, "strength from per cent by mass", "% vol"}, within(0.0002));
  for (std::size_t row = 0; row < formula.size(); ++row) {
    if (formula.number(row, "celsius") != 20) continue;
    const double percent = formula.number(row, "mass_percent");
    table.add(fmt::format("{:7.4f} % by mass", percent), formula.number(row, "strength_percent"),
              100 * ethanol_water::strength_from_mass_fraction(percent / 100));
  }
  table.check();
}

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

#include "accuracy/table.h"
#include "model/physics/ethanol_water.h"
#include "unit/physics/published_table.h"

// Tables of ethanol and water that do not rest on OIML R 22. The old ones count a millilitre as 1.000028 cm3
// and so stand 0.03 kg/m3 high; the CRC table has four decimals.

using namespace gill;
using namespace gill::accuracy;
using model::testing::PublishedTable;
namespace ethanol_water = model::ethanol_water;

namespace {

/// Fills a table with the rows of one source in tests/data/ethanol_water_published.csv.
void add_rows_of(Table& table, std::string_view wanted) {
  const PublishedTable published("ethanol_water_published.csv");
  for (std::size_t row = 0; row < published.size(); ++row) {
    if (published.text(row, "source") != wanted) continue;
    const double percent = published.number(row, "mass_percent"), celsius = published.number(row, "celsius");
    table.add(fmt::format("{:5.1f} % by mass at {:4.1f} °C", percent, celsius),
              published.number(row, "density_kg_per_m3"),
              1e3 * ethanol_water::density_g_per_ml(percent / 100, celsius));
  }
}

}  // namespace

TEST_CASE("compared with Perry's table, weak spirits weigh the same but for a tenth of a gram in a litre",
          "[accuracy]") {
  // A comparison: no source says how far the two tables part. The limit is the difference found and a little,
  // so that it is told when it grows; what holds the model is OIML R 22 (oiml_r22.cpp).
  Table table(
      {"published_alcohol_tables-perry", "Perry's Chemical Engineers' Handbook, 7th edition, McGraw-Hill",
       "density, 0 to 12 % by mass, 20 C", "kg/m3"},
      within(0.12));
  add_rows_of(table, "Perry 7th ed.");
  table.check();
}

TEST_CASE(
    "compared with the National Bureau of Standards' table, spirits part by a tenth of a gram in a litre",
    "[accuracy]") {
  // A comparison: no source says how far the two tables part. The limit is the difference found and a little,
  // so that it is told when it grows; what holds the model is OIML R 22 (oiml_r22.cpp).
  Table table({"published_alcohol_tables-nbs", "National Bureau of Standards / International Critical Tables",
               "density, 45 to 80 % by mass, 10 to 40 C", "kg/m3"},
              within(0.12));
  add_rows_of(table, "NBS");
  table.check();
}

TEST_CASE("compared with the CRC handbook's table, spirits part by a quarter of a gram in a litre",
          "[accuracy]") {
  // A comparison: no source says how far the two tables part. The limit is the difference found and a little,
  // so that it is told when it grows; what holds the model is OIML R 22 (oiml_r22.cpp).
  Table table(
      {"published_alcohol_tables-crc", "CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press",
       "density, 10 to 100 % by mass, 20 C", "kg/m3"},
      within(0.25));
  add_rows_of(table, "CRC 102nd ed.");
  table.check();
}

TEST_CASE("the pharmacopeia's alcoholometric table agrees", "[accuracy]") {
  // At 15.56 °C: per cent by volume, per cent by mass, density against water of that temperature.
  struct Row {
    double volume_percent, mass_percent, gravity;
  };
  constexpr std::string_view title = "United States Pharmacopeia, alcoholometric table";
  Table strength(
      {"published_alcohol_tables-usp-strength", title, "strength at 15.56 C from per cent by mass", "% vol"},
      within(0.01));
  Table gravity({"published_alcohol_tables-usp-gravity", title, "specific gravity at 15.56 C", "-"},
                within(6e-5));
  constexpr double celsius = 15.56;
  for (const auto& [volume_percent, mass_percent, expected] :
       {Row{10, 8.05, 0.9866}, Row{20, 16.27, 0.9759}, Row{30, 24.67, 0.9653}}) {
    const double p = mass_percent / 100, density = ethanol_water::density_g_per_ml(p, celsius);
    const std::string label = fmt::format("{:5.2f} % by mass", mass_percent);
    strength.add(label, volume_percent, 100 * p * density / ethanol_water::density_g_per_ml(1, celsius));
    gravity.add(label, expected, density / ethanol_water::density_g_per_ml(0, celsius));
  }
  strength.check();
  gravity.check();
}

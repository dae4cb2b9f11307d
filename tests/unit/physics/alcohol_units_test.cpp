#include <catch2/catch.hpp>

#include <algorithm>

#include "model/physics/alcohol_units.h"
#include "model/physics/ethanol_water.h"

using namespace gill::model;

namespace {

double units(const char* country, double ml, double percent) {
  const AlcoholUnit* unit = find_alcohol_unit(country);
  REQUIRE(unit != nullptr);
  return units_of(*unit, ml * percent / 100 * ethanol_water::ethanol_density_g_per_ml);
}

}  // namespace

TEST_CASE("UK units are those of the published guidance", "[physics]") {
  // UK low risk drinking guidance: a pint of 5.2 %, a single of 40 %, a bottle of 13 %.
  CHECK(units("GB", 568, 5.2) == Approx(2.95).margin(0.005));
  CHECK(units("UK", 25, 40) == Approx(1.0).epsilon(1e-12));
  CHECK(units("uk", 750, 13) == Approx(9.75).epsilon(1e-12));
  CHECK(units("GB", 175, 13) == Approx(2.275).epsilon(1e-12));
}

TEST_CASE("Australian, US and Canadian standard drinks are those of published guidance", "[physics]") {
  CHECK(units("AU", 285, 4.8) == Approx(1.1).margin(0.05));    // NHMRC: 285 ml at 4.8 % is 1.1
  CHECK(units("US", 44.36, 40) == Approx(1.0).margin(0.005));  // NIAAA: 1.5 fl oz at 40 %
  CHECK(units("US", 354.9, 5) == Approx(1.0).margin(0.005));   // NIAAA: 12 fl oz at 5 %
  for (const auto& [ml, percent] : {std::pair{341.0, 5.0}, {142.0, 12.0}, {43.0, 40.0}})  // CCSA
    CHECK(units("CA", ml, percent) == Approx(1.0).margin(0.015));
}

TEST_CASE("the table of check values comes out", "[physics]") {
  // Worked out separately with 0.789 g/ml.
  struct Row {
    double ml, percent, gb, us, au, ca, jp;
  };
  for (const Row& row :
       {Row{25, 40, 1.00, 0.56, 0.79, 0.59, 0.39}, Row{43, 40, 1.72, 0.97, 1.36, 1.01, 0.68},
        Row{341, 5, 1.71, 0.96, 1.35, 1.00, 0.67}, Row{355, 5, 1.77, 1.00, 1.40, 1.04, 0.70},
        Row{568, 5.2, 2.95, 1.66, 2.33, 1.73, 1.17}, Row{750, 13, 9.75, 5.49, 7.69, 5.72, 3.85}}) {
    CHECK(units("GB", row.ml, row.percent) == Approx(row.gb).margin(0.0065));
    CHECK(units("US", row.ml, row.percent) == Approx(row.us).margin(0.0065));
    CHECK(units("AU", row.ml, row.percent) == Approx(row.au).margin(0.0065));
    CHECK(units("CA", row.ml, row.percent) == Approx(row.ca).margin(0.0065));
    CHECK(units("JP", row.ml, row.percent) == Approx(row.jp).margin(0.0065));
  }
}

TEST_CASE("every known unit has a name, a size between 8 and 20 grams or so, and a source", "[physics]") {
  for (const AlcoholUnit& unit : alcohol_units()) {
    INFO(unit.country);
    CHECK(!unit.name.empty());
    CHECK(!unit.source.empty());
    CHECK(unit.ethanol_g > 7.8);
    CHECK(unit.ethanol_g < 20.1);
    CHECK(find_alcohol_unit(unit.country) == &unit);
  }
  CHECK(std::is_sorted(alcohol_units().begin(), alcohol_units().end(),
                       [](const AlcoholUnit& a, const AlcoholUnit& b) { return a.country < b.country; }));
}

TEST_CASE("a country whose sources differ has no unit", "[physics]") {
  CHECK(find_alcohol_unit("KR") == nullptr);
  CHECK(find_alcohol_unit("") == nullptr);
  CHECK(find_alcohol_unit("G") == nullptr);
}

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

#include "accuracy/table.h"
#include "unit/driver/house_fixture.h"

// Units of alcohol as public guidance works them out: each row is a drink of a house that counts in that
// country's unit.

using namespace gill;
using namespace gill::accuracy;

namespace {

struct Pour {
  double ml, percent, units;
};

void add_pours(Table& table, const std::string& country, std::initializer_list<Pour> pours) {
  for (const auto& [ml, percent, units] : pours) {
    const auto house =
        test::compile(fmt::format("house H\n  alcohol unit {}\n\ningredient sample\n  kind spirit\n  "
                                  "strength {} % abv\n  allergen none\n\n"
                                  "drink A\n  build\n  {} ml sample\n  ice none\n",
                                  country, percent, ml));
    CHECK_FALSE(house->has_errors());
    const auto& counted = test::drink(*house, "A").alcohol_units;
    INFO(country);
    REQUIRE(counted.count(country) == 1);
    table.add(fmt::format("{} ml of {} %", ml, percent), units, counted.at(country));
  }
}

}  // namespace

TEST_CASE("UK units are those of the low risk drinking guidelines", "[accuracy]") {
  Table table({"alcohol_units-uk", "Low risk drinking guidelines, UK Department of Health, 2016",
               "units of alcohol", "units"},
              within(0.005));
  add_pours(table, "UK", {{25, 40, 1.0}, {568, 5.2, 2.95}, {750, 13, 9.75}});
  table.check();
}

TEST_CASE("US standard drinks are those of the national institute", "[accuracy]") {
  // 12, 5 and 1.5 US fluid ounces, each called one standard drink of 14 g (0.6 fl oz).
  Table table({"alcohol_units-us", "Nat. Institute on Alcohol Abuse and Alcoholism, United States",
               "standard drinks", "drinks"},
              within(0.005));
  add_pours(table, "US", {{354.882, 5, 1.0}, {147.868, 12, 1.0}, {44.3603, 40, 1.0}});
  table.check();
}

TEST_CASE("Canadian standard drinks are those of the national centre", "[accuracy]") {
  // 341, 142 and 43 ml are rounded to the millilitre and the ounce: 1.5 % is theirs.
  Table table(
      {"alcohol_units-ca", "Canadian Centre on Substance Use and Addiction", "standard drinks", "drinks"},
      within(0.015));
  add_pours(table, "CA", {{341, 5, 1.0}, {142, 12, 1.0}, {43, 40, 1.0}});
  table.check();
}

TEST_CASE("Australian standard drinks are those of the national guidelines", "[accuracy]") {
  // Printed to a tenth of a drink.
  Table table({"alcohol_units-au", "Alcohol guidelines, Nat. Health and Medical Research Council, Australia",
               "standard drinks", "drinks"},
              within(0.05));
  add_pours(table, "AU", {{285, 4.8, 1.1}});
  table.check();
}

TEST_CASE("Japan counts twenty grams", "[accuracy]") {
  // Worked out separately with 0.789 g/ml, to two decimals.
  Table table(
      {"alcohol_units-jp", "Ministry of Health, Japan: 20 g; worked out separately", "units", "units"},
      within(0.005));
  add_pours(table, "JP", {{25, 40, 0.39}, {341, 5, 0.67}, {568, 5.2, 1.17}, {750, 13, 3.85}});
  table.check();
}

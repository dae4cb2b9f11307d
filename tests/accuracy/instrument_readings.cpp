#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <map>

#include "accuracy/table.h"
#include "model/physics/gas.h"
#include "model/physics/readings.h"
#include "unit/physics/published_table.h"

// What a refractometer shows, held against published indices of refraction and against the juice trade's own
// correction for acid.

using namespace gill;
using namespace gill::accuracy;
using model::Component;
using model::testing::PublishedTable;

TEST_CASE("refractive indices are those of the CRC tables", "[accuracy]") {
  const PublishedTable published("refractive_index.csv");
  constexpr std::string_view title = "CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press";
  // The handbook has four digits; sucrose and ethanol are read from tables, the rest is a rule.
  Table tables({"instrument_readings-tables", title, "refractive index of sugar, of ethanol in water", "-"},
               within(0.00015));
  Table rules({"instrument_readings-rules", title, "refractive index of acids, of other sugars", "-"},
              within(0.0006));
  const std::map<std::string, Component> components{
      {"sucrose", Component::sugar},      {"glucose", Component::sugar},
      {"fructose", Component::sugar},     {"lactose", Component::sugar},
      {"ethanol", Component::ethanol},    {"citric acid", Component::citric},
      {"lactic acid", Component::lactic}, {"acetic acid", Component::acetic}};
  for (std::size_t row = 0; row < published.size(); ++row) {
    const std::string& solute = published.text(row, "solute");
    const double percent = published.number(row, "mass_percent");
    const bool is_table = solute == "sucrose" || solute == "ethanol";
    // Acids and other sugars are compared as far as a prep holds them beside table sugar; of honey the
    // reading's own doubt speaks.
    if (!is_table && percent > 20) continue;
    model::Masses solution;
    solution[components.at(solute)] = percent;
    solution[Component::water] = 100 - percent;
    Table& table = is_table ? tables : rules;
    const auto got = model::refractive_index(solution);
    REQUIRE(got);
    table.add(fmt::format("{:2.0f} % {} by mass", percent, solute), published.number(row, "refractive_index"),
              *got);
  }
  tables.check();
  rules.check();
}

TEST_CASE("a juice's acid is read as less sugar than it weighs", "[accuracy]") {
  // The correction is what the reading lacks of all that is dissolved. The handbook's indices of citric acid,
  // which the program goes by, leave less to correct than the trade's table: the difference is inside the
  // reading's doubt.
  const PublishedTable published("acid_correction_of_brix.csv");
  Table table({"instrument_readings-acid", "Citrus Processing, appendix A, Springer",
               "brix added for the acid of a juice of 12 % solids", "brix"},
              within(0.45));
  for (std::size_t row = 0; row < published.size(); ++row) {
    const double acid = published.number(row, "acid_mass_percent"), solids = 12;
    model::Masses juice;
    juice[Component::citric] = acid;
    juice[Component::sugar] = solids - acid;
    juice[Component::water] = 100 - solids;
    const double reading = *model::refractometer_brix(juice);
    table.add(fmt::format("{:.1f} % of acid", acid), published.number(row, "added_brix"), solids - reading);
    CHECK(std::abs(solids - reading - published.number(row, "added_brix")) <
          model::refractometer_doubt_brix(juice) + 0.06);
  }
  table.check();
}

TEST_CASE("gas dissolves in wine as the Community's method has it", "[accuracy]") {
  Table table({"instrument_readings-gas", "Regulation (EEC) No 2676/90, chapter 37, European Communities",
               "carbon dioxide in wine at 20 C and one bar", "g/l"},
              within(0.03));
  for (double percent : {0.0, 5.0, 8.5, 11.0, 12.5, 15.0})
    for (double sugar : {0.0, 10.0, 50.0, 120.0}) {
      const double expected = 1.951 * (0.86 - 0.01 * percent) * (1 - 0.00144 * sugar);
      const double volumes = model::carbon_dioxide_solubility_volumes(
          {.celsius = 20, .strength = percent / 100, .sugar_g_per_l = sugar});
      table.add(fmt::format("{:4.1f} % vol, {:3.0f} g/l of sugar", percent, sugar), expected,
                volumes * model::carbon_dioxide_g_per_volume_litre / 1.01325);
    }
  table.check();
}

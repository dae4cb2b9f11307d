#include <catch2/catch.hpp>

#include <cmath>
#include <string>

#include "example_drinks.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/freezing.h"
#include "published_table.h"

using namespace gill::model;
using gill::model::testing::PublishedTable;

namespace {

Masses solution(Component solute, double mass_percent) {
  Masses masses;
  masses[solute] = mass_percent;
  masses[Component::water] = 100 - mass_percent;
  return masses;
}

}  // namespace

TEST_CASE("spirits freeze where the CRC table says", "[physics]") {
  const PublishedTable table("ethanol_freezing_and_heat.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double percent = table.number(row, "mass_percent");
    INFO(percent << " % by mass");
    CHECK(freezing_point_c(solution(Component::ethanol, percent)) ==
          Approx(table.number(row, "freezing_c")).margin(0.05));
  }
}

TEST_CASE("compared with an independent fit, spirits' freezing points part by less than half a degree",
          "[physics]") {
  // A comparison of two sources; what holds the model is the CRC table above. The fit lies within 0.2 K of
  // that table, 0.4 K at 15 % by mass.
  const PublishedTable table("ethanol_freezing_and_heat.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (!table.has(row, "freezing_c_fit")) continue;
    CHECK(freezing_point_c(solution(Component::ethanol, table.number(row, "mass_percent"))) ==
          Approx(table.number(row, "freezing_c_fit")).margin(0.45));
  }
}

TEST_CASE("sugar and acids freeze where the CRC table says", "[physics]") {
  const PublishedTable table("solute_freezing.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string& solute = table.text(row, "solute");
    const Component component = solute == "sucrose"       ? Component::sugar
                                : solute == "citric acid" ? Component::citric
                                : solute == "lactic acid" ? Component::lactic
                                : solute == "acetic acid" ? Component::acetic
                                                          : Component::phosphoric;
    const double percent = table.number(row, "mass_percent");
    INFO(solute << " " << percent << " % by mass");
    CHECK(-freezing_point_c(solution(component, percent)) ==
          Approx(table.number(row, "depression_k")).margin(0.05));
  }
}

TEST_CASE("brine freezes where an older edition of the table says", "[physics]") {
  // CRC Handbook of Chemistry and Physics, 56th edition, CRC Press, sodium chloride, as quoted in public.
  struct Row {
    double percent, celsius;
  };
  for (const auto& [percent, celsius] : {Row{1, -0.6}, Row{3, -1.8}, Row{5, -3.0}, Row{10, -6.6},
                                         Row{15, -10.9}, Row{20, -16.5}, Row{23, -20.7}})
    CHECK(freezing_point_c(solution(Component::salt, percent)) == Approx(celsius).margin(0.06));
}

TEST_CASE("syrups beyond the table follow the Norrish activity of water", "[physics]") {
  // ln a = ln x_water − 6.47 x_sucrose² (constant from memory), a turned into a freezing point by the heat of
  // fusion 6007 J/mol and its change 37.9 J/(mol K), scaled to the table's last row.
  const auto log_activity = [](double depression) {
    const double t0 = 273.15, r = 8.314462618, fusion = 6007, change = 37.9;
    return -((fusion - change * t0) / r * (1 / (t0 - depression) - 1 / t0) +
             change / r * std::log(t0 / (t0 - depression)));
  };
  const auto norrish = [&](double w) {
    const double sucrose = w / 342.30, water = (1 - w) / 18.0153, x = sucrose / (sucrose + water);
    double low = 0, high = 120;
    for (int i = 0; i < 100; ++i) {
      const double middle = 0.5 * (low + high);
      (log_activity(middle) > std::log(1 - x) - 6.47 * x * x ? low : high) = middle;
    }
    return low;
  };
  const double scale = 4.93 / norrish(0.42);
  CHECK(scale == Approx(1.0).margin(0.04));
  for (int percent = 42; percent <= 80; percent += 2)
    CHECK(-freezing_point_c(solution(Component::sugar, percent)) ==
          Approx(scale * norrish(percent / 100.0)).margin(0.01));
}

TEST_CASE("depressions of ethanol and sugar add", "[physics]") {
  // Worked example by adding and by multiplying water activities: 20 g ethanol, 80 g water, 8 g sucrose:
  // −11.47, −11.48.
  Masses drink;
  drink[Component::ethanol] = 20;
  drink[Component::water] = 80;
  drink[Component::sugar] = 8;
  CHECK(freezing_point_c(drink) == Approx(-11.475).margin(0.02));
}

TEST_CASE("other acids lower the freezing point by their molar mass", "[physics]") {
  const double citric = freezing_point_c(solution(Component::citric, 5));
  CHECK(freezing_point_c(solution(Component::malic, 5)) / citric == Approx(1.43).margin(0.03));
  CHECK(freezing_point_c(solution(Component::tartaric, 5)) / citric == Approx(1.28).margin(0.03));
  CHECK(freezing_point_c(solution(Component::ascorbic, 5)) / citric == Approx(1.09).margin(0.03));
}

TEST_CASE("water freezes at 0 °C, and so does what dissolves nothing", "[physics]") {
  CHECK(freezing_point_c(only(Component::water, 10)) == 0);
  CHECK(freezing_point_c(Masses{}) == 0);
  Masses cream = only(Component::water, 60);
  cream[Component::fat] = 35;
  cream[Component::solids] = 5;
  CHECK(freezing_point_c(cream) == 0);
}

TEST_CASE("gas in soda water lowers its freezing point by a quarter of a kelvin", "[physics]") {
  // 1.86 K for a mole in a kilogram of water.
  Masses soda = only(Component::water, 1000);
  soda[Component::carbon_dioxide] = 6;
  CHECK(freezing_point_c(soda) == Approx(-0.25).margin(0.005));
}

TEST_CASE("more of anything dissolved freezes lower, without jumps, to the end", "[physics]") {
  for (const Component solute :
       {Component::ethanol, Component::sugar, Component::citric, Component::malic, Component::lactic,
        Component::acetic, Component::phosphoric, Component::salt, Component::other}) {
    double before = 0;
    for (int i = 1; i <= 1000; ++i) {
      const double after = freezing_point_c(solution(solute, 0.1 * i));
      INFO(component_name(solute) << " " << 0.1 * i);
      CHECK(after <= before);
      CHECK(before - after < 0.5);
      before = after;
    }
  }
  CHECK(freezing_point_c(only(Component::ethanol, 5)) == Approx(-114.1).margin(0.01));
}

#include <catch2/catch.hpp>

#include "example_drinks.h"
#include "model/physics/heat.h"
#include "model/physics/mixture_heat.h"
#include "published_table.h"

using namespace gill::model;
using gill::model::testing::PublishedTable;

TEST_CASE("heat capacity and heat of mixing meet the published rows", "[physics]") {
  const PublishedTable table("ethanol_freezing_and_heat.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double percent = table.number(row, "mass_percent");
    Masses masses;
    masses[Component::ethanol] = percent;
    masses[Component::water] = 100 - percent;
    INFO(percent << " % by mass");
    CHECK(heat_of_mixing_j(percent, 100 - percent) / 100 ==
          Approx(table.number(row, "mixing_j_per_g")).margin(0.006));
    if (!table.has(row, "cp_0_c")) continue;
    CHECK(liquid_heat_capacity_j_per_k(masses, 0) / 100 == Approx(table.number(row, "cp_0_c")).margin(0.012));
    CHECK(liquid_heat_capacity_j_per_k(masses, 20) / 100 ==
          Approx(table.number(row, "cp_20_c")).margin(0.012));
  }
}

TEST_CASE("heat of mixing is that of the literature in J a mole", "[physics]") {
  // The 1975 fit evaluated separately: −768, −808, −463 J/mol at x = 0.10, 0.16, 0.50; other measurements
  // near 0.16 give about −780 (from memory).
  struct Row {
    double x, joules;
  };
  for (const auto& [x, joules] : {Row{0.10, -768}, Row{0.16, -808}, Row{0.50, -463}})
    CHECK(heat_of_mixing_j(x * 46.068, (1 - x) * 18.0153) == Approx(joules).margin(0.6));
  CHECK(heat_of_mixing_j(0.16 * 46.068, 0.84 * 18.0153) == Approx(-780).epsilon(0.04));
  CHECK(heat_of_mixing_j(0, 10) == 0);
  CHECK(heat_of_mixing_j(10, 0) == 0);
}

TEST_CASE("pure ethanol takes the heat the handbook gives it", "[physics]") {
  // Handbook: 112.4 J/(mol K) at 25 °C, that is 2.44 J/(g K).
  CHECK(liquid_heat_capacity_j_per_k(only(Component::ethanol, 1), 25) == Approx(2.44).epsilon(0.02));
  CHECK(liquid_heat_capacity_j_per_k(only(Component::ethanol, 1), 0) == Approx(2.27).epsilon(0.001));
}

TEST_CASE("water gives off the heat between room and ice that handbooks have", "[physics]") {
  CHECK(liquid_enthalpy_j(only(Component::water, 1), 25) == Approx(0).margin(1e-9));
  CHECK(liquid_enthalpy_j(only(Component::water, 1), 0) ==
        Approx(water_at_0_c_enthalpy_j_per_g).margin(0.01));
  CHECK(water_at_0_c_enthalpy_j_per_g - ice_enthalpy_j_per_g(0) == Approx(333.55));
  CHECK(ice_enthalpy_j_per_g(-10) == Approx(-438.38 - 20.9));
  CHECK(ice_enthalpy_j_per_g(5) == ice_enthalpy_j_per_g(0));
}

TEST_CASE("heat capacity is the slope of enthalpy, in and beyond the table", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 200; ++i) {
    const Masses drink = testing::any_drink(draws);
    const double t = draws.between(-40, 90);
    const double h = 1e-3;
    const double slope = (liquid_enthalpy_j(drink, t + h) - liquid_enthalpy_j(drink, t - h)) / (2 * h);
    CHECK(liquid_heat_capacity_j_per_k(drink, t) == Approx(slope).epsilon(1e-5));
  }
}

TEST_CASE("temperature comes back from enthalpy", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    const Masses drink = testing::any_drink(draws);
    const double t = draws.between(-60, 100);
    CHECK(temperature_from_enthalpy_c(drink, liquid_enthalpy_j(drink, t)) == Approx(t).margin(1e-7));
  }
  CHECK(temperature_from_enthalpy_c(Masses{}, 100) == 0);
}

/// Of two liquids poured together, nothing lost.
double mixed_temperature_c(const Masses& first, double first_c, const Masses& second, double second_c) {
  return temperature_from_enthalpy_c(first + second,
                                     liquid_enthalpy_j(first, first_c) + liquid_enthalpy_j(second, second_c));
}

TEST_CASE("liquids poured together keep their heat", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 200; ++i) {
    const Masses first = testing::any_drink(draws), second = testing::any_drink(draws);
    const double first_c = draws.between(-15, 80), second_c = draws.between(-15, 80);
    const double mixed_c = mixed_temperature_c(first, first_c, second, second_c);
    CHECK(liquid_enthalpy_j(first + second, mixed_c) ==
          Approx(liquid_enthalpy_j(first, first_c) + liquid_enthalpy_j(second, second_c)).epsilon(1e-9));
  }
}

TEST_CASE("water of two temperatures meets half way, water and ethanol warm each other", "[physics]") {
  CHECK(mixed_temperature_c(only(Component::water, 50), 0, only(Component::water, 50), 20) ==
        Approx(10).margin(0.05));
  // Equal masses at 20 °C: 26.6 J a gram set free, 3.7 J/(g K): about 7 K, as every school experiment shows.
  CHECK(mixed_temperature_c(only(Component::water, 50), 20, only(Component::ethanol, 50), 20) ==
        Approx(27).margin(1.5));
}

TEST_CASE("enthalpy has no jumps over temperature and strength", "[physics]") {
  const Masses drink = testing::hundred_ml(0.3, 10);
  for (const double t : {-20.0, -10.0, 0.0, 10.0, 20.0, 25.0})
    CHECK(liquid_enthalpy_j(drink, t + 1e-7) == Approx(liquid_enthalpy_j(drink, t - 1e-7)).margin(1e-3));
  double before = liquid_enthalpy_j(only(Component::water, 100), 5);
  for (int i = 1; i <= 1000; ++i) {
    Masses masses;
    masses[Component::ethanol] = 0.1 * i;
    masses[Component::water] = 100 - 0.1 * i;
    const double after = liquid_enthalpy_j(masses, 5);
    CHECK(std::abs(after - before) < 60);
    before = after;
  }
}

TEST_CASE("half a gram of a drink takes as much heat a gram as a kilogram of it", "[physics]") {
  Masses drink;
  drink[Component::ethanol] = 0.2;
  drink[Component::water] = 0.25;
  drink[Component::sugar] = 0.05;
  const MixtureHeat little(drink), much(drink * 2000);
  for (double celsius : {-10.0, 0.0, 20.0, 60.0}) {
    INFO(celsius);
    CHECK(2000 * little.heat_capacity_j_per_k(celsius) == Approx(much.heat_capacity_j_per_k(celsius)));
    CHECK(2000 * little.enthalpy_j(celsius) == Approx(much.enthalpy_j(celsius)));
  }
}

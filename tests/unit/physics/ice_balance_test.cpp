#include <catch2/catch.hpp>

#include "example_drinks.h"
#include "model/physics/freezing.h"
#include "model/physics/heat.h"
#include "model/physics/volume.h"
#include "plain_balance.h"
#include "published_table.h"

using namespace gill::model;
using gill::model::testing::PublishedTable;

namespace {

Masses with_water(Masses drink, double grams) {
  drink[Component::water] += grams;
  return drink;
}

// Heat in drink, ice and vessel.
double before_j(const Masses& drink, double start_c, const IceBath& bath) {
  return liquid_enthalpy_j(drink, start_c) + bath.ice_g * ice_enthalpy_j_per_g(bath.ice_c) +
         bath.surface_water_g * water_at_0_c_enthalpy_j_per_g + bath.vessel_j_per_k * bath.vessel_c +
         bath.heat_j;
}
double after_j(const Masses& drink, const IceBath& bath, double melt_g, double end_c) {
  return liquid_enthalpy_j(with_water(drink, melt_g + bath.surface_water_g), end_c) +
         (bath.ice_g - melt_g) * ice_enthalpy_j_per_g(end_c) + bath.vessel_j_per_k * end_c;
}

IceBath any_bath(testing::Draws& draws) {
  return {.ice_g = draws.between(20, 600),
          .ice_c = draws.between(-20, 0),
          .surface_water_g = draws.between(0, 8),
          .vessel_j_per_k = draws.between(0, 200),
          .vessel_c = draws.between(-18, 25),
          .heat_j = draws.between(0, 800)};
}

}  // namespace

TEST_CASE("drink and ice come to the balance worked out for them", "[physics]") {
  const PublishedTable table("ice_balance.csv");
  REQUIRE(table.size() == 21);
  for (std::size_t row = 0; row < table.size(); ++row) {
    Masses drink;
    drink[Component::ethanol] = table.number(row, "ethanol_g");
    drink[Component::water] = table.number(row, "water_g");
    drink[Component::sugar] = table.number(row, "sugar_g");
    const double start_c = table.number(row, "T0_C");
    const IceBath bath{.ice_g = table.number(row, "ice_g"),
                       .ice_c = table.number(row, "ice_T_C"),
                       .surface_water_g = table.number(row, "surface_water_g"),
                       .vessel_j_per_k = table.number(row, "vessel_J_K"),
                       .vessel_c = start_c,
                       .heat_j = table.number(row, "heat_J")};
    const IceBalance end = testing::equilibrium(drink, start_c, bath);
    INFO("row " << row + 1);
    CHECK(end.melt_g == Approx(table.number(row, "melt_g")).margin(0.15));
    CHECK(end.end_c == Approx(table.number(row, "T_end_C")).margin(0.05));
    CHECK(end.all_melted == (table.text(row, "state") == "all melted"));
    const Concentrations diluted = concentrations(with_water(drink, end.melt_g + bath.surface_water_g));
    CHECK(100 * diluted.strength == Approx(table.number(row, "end_vol_pct")).margin(0.03));
    CHECK(diluted.sugar_g_per_100_ml == Approx(table.number(row, "end_sugar_g_100mL")).margin(0.03));
    CHECK(diluted.volume_ml == Approx(table.number(row, "V_end_20C_mL")).margin(0.25));
  }
}

TEST_CASE("the example worked by hand balances at every step", "[physics]") {
  // 25 % with 8 g of sugar, 200 g of ice at 0 °C: heat before and after, as written out beside the method
  // (smooth tables, so within 0.1 g and 0.02 K).
  Masses drink;
  drink[Component::ethanol] = 19.731;
  drink[Component::water] = 72.136;
  drink[Component::sugar] = 8.0;
  CHECK(liquid_enthalpy_j(drink, 20) == Approx(-5430.9).margin(12));
  CHECK(200 * ice_enthalpy_j_per_g(0) == Approx(-87676.0).margin(0.1));
  CHECK(liquid_enthalpy_j(with_water(drink, 49.111), -7.088) == Approx(-24725.0).margin(25));
  CHECK(150.889 * ice_enthalpy_j_per_g(-7.088) == Approx(-68381.9).margin(2));
  const IceBalance end = testing::equilibrium(drink, 20, {.ice_g = 200});
  CHECK(end.melt_g == Approx(49.111).margin(0.15));
  CHECK(end.end_c == Approx(-7.088).margin(0.05));
}

TEST_CASE("the balance answers to each cause as worked out", "[physics]") {
  // Beside the 25 % case with 200 g of ice, change of melt: vessel +7.5 and +14.9 g, 1000 J +2.8 g, start at
  // 4 °C −18.1 g.
  const Masses drink = testing::hundred_ml(0.25, 8);
  const double melt = testing::equilibrium(drink, 20, {.ice_g = 200}).melt_g;
  const auto more = [&](double start_c, const IceBath& bath) {
    return testing::equilibrium(drink, start_c, bath).melt_g - melt;
  };
  CHECK(more(20, {.ice_g = 200, .vessel_j_per_k = 100}) == Approx(7.5).margin(0.15));
  CHECK(more(20, {.ice_g = 200, .vessel_j_per_k = 200}) == Approx(14.9).margin(0.15));
  CHECK(more(20, {.ice_g = 200, .heat_j = 1000}) == Approx(2.8).margin(0.15));
  CHECK(more(4, {.ice_g = 200}) == Approx(-18.1).margin(0.15));
  CHECK(more(-18, {.ice_g = 200}) == Approx(-41.6).margin(0.3));
  for (const auto& [ice_g, grams] : {std::pair{50.0, 42.5}, {100.0, 44.8}, {300.0, 53.1}, {500.0, 60.5}})
    CHECK(testing::equilibrium(drink, 20, {.ice_g = ice_g}).melt_g == Approx(grams).margin(0.2));
}

TEST_CASE("no heat is lost or made, whatever the case", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 2000; ++i) {
    const Masses drink = testing::any_drink(draws);
    const double start_c = draws.between(-10, 90);
    const IceBath bath = any_bath(draws);
    const IceBalance end = testing::equilibrium(drink, start_c, bath);
    const double before = before_j(drink, start_c, bath);
    INFO(i);
    CHECK(after_j(drink, bath, end.melt_g, end.end_c) == Approx(before).epsilon(1e-7).margin(0.005));
    const double freezing = freezing_point_c(with_water(drink, end.melt_g + bath.surface_water_g));
    if (end.all_melted) {
      CHECK(end.melt_g == bath.ice_g);
      CHECK(end.end_c >= freezing - 1e-5);
    } else {
      CHECK(end.melt_g < bath.ice_g);
      CHECK(end.end_c == Approx(freezing).margin(1e-9));
    }
  }
}

TEST_CASE("the temperature after a given melt keeps the heat too, and falls as more melts", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    const Masses drink = testing::any_drink(draws);
    const double start_c = draws.between(-5, 60);
    const IceBath bath = any_bath(draws);
    double warmer = 1e9;
    for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
      const double melt = share * bath.ice_g;
      const double end_c = testing::plain_balance(drink, start_c, bath).temperature_c(melt);
      CHECK(end_c < warmer);
      warmer = end_c;
      CHECK(after_j(drink, bath, melt, end_c) ==
            Approx(before_j(drink, start_c, bath)).epsilon(1e-7).margin(0.01));
    }
  }
}

TEST_CASE("at the equilibrium melt the balance gives the equilibrium temperature", "[physics]") {
  const Masses drink = testing::hundred_ml(0.3, 6);
  const IceBath bath{.ice_g = 150, .ice_c = -8, .vessel_j_per_k = 80, .vessel_c = 20};
  const IceBalance end = testing::equilibrium(drink, 18, bath);
  CHECK(testing::plain_balance(drink, 18, bath).temperature_c(end.melt_g) == Approx(end.end_c).margin(1e-6));
}

TEST_CASE("without ice nothing melts and the vessel's heat is shared", "[physics]") {
  const Masses drink = testing::hundred_ml(0.2, 10);
  const IceBalance alone = testing::equilibrium(drink, 20, {});
  CHECK(alone.melt_g == 0);
  CHECK(alone.all_melted);
  CHECK(alone.end_c == Approx(20).margin(1e-6));
  const IceBalance in_cold_glass = testing::equilibrium(drink, 20, {.vessel_j_per_k = 100, .vessel_c = -18});
  CHECK(in_cold_glass.end_c < 20);
  CHECK(in_cold_glass.end_c > 5);
}

TEST_CASE("ice left in plain water leaves it at 0 °C", "[physics]") {
  const IceBalance end = testing::equilibrium(only(Component::water, 100), 20, {.ice_g = 200});
  CHECK(end.end_c == 0);
  // 100 g × (heat of 20 K of water) over the heat of fusion: 83.9 J a gram over 333.55.
  CHECK(end.melt_g == Approx(25.16).margin(0.05));
}

TEST_CASE("very cold ice freezes water onto itself", "[physics]") {
  const IceBalance end = testing::equilibrium(only(Component::water, 50), 1, {.ice_g = 400, .ice_c = -20});
  CHECK(end.melt_g < -20);
  CHECK(!end.all_melted);
  const IceBalance lasting =
      testing::equilibrium(only(Component::water, 5), 1, {.ice_g = 2000, .ice_c = -20});
  CHECK(lasting.melt_g >= -4.5 - 1e-9);  // never the last of the drink
}

TEST_CASE("strong spirit, syrup, fat and nothing at all are answered too", "[physics]") {
  for (const Masses& drink : {testing::hundred_ml(0.95, 0), testing::hundred_ml(1.0, 0),
                              only(Component::fat, 50), only(Component::sugar, 20), Masses{}}) {
    const IceBalance end = testing::equilibrium(drink, 20, {.ice_g = 100});
    CHECK(std::isfinite(end.melt_g));
    CHECK(std::isfinite(end.end_c));
    CHECK(end.melt_g <= 100);
  }
  Masses syrup;
  syrup[Component::sugar] = 60;
  syrup[Component::water] = 40;
  const IceBalance end = testing::equilibrium(syrup, 20, {.ice_g = 200});
  CHECK(end.end_c < -2);
  CHECK(end.melt_g > 0);
}

TEST_CASE("the balance moves smoothly with every input", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 1000; ++i) {
    const Masses drink = testing::any_drink(draws);
    const double start_c = draws.between(2, 40);
    const IceBath bath = any_bath(draws);
    const double melt = testing::equilibrium(drink, start_c, bath).melt_g;
    const double scale = drink.total() + bath.ice_g;
    IceBath moved = bath;
    moved.ice_g *= 1.001;
    CHECK(std::abs(testing::equilibrium(drink, start_c, moved).melt_g - melt) < 0.002 * scale);
    moved = bath;
    moved.ice_c *= 1.001;
    CHECK(std::abs(testing::equilibrium(drink, start_c, moved).melt_g - melt) < 0.002 * scale);
    CHECK(std::abs(testing::equilibrium(drink, start_c * 1.001, bath).melt_g - melt) < 0.002 * scale);
    CHECK(std::abs(testing::equilibrium(drink * 1.001, start_c, bath).melt_g - melt) < 0.002 * scale);
  }
}

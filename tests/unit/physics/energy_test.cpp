#include <catch2/catch.hpp>

#include <cmath>

#include "model/physics/energy.h"
#include "model/physics/ethanol_water.h"

using namespace gill::model;

namespace {

Masses parts(double ethanol, double sugar, double acid = 0, double fat = 0, double protein = 0) {
  Masses masses;
  masses[Component::ethanol] = ethanol;
  masses[Component::sugar] = sugar;
  masses[Component::citric] = acid;
  masses[Component::fat] = fat;
  masses[Component::protein] = protein;
  return masses;
}

}  // namespace

TEST_CASE("energy meets published figures of the spirits trade", "[physics]") {
  // Consumer information of the spirits industry, per 100 ml: 24 % with 25 g of sugar, 15 % with 10 g.
  const Energy cherry = energy(parts(100 * 0.24 * 0.789, 25));
  CHECK(std::round(cherry.kj) == 974);
  CHECK(std::round(cherry.kcal) == 233);
  CHECK(std::round(0.3 * cherry.kj) == 292);
  CHECK(std::round(0.3 * cherry.kcal) == 70);
  const Energy light = energy(parts(100 * 0.15 * 0.789, 10));
  CHECK(std::round(light.kj) == 513);
  CHECK(std::round(light.kcal) == 123);
}

TEST_CASE("worked examples by Regulation 1169/2011 come out", "[physics]") {
  // Factors of Annex XIV; cases evaluated separately.
  struct Case {
    Masses masses;
    MoreNutrients more;
    double kj, kcal;
  };
  for (const auto& [masses, more, kj, kcal] : {
           Case{parts(14.20, 0), {}, 412, 99},
           Case{parts(7.89, 0), {}, 229, 55},
           Case{parts(9.86, 0.3, 0.6), {.polyols_g = 0.7}, 306, 74},
           Case{parts(12.50, 0, 0.43, 0, 1.32), {.digestible_carbohydrate_g = 3.2 * 3.3}, 570, 136},
           Case{parts(0, 18.45), {}, 314, 74},
           Case{parts(18.94, 8.36, 1.20), {}, 707, 170},
           Case{parts(4.02, 6.15, 0, 4.2, 0.9), {}, 392, 94},
       }) {
    const Energy sum = energy(masses, more);
    CHECK(std::abs(sum.kj - kj) <= 0.6);
    CHECK(std::abs(sum.kcal - kcal) <= 0.6);
  }
}

TEST_CASE("a 40 % spirit comes within a per cent of the USDA table", "[physics]") {
  // USDA National Nutrient Database for Standard Reference, release 27: 231 kcal in 100 g, by 6.93 kcal a
  // gram of ethanol.
  const double p = ethanol_water::mass_fraction_from_strength(0.40);
  CHECK(energy(only(Component::ethanol, 100 * p)).kcal == Approx(231).epsilon(0.012));
}

TEST_CASE("kilojoules are not kilocalories converted", "[physics]") {
  const Energy ethanol = energy(only(Component::ethanol, 1));
  CHECK(ethanol.kcal == 7);
  CHECK(ethanol.kj == 29);
  CHECK(ethanol.kcal * 4.184 != Approx(ethanol.kj));
}

TEST_CASE("what feeds nobody counts nothing", "[physics]") {
  Masses masses;
  for (const Component component : {Component::water, Component::phosphoric, Component::salt,
                                    Component::other, Component::solids, Component::carbon_dioxide})
    masses[component] = 10;
  CHECK(energy(masses).kcal == 0);
  CHECK(energy(masses).kj == 0);
  CHECK(energy(masses, {.fibre_g = 1}).kcal == 2);
}

#include <catch2/catch.hpp>

#include <cmath>

#include "model/physics/ethanol_water.h"
#include "model/physics/readings.h"
#include "model/physics/sucrose.h"
#include "model/physics/volume.h"
#include "unit/physics/published_table.h"

using namespace gill::model;

namespace {

Masses mixture(std::initializer_list<std::pair<Component, double>> parts) {
  Masses masses;
  for (const auto& [component, grams] : parts) masses[component] += grams;
  return masses;
}

}  // namespace

TEST_CASE("sugar in water shows its own brix", "[physics]") {
  for (double brix : {0.0, 0.5, 5.0, 12.5, 30.0, 50.0, 66.7, 78.0}) {
    INFO(brix);
    auto shown = refractometer_brix(mixture({{Component::sugar, brix}, {Component::water, 100 - brix}}));
    REQUIRE(shown);
    CHECK(*shown == Approx(brix).margin(0.06));
  }
}

TEST_CASE("alcohol is read as sugar", "[physics]") {
  // CRC Handbook of Chemistry and Physics, CRC Press: 20 % of ethanol by mass bends light as 9.4 brix do.
  auto shown = refractometer_brix(mixture({{Component::ethanol, 20}, {Component::water, 80}}));
  REQUIRE(shown);
  CHECK(*shown == Approx(9.4).margin(0.05));
}

TEST_CASE("more sugar, acid or extract always shows more", "[physics]") {
  const Masses base = mixture({{Component::sugar, 20}, {Component::ethanol, 15}, {Component::water, 65}});
  const double before = *refractometer_brix(base);
  for (Component more : {Component::sugar, Component::citric, Component::lactic, Component::salt,
                         Component::other, Component::protein}) {
    Masses richer = base;
    richer[more] += 2;
    INFO(component_name(more));
    CHECK(*refractometer_brix(richer) > before + 0.5);
  }
  // What floats or lies in it bends no light.
  for (Component no_light : {Component::solids, Component::carbon_dioxide}) {
    Masses other = base;
    other[no_light] += 2;
    CHECK(*refractometer_brix(other) == Approx(before).margin(1e-9));
  }
}

TEST_CASE("what no refractometer can read has no reading", "[physics]") {
  CHECK(!refractometer_brix(Masses{}));
  CHECK(!refractometer_brix(mixture({{Component::fat, 40}, {Component::water, 60}})));
  CHECK(!refractometer_brix(mixture({{Component::sugar, 40}})));
  // Beyond the scale it stands at its end.
  CHECK(*refractometer_brix(mixture({{Component::sugar, 99}, {Component::water, 1}})) ==
        Approx(85).margin(1e-6));
}

TEST_CASE("pure sugar and pure spirit have no doubt, acid and extract have", "[physics]") {
  CHECK(refractometer_doubt_brix(mixture({{Component::sugar, 50}, {Component::water, 50}})) < 1e-6);
  CHECK(refractometer_doubt_brix(mixture({{Component::ethanol, 30}, {Component::water, 70}})) < 1e-6);
  const double sour = refractometer_doubt_brix(
      mixture({{Component::sugar, 40}, {Component::citric, 6}, {Component::water, 54}}));
  CHECK(sour > 0.3);
  CHECK(sour < 0.7);
  CHECK(refractometer_doubt_brix(
            mixture({{Component::sugar, 30}, {Component::ethanol, 20}, {Component::water, 50}})) > 0.15);
}

TEST_CASE("a hydrometer floats at the density, on each of its scales", "[physics]") {
  CHECK(specific_gravity(ethanol_water::water_density_g_per_ml) == Approx(1));
  // ICUMSA: 20 brix weigh 1.08098 g/ml.
  CHECK(*hydrometer_brix(1.08098) == Approx(20).margin(0.01));
  CHECK(!hydrometer_strength(1.08098));
  // OIML R 22: 40 % vol weigh 0.948045 g/ml.
  CHECK(*hydrometer_strength(0.948045) == Approx(0.40).margin(0.0001));
  CHECK(!hydrometer_brix(0.948045));
  // Water is nought on both.
  CHECK(*hydrometer_brix(ethanol_water::water_density_g_per_ml) == Approx(0).margin(1e-6));
  CHECK(*hydrometer_strength(ethanol_water::water_density_g_per_ml) == Approx(0).margin(1e-6));
}

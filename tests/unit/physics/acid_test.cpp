#include <catch2/catch.hpp>

#include "model/physics/acid.h"

using namespace gill::model;

TEST_CASE("acids weigh as citric acid by their protons", "[physics]") {
  // Worked out separately from molar masses.
  CHECK(citric_equivalent_factor(Component::citric) == 1.0);
  CHECK(citric_equivalent_factor(Component::malic) == Approx(0.9552).margin(5e-5));
  CHECK(citric_equivalent_factor(Component::tartaric) == Approx(0.8534).margin(5e-5));
  CHECK(citric_equivalent_factor(Component::lactic) == Approx(0.7110).margin(1.5e-4));
  CHECK(citric_equivalent_factor(Component::acetic) == Approx(1.0664).margin(5e-5));
  CHECK(citric_equivalent_factor(Component::phosphoric) == Approx(1.3070).margin(5e-5));
  CHECK(citric_equivalent_factor(Component::ascorbic) == Approx(0.364).margin(5e-4));
}

TEST_CASE("wine's tartaric reckoning converts by the published factor", "[physics]") {
  // Common oenological conversion: tartaric = citric × 1.1718.
  CHECK(1 / citric_equivalent_factor(Component::tartaric) == Approx(1.1718).margin(1e-4));
}

TEST_CASE("a two and one mix of citric and malic adds up", "[physics]") {
  Masses mix;
  mix[Component::citric] = 2;
  mix[Component::malic] = 1;
  mix[Component::sugar] = 50;
  CHECK(citric_equivalents_g(mix) == Approx(2.9552).margin(1e-4));
}

TEST_CASE("only acids are acids", "[physics]") {
  std::size_t count = 0;
  for (const Component component : components) count += citric_equivalent_factor(component) > 0 ? 1U : 0U;
  CHECK(count == acids.size());
  for (const Component acid : acids) CHECK(citric_equivalent_factor(acid) > 0);
}

#include <catch2/catch.hpp>

#include "render/wording/measures.h"
#include "render/wording/numbers.h"
#include "support/fixture.h"

using namespace gill;
using namespace gill::render::wording;

namespace {

const testing::Compiled& empty_house() {
  static const auto compiled = testing::compile("house A\n");
  return compiled;
}

std::string in(double base_value, std::string_view unit, const testing::Compiled& house = empty_house()) {
  return text_of(measure_in(base_value, house.units[house.units.find(unit)]));
}

}  // namespace

TEST_CASE("figures are printed to fixed decimals with a real minus", "[render]") {
  CHECK(fixed(24.649, 1) == "24.6");
  CHECK(fixed(-5.23, 1) == "−5.2");
  CHECK(fixed(-0.04, 1) == "0.0");
  CHECK(trimmed(22.50, 2) == "22.5");
  CHECK(trimmed(45, 2) == "45");
  CHECK(trimmed(100, 0) == "100");
  CHECK(fixed(1.0 / 0.0, 1) == "not known");
}

TEST_CASE("a tolerance is printed where it shows in the printed digits", "[render]") {
  CHECK(with_tolerance(24.6, 0.42, 1) == "24.6 ± 0.4");
  CHECK(with_tolerance(24.6, 0.049, 1) == "24.6");
  CHECK(with_tolerance(118, 0.6, 0) == "118 ± 1");
}

TEST_CASE("millilitres are told to a half", "[render]") {
  CHECK(in(22.5, "ml") == "22.5 ml");
  CHECK(in(22.3, "ml") == "22.5 ml");
  CHECK(in(29.5735, "ml") == "29.5 ml");
  CHECK(in(0.83, "ml") == "0.85 ml");
  CHECK(in(610.4, "ml") == "610 ml");
  CHECK(in(22.5, "cl") == "2.25 cl");
  CHECK(in(1000, "l") == "1 l");
}

TEST_CASE("grams are told as a scale shows them", "[render]") {
  CHECK(in(41.27, "g") == "41.3 g");
  CHECK(in(0.254, "g") == "0.25 g");
  CHECK(in(812.3, "g") == "812 g");
}

TEST_CASE("ounces are fractions where an eighth or a third is near enough, else decimals", "[render]") {
  CHECK(in(45, "oz") == "1 1/2 oz");
  CHECK(in(22.5, "oz") == "3/4 oz");
  CHECK(in(20, "oz") == "2/3 oz");
  CHECK(in(3.75, "oz") == "1/8 oz");
  CHECK(in(30, "oz") == "1 oz");
  CHECK(in(60, "oz") == "2 oz");
  CHECK(in(12.5, "oz") == "0.42 oz");
  CHECK(in(35, "oz") == "1.17 oz");
}

// NIST Handbook 44, Appendix C: 1 US fluid ounce = 29.57353 ml.
TEST_CASE("the house's own ounce counts", "[render]") {
  auto us = testing::compile("house A\n  ounce us oz\n");
  CHECK(in(44.36, "oz", us) == "1 1/2 oz");
  CHECK(in(45, "oz", us) == "1 1/2 oz");
  CHECK(in(22.18, "oz", us) == "3/4 oz");
}

TEST_CASE("quantities read as people say them", "[render]") {
  auto house = testing::compile(
      "drink A\n  glass coupe\n  60 ml London dry gin\n  shake 10..12 s\n  rest 1 min\n  heat to 65 C\n  "
      "strain\n"
      "prep B\n  1 l water\n  freeze 12 h at -18 C\n  keeps 3 wk chilled\n  batch ..4 l\n");
  const auto& steps = house.drink("A").recipe.steps;
  CHECK(text_of(*steps[0].time, house.units) == "10–12 s");
  CHECK(text_of(*steps[1].time, house.units) == "1 min");
  CHECK(text_of(*steps[2].temperature, house.units) == "65 °C");
  const auto& prep = house.stock("B");
  CHECK(text_of(*prep.recipe.steps[0].temperature, house.units) == "−18 °C");
  CHECK(text_of(prep.keeps->duration, house.units) == "3 weeks");
  CHECK(text_of(*prep.largest_batch, house.units) == "up to 4 l");
}

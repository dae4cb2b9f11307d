#include <catch2/catch.hpp>

#include "model/physics/foam.h"
#include "model/physics/gas.h"

using namespace gill::model;

TEST_CASE("carbon dioxide dissolves in water as measured", "[physics]") {
  // IUPAC-NIST Solubility Database, NIST Standard Reference Database 106, system 62-54 (Deep-Sea Research 18,
  // 1971, Pergamon): Bunsen coefficients at one atmosphere.
  struct Row {
    double celsius, bunsen;
  };
  for (const auto& [celsius, bunsen] :
       {Row{1.04, 1.6471}, Row{5.00, 1.4199}, Row{10.00, 1.1926}, Row{15.00, 1.0100}, Row{20.00, 0.8652},
        Row{25.00, 0.7519}, Row{32.00, 0.6336}, Row{35.00, 0.5905}}) {
    INFO(celsius);
    CHECK(carbon_dioxide_solubility_volumes(celsius) == Approx(bunsen).epsilon(0.012));
  }
}

TEST_CASE("volumes of gas weigh and count back", "[physics]") {
  CHECK(carbon_dioxide_g_from_volumes(1, 1000) == Approx(1.977));
  CHECK(carbon_dioxide_g_from_volumes(3.5, 200) == Approx(1.3839));
  CHECK(volumes_from_carbon_dioxide_g(carbon_dioxide_g_from_volumes(2.7, 355), 355) == Approx(2.7));
  CHECK(volumes_from_carbon_dioxide_g(1, 0) == 0);
}

TEST_CASE("pressure holds the gas, more of it warm than cold", "[physics]") {
  for (const double celsius : {0.0, 4.0, 20.0, 30.0}) {
    const double bar = carbonation_pressure_bar_gauge(3.0, celsius);
    CHECK(volumes_at_pressure(bar, celsius) == Approx(3.0));
  }
  CHECK(carbonation_pressure_bar_gauge(3.0, 20) > carbonation_pressure_bar_gauge(3.0, 2));
  // Brewers' carbonation chart: 2.5 volumes at 38 °F need about 11 psi (0.76 bar) in beer, which dissolves a
  // little less than water. From memory.
  CHECK(carbonation_pressure_bar_gauge(2.5, 3.3) == Approx(0.70).margin(0.09));
  CHECK(volumes_at_pressure(-2.0, 10) == 0);
}

TEST_CASE("foam figures run from low to high", "[physics]") {
  for (const FoamRise& rise : {foam_of_egg_white, foam_of_egg_white_dry_last, foam_of_juice_or_pulse_water,
                               foam_of_cream, foam_of_whole_egg}) {
    CHECK(rise.low < rise.typical);
    CHECK(rise.typical < rise.high);
  }
}

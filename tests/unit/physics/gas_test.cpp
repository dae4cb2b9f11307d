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
    CHECK(carbon_dioxide_solubility_volumes({.celsius = celsius}) == Approx(bunsen).epsilon(0.012));
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
    const double bar = carbonation_pressure_bar_gauge(3.0, {.celsius = celsius});
    CHECK(volumes_at_pressure(bar, {.celsius = celsius}) == Approx(3.0));
  }
  CHECK(carbonation_pressure_bar_gauge(3.0, {.celsius = 20}) >
        carbonation_pressure_bar_gauge(3.0, {.celsius = 2}));
  // Brewers' carbonation chart: 2.5 volumes at 38 °F need about 11 psi (0.76 bar) in beer, which dissolves a
  // little less than water. From memory.
  CHECK(carbonation_pressure_bar_gauge(2.5, {.celsius = 3.3}) == Approx(0.70).margin(0.09));
  CHECK(volumes_at_pressure(-2.0, {.celsius = 10}) == 0);
}

TEST_CASE("wine holds less gas than water, by its alcohol and its sugar", "[physics]") {
  // Community methods for the analysis of wines, Regulation (EEC) No 2676/90, chapter 37: grams of gas in a
  // litre at 20 °C and one bar are 1.951 (0.86 − 0.01 A)(1 − 0.00144 S).
  struct Row {
    double percent, sugar, grams;
  };
  for (const auto& [percent, sugar, grams] : {Row{0, 0, 1.678}, Row{12.5, 0, 1.434}, Row{12.5, 10, 1.413},
                                              Row{11, 120, 1.210}, Row{7, 50, 1.430}}) {
    INFO(percent << " % vol, " << sugar << " g/l");
    const double volumes =
        carbon_dioxide_solubility_volumes({.celsius = 20, .strength = percent / 100, .sugar_g_per_l = sugar});
    CHECK(volumes * carbon_dioxide_g_per_volume_litre / 1.01325 == Approx(grams).epsilon(0.02));
  }
  // Champagne of 12.5 % vol: about 2.1 g in a litre at 10 °C and one bar, beer of 5 % vol about 2.4 at 6 °C
  // (Journal of Agricultural and Food Chemistry, American Chemical Society, 2021; both stated as about).
  CHECK(carbon_dioxide_solubility_volumes({.celsius = 10, .strength = 0.125, .sugar_g_per_l = 8}) *
            carbon_dioxide_g_per_volume_litre / 1.01325 ==
        Approx(2.1).epsilon(0.08));
  CHECK(carbon_dioxide_solubility_volumes({.celsius = 6, .strength = 0.05, .sugar_g_per_l = 5}) *
            carbon_dioxide_g_per_volume_litre / 1.01325 ==
        Approx(2.4).epsilon(0.08));
  // No formula reaches spirits: they are held at the strongest wine, and nothing is negative.
  CHECK(carbon_dioxide_solubility_volumes({.strength = 0.9}) ==
        carbon_dioxide_solubility_volumes({.strength = 0.18}));
  CHECK(carbon_dioxide_solubility_volumes({.strength = 1, .sugar_g_per_l = 2000}) > 0.3);
}

TEST_CASE("foam figures run from low to high", "[physics]") {
  for (const FoamRise& rise : {foam_of_egg_white, foam_of_egg_white_dry_last, foam_of_juice_or_pulse_water,
                               foam_of_cream, foam_of_whole_egg}) {
    CHECK(rise.low < rise.typical);
    CHECK(rise.typical < rise.high);
  }
}

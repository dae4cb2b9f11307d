#include <catch2/catch.hpp>

#include <string>

#include "example_drinks.h"
#include "model/physics/acid.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/sucrose.h"
#include "model/physics/volume.h"
#include "published_table.h"

using namespace gill::model;
using gill::model::testing::PublishedTable;

namespace {

Masses spirit(double ml, double strength) {
  const double p = ethanol_water::mass_fraction_from_strength(strength);
  const double grams = ml * ethanol_water::density_g_per_ml(p);
  Masses masses;
  masses[Component::ethanol] = p * grams;
  masses[Component::water] = (1 - p) * grams;
  return masses;
}

Masses water_of(double ml) { return only(Component::water, ml * ethanol_water::water_density_g_per_ml); }

}  // namespace

TEST_CASE("ethanol and water shrink when they meet", "[physics]") {
  // OIML R 22 evaluated separately: ml of ethanol with water to 100, volume of the mixture, its strength.
  struct Row {
    double ethanol_ml, volume_ml, strength_percent;
  };
  for (const auto& [ethanol_ml, ml, percent] :
       {Row{10, 99.257, 10.075}, Row{40, 96.701, 41.365}, Row{50, 96.463, 51.834}, Row{60, 96.526, 62.159},
        Row{70, 96.832, 72.290}}) {
    const Masses mixed = spirit(ethanol_ml, 1.0) + water_of(100 - ethanol_ml);
    CHECK(volume_ml(mixed) == Approx(ml).margin(0.001));
    CHECK(100 * strength(mixed) == Approx(percent).margin(0.001));
  }
}

TEST_CASE("water added to spirit makes the volume and strength worked out for it", "[physics]") {
  // OIML R 22 evaluated separately: strength of 100 ml, ml of water, volume, strength.
  struct Row {
    double start, water_ml, volume_ml, percent;
  };
  for (const auto& [start, water_ml, ml, percent] :
       {Row{0.40, 50, 149.784, 26.705}, Row{0.40, 100, 199.913, 20.009}, Row{0.50, 100, 199.212, 25.099},
        Row{0.60, 50, 148.632, 40.368}}) {
    const Masses mixed = spirit(100, start) + water_of(water_ml);
    CHECK(volume_ml(mixed) == Approx(ml).margin(0.001));
    CHECK(100 * strength(mixed) == Approx(percent).margin(0.001));
  }
}

TEST_CASE("the water to make 100 ml of a spirit is more than its strength leaves", "[physics]") {
  // OIML R 22 evaluated separately.
  struct Row {
    double strength, water_ml;
  };
  for (const auto& [strength, water_ml] : {Row{0.40, 63.349}, Row{0.50, 53.649}, Row{0.60, 43.636}})
    CHECK(spirit(100, strength)[Component::water] / ethanol_water::water_density_g_per_ml ==
          Approx(water_ml).margin(0.001));
}

TEST_CASE("the gauger's 100 proof is half alcohol and a little more than half water", "[physics]") {
  // US Gauging Manual, Table 6, Alcohol and Tobacco Tax and Trade Bureau (figures from memory): at 60 °F, 50
  // parts of alcohol and 53.73 of water by volume make 100 of 100 proof. Strength is taken at 60 °F there.
  const double t = 15.56;
  const double rho_ethanol = ethanol_water::density_g_per_ml(1, t);
  double low = 0.3, high = 0.6;
  for (int i = 0; i < 60; ++i) {
    const double p = 0.5 * (low + high);
    (p * ethanol_water::density_g_per_ml(p, t) / rho_ethanol < 0.5 ? low : high) = p;
  }
  const double rho = ethanol_water::density_g_per_ml(low, t);
  CHECK((1 - low) * rho * 100 / ethanol_water::density_g_per_ml(0, t) == Approx(53.73).margin(0.02));
  CHECK(rho / ethanol_water::density_g_per_ml(0, t) == Approx(0.93426).margin(0.0005));
}

TEST_CASE("spirits shrink in the cold and swell in the warm", "[physics]") {
  // OIML R 22 evaluated separately: volume of 100 ml (20 °C) at −5, 0, 5, 10, 25 and 30 °C.
  struct Row {
    double percent, ml[6];
  };
  const double celsius[6] = {-5, 0, 5, 10, 25, 30};
  for (const Row& row : {Row{0, {99.90, 99.84, 99.82, 99.85, 100.12, 100.26}},
                         Row{20, {99.41, 99.47, 99.56, 99.68, 100.20, 100.42}},
                         Row{40, {98.39, 98.69, 99.00, 99.32, 100.36, 100.73}},
                         Row{50, {98.09, 98.46, 98.83, 99.21, 100.41, 100.83}},
                         Row{100, {97.39, 97.89, 98.41, 98.93, 100.55, 101.10}}})
    for (int i = 0; i < 6; ++i)
      CHECK(volume_ml(spirit(100, row.percent / 100), celsius[i]) == Approx(row.ml[i]).margin(0.006));
}

TEST_CASE("a pure syrup has the density of the sugar table at any temperature", "[physics]") {
  for (const double t : {2.0, 20.0, 40.0, 70.0})
    for (const double w : {0.05, 0.35, 0.5, 0.667, 0.75}) {
      Masses syrup;
      syrup[Component::sugar] = w * 60;
      syrup[Component::water] = (1 - w) * 60;
      CHECK(density_g_per_ml(syrup, t) == Approx(sucrose::density_g_per_ml(w, t)).epsilon(1e-12));
    }
}

TEST_CASE("compared with the handbook, solutions of acids and of sugars part by 3 g in a litre",
          "[physics]") {
  // A comparison: the model gives every acid one volume and every sugar that of sucrose, and no source says
  // how far that parts from the measured densities. The limits are the differences found and a little, so
  // that it is told when they grow.
  const PublishedTable table("solute_density.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string& solute = table.text(row, "solute");
    const double percent = table.number(row, "mass_percent");
    if (percent > 20 && solute != "sucrose") continue;  // no drink holds more of an acid
    const Component component = solute == "citric acid"       ? Component::citric
                                : solute == "lactic acid"     ? Component::lactic
                                : solute == "phosphoric acid" ? Component::phosphoric
                                : solute == "acetic acid"     ? Component::acetic
                                                              : Component::sugar;
    const bool other_sugar = component == Component::sugar && solute != "sucrose";
    if (other_sugar && percent > 30) continue;
    const double tolerance = solute == "sucrose" ? 0.0006 : other_sugar ? 0.003 : 0.0025;
    Masses solution;
    solution[component] = percent;
    solution[Component::water] = 100 - percent;
    INFO(solute << " " << percent << " %");
    CHECK(density_g_per_ml(solution) == Approx(table.number(row, "density_g_per_ml")).margin(tolerance));
  }
}

TEST_CASE("a brine has about the density of the handbook's", "[physics]") {
  // CRC Handbook of Chemistry and Physics, CRC Press (from memory): sodium chloride, 20 °C.
  struct Row {
    double percent, density;
  };
  for (const auto& [percent, density] : {Row{5, 1.0340}, Row{10, 1.0707}, Row{20, 1.1478}}) {
    Masses brine;
    brine[Component::salt] = percent;
    brine[Component::water] = 100 - percent;
    CHECK(density_g_per_ml(brine) == Approx(density).margin(0.008));
  }
}

TEST_CASE("liqueurs come to the density of the sugar and spirit in them", "[physics]") {
  // Mass balance evaluated separately with 0.615, 0.620 and 0.635 ml a gram of sugar, kg/m3: the first and
  // last bound it.
  struct Row {
    double strength, sugar_g_per_l, densest, lightest;
  };
  for (const auto& [percent, sugar, densest, lightest] :
       {Row{0.40, 300, 1060.0, 1053.9}, Row{0.40, 250, 1041.6, 1036.5}, Row{0.28, 280, 1072.4, 1066.8},
        Row{0.24, 250, 1066.0, 1061.0}, Row{0.20, 300, 1089.9, 1083.9}, Row{0.17, 150, 1035.0, 1032.0},
        Row{0.12, 100, 1021.1, 1019.1}}) {
    const Masses liqueur = testing::hundred_ml(percent, sugar / 10);
    const double model = 1e3 * density_g_per_ml(liqueur);
    CHECK(model < densest);
    CHECK(model > lightest);
    CHECK(volume_ml(liqueur) == Approx(100).margin(0.06));
  }
}

TEST_CASE("undissolved solids have a volume of their own", "[physics]") {
  Masses pulp = water_of(100);
  pulp[Component::solids] = 10;
  CHECK(volume_ml(pulp) == Approx(100).epsilon(1e-12));
  CHECK(solids_volume_ml(pulp) == Approx(6.5));
  CHECK(density_g_per_ml(pulp) == Approx(ethanol_water::water_density_g_per_ml));
}

TEST_CASE("concentrations are those of the single functions", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 50; ++i) {
    const Masses drink = testing::any_drink(draws);
    const Concentrations all = concentrations(drink);
    CHECK(all.volume_ml == volume_ml(drink));
    CHECK(all.density_g_per_ml == Approx(density_g_per_ml(drink)).epsilon(1e-12));
    CHECK(all.strength == strength(drink));
    CHECK(all.sugar_g_per_100_ml == sugar_g_per_100_ml(drink));
    CHECK(all.acid_g_per_100_ml == acid_g_per_100_ml(drink));
    CHECK(all.brix == brix(drink));
    CHECK(volume_ml(drink) == Approx(volume_ml(drink, 20.0)).epsilon(1e-13));
    CHECK(volume_ml(drink * 3) == Approx(3 * volume_ml(drink)).epsilon(1e-12));
  }
}

TEST_CASE("an empty vessel has no volume, strength or brix", "[physics]") {
  const Masses nothing;
  CHECK(volume_ml(nothing) == 0);
  CHECK(volume_ml(nothing, 5) == 0);
  CHECK(density_g_per_ml(nothing) == 0);
  CHECK(strength(nothing) == 0);
  CHECK(sugar_g_per_100_ml(nothing) == 0);
  CHECK(brix(nothing) == 0);
  CHECK(concentrations(nothing).volume_ml == 0);
}

TEST_CASE("volume has no jumps over temperature, strength and sweetness", "[physics]") {
  for (const double t : {-20.0, 20.0, 40.0, 60.0}) {
    const Masses drink = testing::hundred_ml(0.3, 10);
    CHECK(volume_ml(drink, t + 1e-6) == Approx(volume_ml(drink, t - 1e-6)).epsilon(1e-7));
  }
  Masses rising;
  rising[Component::water] = 20;
  double before = volume_ml(rising);
  for (int i = 1; i <= 2000; ++i) {
    rising[Component::sugar] = 0.1 * i;
    const double after = volume_ml(rising);
    CHECK(after > before);
    CHECK(after - before < 0.07);
    before = after;
  }
}

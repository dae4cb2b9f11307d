#include <catch2/catch.hpp>

#include <variant>

#include "model/physics/acid.h"
#include "model/physics/composition.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/gas.h"
#include "model/physics/sucrose.h"
#include "model/physics/volume.h"

using namespace gill::model;
using Form = DeclaredTerms::Form;

namespace {

Composition solved(const DeclaredTerms& terms) {
  const auto result = solve_composition(terms);
  REQUIRE(std::holds_alternative<Composition>(result));
  return std::get<Composition>(result);
}

Impossible refused(const DeclaredTerms& terms) {
  const auto result = solve_composition(terms);
  REQUIRE(std::holds_alternative<Impossible>(result));
  return std::get<Impossible>(result);
}

}  // namespace

TEST_CASE("a spirit is its strength and water", "[physics]") {
  DeclaredTerms gin;
  gin.strength = 0.47;
  const Composition composition = solved(gin);
  CHECK(composition.per_gram.total() == Approx(1).epsilon(1e-12));
  CHECK(composition.per_gram[Component::ethanol] ==
        Approx(ethanol_water::mass_fraction_from_strength(0.47)).epsilon(1e-9));
  CHECK(composition.density_g_per_ml ==
        Approx(ethanol_water::density_g_per_ml(composition.per_gram[Component::ethanol])));
  CHECK(!composition.density_declared);
  CHECK(volume_ml(composition.of_ml(37)) == Approx(37).epsilon(1e-9));
}

TEST_CASE("declared strength, sugar and acid come back from 100 ml", "[physics]") {
  DeclaredTerms liqueur;
  liqueur.strength = 0.24;
  liqueur[Component::sugar] = Declared::per_100_ml(25);
  liqueur[Component::citric] = Declared::per_100_ml(0.8);
  liqueur[Component::other] = Declared::by_mass(0.01);
  const Composition composition = solved(liqueur);
  const Concentrations back = concentrations(composition.of_ml(100));
  CHECK(back.volume_ml == Approx(100).epsilon(1e-9));
  CHECK(back.strength == Approx(0.24).epsilon(1e-9));
  CHECK(back.sugar_g_per_100_ml == Approx(25).epsilon(1e-9));
  CHECK(back.acid_g_per_100_ml == Approx(0.8).epsilon(1e-9));
  CHECK(composition.per_gram[Component::other] == Approx(0.01).epsilon(1e-9));
}

TEST_CASE("a syrup by brix has the density of the sugar table", "[physics]") {
  for (const double brix : {10.0, 50.0, 200.0 / 3.0}) {
    DeclaredTerms syrup;
    syrup[Component::sugar] = Declared::by_mass(brix / 100);
    const Composition composition = solved(syrup);
    CHECK(composition.density_g_per_ml == Approx(sucrose::density_g_per_ml(brix / 100)).epsilon(1e-9));
    CHECK(composition.per_gram[Component::water] == Approx(1 - brix / 100).epsilon(1e-9));
  }
}

TEST_CASE("a declared density decides the water", "[physics]") {
  // Lemon juice: 6 g acid and 1.6 g sugar in 100 ml of 1.03 g/ml.
  DeclaredTerms lemon;
  lemon[Component::citric] = Declared::per_100_ml(6);
  lemon[Component::sugar] = Declared::per_100_ml(1.6);
  lemon.density_g_per_ml = 1.03;
  const Composition composition = solved(lemon);
  CHECK(composition.density_declared);
  CHECK(composition.density_g_per_ml == 1.03);
  const Masses hundred = composition.of_ml(100);
  CHECK(hundred.total() == Approx(103));
  CHECK(hundred[Component::water] == Approx(103 - 7.6));
  CHECK(hundred[Component::citric] == Approx(6));
  CHECK(std::abs(composition.density_disagreement) < 0.01);
}

TEST_CASE("a density far from the model's is told as a number, and refused beyond 15 %", "[physics]") {
  DeclaredTerms syrup;
  syrup[Component::sugar] = Declared::by_mass(0.5);
  syrup.density_g_per_ml = 1.18;
  CHECK(solved(syrup).density_disagreement == Approx(1.2297 / 1.18 - 1).margin(0.001));
  syrup.density_g_per_ml = 1.0;
  const Impossible impossible = refused(syrup);
  CHECK(impossible.reason == Impossible::Reason::density_misfit);
  CHECK(impossible.declared == 1.0);
  CHECK(impossible.possible == Approx(1.2297).margin(0.001));
}

TEST_CASE("honey agrees with its handbook density", "[physics]") {
  // Standard honey table: 17 % water, 1.4237 relative density at 20/20 °C.
  DeclaredTerms honey;
  honey[Component::sugar] = Declared::by_mass(0.82);
  honey[Component::other] = Declared::by_mass(0.01);
  CHECK(solved(honey).density_g_per_ml == Approx(1.4237 * 0.9982).epsilon(0.01));
}

TEST_CASE("solids take their remainder and any density of a heap", "[physics]") {
  DeclaredTerms lime;
  lime.form = Form::solid;
  lime.remainder = Component::solids;
  lime[Component::sugar] = Declared::by_mass(0.017);
  lime[Component::citric] = Declared::by_mass(0.05);
  CHECK(solved(lime).per_gram[Component::solids] == Approx(0.933));

  DeclaredTerms sugar;
  sugar.form = Form::solid;
  sugar[Component::sugar] = Declared::by_mass(1);
  CHECK(solved(sugar).per_gram[Component::sugar] == 1);
  CHECK(solved(sugar).per_gram[Component::water] == 0);
  sugar.density_g_per_ml = 0.85;
  const Composition heap = solved(sugar);
  CHECK(heap.density_disagreement == 0);
  CHECK(heap.of_ml(100)[Component::sugar] == Approx(85));
}

TEST_CASE("oil needs no water", "[physics]") {
  DeclaredTerms oil;
  oil[Component::fat] = Declared::by_mass(1);
  const Composition composition = solved(oil);
  CHECK(composition.per_gram[Component::fat] == 1);
  CHECK(composition.density_g_per_ml == Approx(0.917).margin(0.005));
}

TEST_CASE("dairy agrees with its handbook densities", "[physics]") {
  // Handbook and USDA weights: whole milk 1.03, heavy cream 0.99–1.01 g/ml.
  DeclaredTerms milk;
  milk[Component::fat] = Declared::by_mass(0.0325);
  milk[Component::protein] = Declared::by_mass(0.0315);
  milk[Component::sugar] = Declared::by_mass(0.048);
  milk[Component::other] = Declared::by_mass(0.007);
  CHECK(solved(milk).density_g_per_ml == Approx(1.03).margin(0.006));
  DeclaredTerms cream;
  cream[Component::fat] = Declared::by_mass(0.36);
  cream[Component::protein] = Declared::by_mass(0.02);
  cream[Component::sugar] = Declared::by_mass(0.03);
  CHECK(solved(cream).density_g_per_ml == Approx(0.99).margin(0.012));
}

TEST_CASE("egg white agrees with its handbook density", "[physics]") {
  // USDA National Nutrient Database for Standard Reference, release 27: 10.9 % protein; 1.035 g/ml common
  // handbook value.
  DeclaredTerms white;
  white[Component::protein] = Declared::by_mass(0.109);
  white[Component::sugar] = Declared::by_mass(0.007);
  white[Component::salt] = Declared::by_mass(0.005);
  CHECK(solved(white).density_g_per_ml == Approx(1.035).margin(0.01));
}

TEST_CASE("gas is declared in volumes", "[physics]") {
  DeclaredTerms tonic;
  tonic.carbon_dioxide_volumes = 3.5;
  tonic[Component::sugar] = Declared::per_100_ml(8);
  const Composition composition = solved(tonic);
  CHECK(composition.of_ml(1000)[Component::carbon_dioxide] == Approx(3.5 * 1.977).epsilon(1e-9));
}

TEST_CASE("nothing declared is water", "[physics]") {
  const Composition composition = solved({});
  CHECK(composition.per_gram[Component::water] == 1);
  CHECK(composition.density_g_per_ml == Approx(ethanol_water::water_density_g_per_ml));
}

TEST_CASE("parts that fill more than the whole are refused with the amounts", "[physics]") {
  DeclaredTerms liqueur;
  liqueur.strength = 0.60;
  liqueur[Component::sugar] = Declared::per_100_ml(80);
  const Impossible impossible = refused(liqueur);
  CHECK(impossible.reason == Impossible::Reason::water_negative);
  CHECK(impossible.declared > 105);
  CHECK(impossible.possible == 100);
}

TEST_CASE("parts that outweigh their density are refused with the amounts", "[physics]") {
  DeclaredTerms juice;
  juice[Component::sugar] = Declared::per_100_ml(110);
  juice.density_g_per_ml = 1.05;
  const Impossible impossible = refused(juice);
  CHECK(impossible.reason == Impossible::Reason::parts_over_whole);
  CHECK(impossible.declared == Approx(110));
  CHECK(impossible.possible == Approx(105));
}

TEST_CASE("mass fractions over one are refused", "[physics]") {
  DeclaredTerms butter;
  butter[Component::fat] = Declared::by_mass(0.81);
  butter[Component::protein] = Declared::by_mass(0.25);
  const Impossible impossible = refused(butter);
  CHECK(impossible.reason == Impossible::Reason::parts_over_whole);
  CHECK(impossible.declared == Approx(106));
  CHECK(impossible.possible == 100);
}

TEST_CASE("amounts below nothing or over the whole are refused alone", "[physics]") {
  DeclaredTerms terms;
  terms[Component::sugar] = Declared::per_100_ml(-1);
  CHECK(refused(terms).reason == Impossible::Reason::out_of_range);
  CHECK(refused(terms).component == Component::sugar);
  terms = {};
  terms.strength = 1.01;
  CHECK(refused(terms).component == Component::ethanol);
  CHECK(refused(terms).possible == 1);
  terms = {};
  terms[Component::fat] = Declared::by_mass(1.2);
  CHECK(refused(terms).declared == 1.2);
  terms = {};
  terms.density_g_per_ml = 0.0;
  CHECK(refused(terms).reason == Impossible::Reason::out_of_range);
  terms.density_g_per_ml = 1030.0;  // kg/m3 by mistake
  CHECK(refused(terms).reason == Impossible::Reason::out_of_range);
}

TEST_CASE("the rounding of a label is forgiven", "[physics]") {
  DeclaredTerms butter;
  butter.form = Form::solid;
  butter[Component::fat] = Declared::by_mass(0.8114);
  butter[Component::protein] = Declared::by_mass(0.0085);
  butter[Component::other] = Declared::by_mass(0.1803);
  const Composition composition = solved(butter);
  CHECK(composition.per_gram.total() == Approx(1).epsilon(1e-12));
  CHECK(composition.per_gram[Component::water] == 0);
}

TEST_CASE("strong spirits up to pure alcohol are composed", "[physics]") {
  for (const double strength_declared : {0.75, 0.96, 1.0}) {
    DeclaredTerms spirit;
    spirit.strength = strength_declared;
    const Composition composition = solved(spirit);
    CHECK(strength(composition.of_ml(50)) == Approx(strength_declared).epsilon(1e-6));
  }
}

// The simulator, act by act, on programs built by hand: every figure of `constants.h` is held to here.
#include <cmath>

#include "model/constants.h"
#include "model/physics/acid.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/foam.h"
#include "model/physics/gas.h"
#include "model/physics/heat.h"
#include "model/physics/volume.h"
#include "model/program.h"

#include <catch2/catch.hpp>

using namespace gill;
using namespace gill::model;
using units::Celsius;
using units::Density;
using units::GasVolumes;
using units::Grams;
using units::Millilitres;
using units::Seconds;
using units::Share;

namespace {

Masses masses(std::initializer_list<std::pair<Component, double>> parts) {
  Masses masses;
  for (auto [component, grams] : parts) masses[component] = grams;
  return masses;
}

/// A program of slots and acts, built a line at a time.
struct Recipe {
  Program program;

  std::size_t slot(const Masses& per_gram, double density = 1) {
    Slot slot;
    slot.per_gram = per_gram;
    slot.density = Density(density);
    program.slots.push_back(slot);
    return program.slots.size() - 1;
  }
  template <typename Act>
  Recipe& act(Act act) {
    program.operations.push_back({std::move(act), false, program.operations.size()});
    return *this;
  }
  Recipe& add(std::size_t slot, double grams, double celsius = 20) {
    return act(operation::Add{.slot = slot, .amount = Grams(grams), .temperature = Celsius(celsius)});
  }
  Outcome run() const {
    Simulator simulator(program);
    return simulator.run();
  }
};

const Masses water = only(Component::water, 1);
const Masses spirit = masses({{Component::water, 0.6}, {Component::ethanol, 0.4}});

operation::Chill shaken(double ice_g, double seconds = 12) {
  operation::Chill chill;
  chill.time = seconds;
  chill.ice = Grams(ice_g);
  return chill;
}

/// The reckonings of that type in a run.
template <typename Type>
std::vector<Type> reckoned(const Program& program) {
  std::vector<TraceStep> trace;
  Simulator simulator(program);
  simulator.run({}, &trace);
  std::vector<Type> found;
  for (const auto& step : trace)
    for (const auto& reckoning : step.work)
      if (const auto* one = std::get_if<Type>(&reckoning)) found.push_back(*one);
  return found;
}

}  // namespace

// ---- adding

TEST_CASE("what is poured together keeps its heat, and spirit poured into water warms it") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100, 10).add(slot, 300, 50);
  auto outcome = recipe.run();
  double heat = liquid_enthalpy_j(water * 100, 10) + liquid_enthalpy_j(water * 300, 50);
  CHECK(outcome.liquid[Component::water] == 400);
  CHECK(liquid_enthalpy_j(outcome.liquid, outcome.temperature_c) == Approx(heat).epsilon(1e-9));
  CHECK(outcome.temperature_c == Approx(40).margin(0.05));
  CHECK(outcome.slot_g[slot] == 400);
  CHECK(outcome.added_g == std::vector<double>{100, 300});
}

TEST_CASE("60 ml of spirit and 40 ml of water from one shelf are three kelvin warmer once they are mixed") {
  // J. Chem. Thermodynamics 7 (1975), Academic Press, at 25 °C: by hand, spirit of 40 % vol is 33.3 % by mass
  // and holds −35.7 J/g; with as much water again as makes 19.6 %, −36.1 J/g of the whole. 56.9 g × 35.7 =
  // 2031 J of it were given off before, 96.8 g × 36.1 = 3495 J are after: 1464 J warm 96.8 g × 4.34 J/(g K)
  // by 3.5 K.
  Recipe recipe;
  Masses rum;
  rum[Component::ethanol] = 18.94 / 56.88;
  rum[Component::water] = 37.94 / 56.88;
  recipe.add(recipe.slot(rum), 56.88, 20).add(recipe.slot(water), 39.93, 20);
  CHECK(recipe.run().temperature_c == Approx(23.5).margin(0.2));
}

TEST_CASE("a drink takes the heat of the glass that it touches, and no more") {
  for (double glass_c : {-18.0, 4.0, 20.0, 60.0}) {
    Recipe recipe;
    recipe.program.glass_j_per_k = 60;
    recipe.program.glass_temperature = Celsius(glass_c);
    recipe.add(recipe.slot(water), 150, 10).act(operation::StrainToGlass{Grams(0)});
    auto outcome = recipe.run();
    double before = liquid_enthalpy_j(water * 148.5, 10) + 60 * (glass_c - 25);
    double after =
        liquid_enthalpy_j(outcome.liquid, outcome.temperature_c) + 60 * (outcome.temperature_c - 25);
    CHECK(after == Approx(before).margin(1e-3));
    CHECK((outcome.temperature_c > 10) == (glass_c > 10));
  }
}

TEST_CASE("what rinses the glass is in the drink, built or strained onto it") {
  for (bool builds : {false, true}) {
    Recipe recipe;
    auto slot = recipe.slot(water);
    recipe.add(slot, 100).act(
        operation::Add{.slot = slot, .amount = Grams(2), .temperature = Celsius(20), .into_glass = true});
    if (builds)
      recipe.act(operation::Build{});
    else
      recipe.act(operation::StrainToGlass{});
    CHECK(recipe.run().liquid.total() == Approx(builds ? 102 : 101));
  }
}

TEST_CASE("wet ice gives its water once: stirred on again, it has none") {
  auto added = [](double wet_share, int times) {
    Recipe recipe;
    recipe.add(recipe.slot(water), 100, 0);
    recipe.act(operation::Build{Grams(100)});
    for (int i = 0; i < times; ++i)
      recipe.act(operation::Chill{
          .method = ChillMethod::churn, .time = 1, .ice = operation::GlassIce{}, .wet_share = wet_share});
    return recipe.run().melt_g;
  };
  CHECK(added(0.1, 1) - added(0, 1) == Approx(10).margin(0.2));
  CHECK(added(0.1, 2) - added(0, 2) == Approx(10).margin(0.2));
}

TEST_CASE("a poured amount of something denser weighs more, a weighed one does not") {
  for (bool weighed : {false, true}) {
    Recipe recipe;
    auto slot = recipe.slot(water, 1.0);
    recipe.act(operation::Add{.slot = slot, .amount = Grams(100), .temperature = {}, .is_weighed = weighed});
    Composition heavy;
    heavy.per_gram = water;
    heavy.density_g_per_ml = 1.25;
    Perturbation denser;
    denser.slots.resize(slot + 1);
    denser.slots[slot] = &heavy;
    Simulator simulator(recipe.program);
    CHECK(simulator.run(denser).liquid.total() == (weighed ? 100 : 125));
  }
}

TEST_CASE("an amount moved by a factor moves only itself") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100).add(slot, 10);
  Perturbation more;
  more.amounts = {1, 1.5};
  Simulator simulator(recipe.program);
  CHECK(simulator.run(more).liquid.total() == 115);
}

TEST_CASE("a rinse lies in the glass before the drink comes, and under it after") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.act(operation::Add{.slot = slot, .amount = Grams(2), .temperature = {}, .into_glass = true});
  recipe.add(slot, 100).act(operation::StrainToGlass{});
  CHECK(recipe.run().liquid.total() == Approx(2 + 99).epsilon(1e-12));
}

// ---- solved amounts

TEST_CASE("filling up to a volume comes to it exactly, contraction and all") {
  Recipe recipe;
  auto strong = recipe.slot(spirit), thin = recipe.slot(water);
  recipe.add(strong, 100).act(operation::Fill{thin, Millilitres(250), Celsius(20)});
  CHECK(volume_ml(recipe.run().liquid) == Approx(250).epsilon(1e-10));
}

TEST_CASE("filling up to a mass comes to it exactly") {
  Recipe recipe;
  auto strong = recipe.slot(spirit), thin = recipe.slot(water);
  recipe.add(strong, 100).act(operation::Fill{thin, Grams(250), Celsius(20)});
  auto outcome = recipe.run();
  CHECK(outcome.liquid.total() == Approx(250).epsilon(1e-10));
  CHECK(outcome.added_g[1] == Approx(150).epsilon(1e-10));
}

TEST_CASE("filling up to what is there already adds nothing and is solved, to less is not") {
  for (double target : {100.0, 99.0}) {
    Recipe recipe;
    auto slot = recipe.slot(water);
    recipe.add(slot, 100).act(operation::Fill{slot, Grams(target), Celsius(20)});
    auto outcome = recipe.run();
    CHECK(outcome.liquid.total() == 100);
    REQUIRE(outcome.unsolved.size() == (target < 100 ? 1 : 0));
    if (target < 100) CHECK(outcome.unsolved[0].operation == 1);
    if (target < 100) CHECK(outcome.unsolved[0].nearest == 100);
  }
}

TEST_CASE("acid is added until it is the stated share of the liquid") {
  Recipe recipe;
  auto base = recipe.slot(water), acid = recipe.slot(only(Component::citric, 1));
  recipe.program.portions = {{acid, 1}};
  recipe.add(base, 94).act(operation::Until{
      .first_portion = 0, .last_portion = 1, .target = units::MassFraction(0.06), .temperature = {}});
  auto outcome = recipe.run();
  // 6 g in 94 g of water are 6 % by mass.
  CHECK(outcome.liquid[Component::citric] == Approx(6).epsilon(1e-9));
}

/// What comes of 100 g of water to which sugar is added until it is as sweet as stated.
Masses sweetened_until(decltype(operation::Until::target) target) {
  Recipe recipe;
  auto base = recipe.slot(water), sugar = recipe.slot(only(Component::sugar, 1));
  recipe.program.portions = {{sugar, 1}};
  recipe.add(base, 100).act(operation::Until{.first_portion = 0,
                                             .last_portion = 1,
                                             .property = analysis::UntilProperty::sugar,
                                             .target = target,
                                             .temperature = {}});
  return recipe.run().liquid;
}

TEST_CASE("sugar is added until so many grams are in 100 ml") {
  CHECK(sugar_g_per_100_ml(sweetened_until(units::GramsInMillilitre(0.5))) == Approx(50).epsilon(1e-9));
}

TEST_CASE("sugar is added until it is the stated brix") {
  CHECK(sweetened_until(units::MassFraction(0.5))[Component::sugar] == Approx(100).epsilon(1e-9));
}

TEST_CASE("water brings a spirit down to a strength") {
  Recipe recipe;
  auto strong = recipe.slot(spirit), thin = recipe.slot(water);
  recipe.program.portions = {{thin, 1}};
  recipe.add(strong, 100)
      .act(operation::Until{.first_portion = 0,
                            .last_portion = 1,
                            .property = analysis::UntilProperty::strength,
                            .target = units::AlcoholByVolume(0.2),
                            .temperature = {}});
  auto outcome = recipe.run();
  CHECK(strength(outcome.liquid) == Approx(0.2).epsilon(1e-9));
  CHECK(outcome.unsolved.empty());
}

TEST_CASE("portions keep their proportions") {
  Recipe recipe;
  auto base = recipe.slot(water), citric = recipe.slot(only(Component::citric, 1)),
       malic = recipe.slot(only(Component::malic, 1));
  recipe.program.portions = {{citric, 0.75}, {malic, 0.25}};
  recipe.add(base, 100).act(operation::Until{
      .first_portion = 0, .last_portion = 2, .target = units::MassFraction(0.05), .temperature = {}});
  auto outcome = recipe.run();
  CHECK(outcome.slot_g[citric] == Approx(3 * outcome.slot_g[malic]).epsilon(1e-12));
  CHECK(citric_equivalents_g(outcome.liquid) / outcome.liquid.liquid() == Approx(0.05).epsilon(1e-9));
}

TEST_CASE("what no amount can reach is told with the nearest that can be") {
  auto nearest = [](double target) {
    Recipe recipe;
    auto base = recipe.slot(spirit),
         thin = recipe.slot(masses({{Component::water, 0.9}, {Component::ethanol, 0.1}}));
    recipe.program.portions = {{thin, 1}};
    recipe.add(base, 100).act(operation::Until{.first_portion = 0,
                                               .last_portion = 1,
                                               .property = analysis::UntilProperty::strength,
                                               .target = units::AlcoholByVolume(target),
                                               .temperature = {}});
    auto outcome = recipe.run();
    CHECK(outcome.liquid.total() == 100);
    REQUIRE(outcome.unsolved.size() == 1);
    return outcome.unsolved[0].nearest;
  };
  CHECK(nearest(0.05) == Approx(strength(masses({{Component::water, 0.9}, {Component::ethanol, 0.1}}))));
  CHECK(nearest(0.6) == Approx(strength(spirit)));
}

TEST_CASE("a top fills to its line, and a glass that is full takes none") {
  Recipe recipe;
  auto strong = recipe.slot(spirit), thin = recipe.slot(water);
  recipe.act(operation::Build{}).add(strong, 50).act(operation::Top{thin, Millilitres(180), Celsius(4)});
  CHECK(volume_ml(recipe.run().liquid) == Approx(180).epsilon(1e-10));
  recipe.act(operation::Top{thin, Millilitres(100), Celsius(4)});
  auto outcome = recipe.run();
  CHECK(volume_ml(outcome.liquid) == Approx(180).epsilon(1e-10));
  CHECK(outcome.added_g.back() == 0);
  CHECK(outcome.unsolved.empty());
}

// ---- where the drink goes

TEST_CASE("a strain loses one part in a hundred of everything, as the language allows at most") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  recipe.add(slot, 100).act(operation::StrainToGlass{Grams(0)});
  auto outcome = recipe.run();
  CHECK(outcome.liquid[Component::water] == Approx(59.4).epsilon(1e-12));
  CHECK(outcome.liquid[Component::ethanol] == Approx(39.6).epsilon(1e-12));
  CHECK(outcome.reached_glass);
  CHECK(outcome.mixed.total() == 100);
}

TEST_CASE("once in the glass, a drink is not strained again") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.act(operation::Build{Grams(0)}).add(slot, 100);
  recipe.act(operation::StrainToGlass{Grams(50)}).act(operation::Dump{Grams(50)});
  auto outcome = recipe.run();
  CHECK(outcome.liquid.total() == 100);
  CHECK(outcome.ice_g == 0);
}

TEST_CASE("a strain into the tin leaves ice and a hundredth behind, and the drink is in no glass") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100).act(shaken(300)).act(operation::StrainToTin{});
  auto outcome = recipe.run();
  CHECK(outcome.liquid.total() == Approx((100 + outcome.melt_g) * 0.99).epsilon(1e-12));
  CHECK(outcome.ice_g == 0);
  CHECK_FALSE(outcome.reached_glass);
}

TEST_CASE("a strain leaves the solids behind, a build and a dump keep them") {
  auto solids_left = [](auto act) {
    Recipe recipe;
    auto slot = recipe.slot(masses({{Component::water, 0.9}, {Component::solids, 0.1}}));
    recipe.add(slot, 100).act(act);
    return recipe.run().liquid[Component::solids];
  };
  CHECK(solids_left(operation::StrainToGlass{}) == 0);
  CHECK(solids_left(operation::StrainToTin{}) == 0);
  CHECK(solids_left(operation::Dump{}) == 10);
  CHECK(solids_left(operation::Build{}) == 10);
}

TEST_CASE("a dump brings the shaker's ice along, as much as the glass takes, and loses nothing") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100).act(shaken(300)).act(operation::Dump{Grams(120)});
  auto outcome = recipe.run();
  CHECK(outcome.ice_g == 120);
  CHECK(outcome.liquid.total() == Approx(100 + outcome.melt_g).epsilon(1e-12));
  Recipe little;
  slot = little.slot(water);
  little.add(slot, 100).act(shaken(60)).act(operation::Dump{Grams(120)});
  auto all = little.run();
  CHECK(all.ice_g == Approx(60 - all.melt_g).epsilon(1e-12));
}

TEST_CASE("a dumped drink has been chilled already: being served melts no more") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100).act(shaken(300));
  double shaken_melt = recipe.run().melt_g;
  recipe.act(operation::Dump{Grams(120)});
  CHECK(recipe.run().melt_g == shaken_melt);
}

TEST_CASE("a strained drink melts a little of its own ice as it is served, as if built for the usual time") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100).act(operation::StrainToGlass{Grams(80)});
  recipe.program.served_melt_rate = 0.65;
  recipe.program.served_ice_temperature = Celsius(-5);
  auto outcome = recipe.run();
  auto chilled = chill(ChillMethod::build, water * 99, 20, {.ice_g = 80, .ice_c = -5}, 0.65,
                       usual_time(ChillMethod::build), 20);
  CHECK(outcome.melt_g == Approx(chilled.water_added_g).epsilon(1e-12));
  CHECK(outcome.ice_g == Approx(80 - chilled.melt_g).epsilon(1e-12));
  CHECK(outcome.temperature_c == Approx(chilled.end_c).epsilon(1e-9));
}

TEST_CASE("the usual time on the serving ice is eight seconds") {
  // Common practice, no source: pour, garnish, hand over.
  CHECK(usual_time(ChillMethod::build) == 8);
}

TEST_CASE("a drink stirred on the glass's ice is not melted a second time as it is served") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  operation::Chill stir;
  stir.method = ChillMethod::stir;
  stir.time = 30;
  stir.ice = operation::GlassIce{};
  recipe.act(operation::Build{Grams(100)}).add(slot, 100).act(stir);
  auto outcome = recipe.run();
  auto chilled = chill(ChillMethod::stir, water * 100, 20, {.ice_g = 100}, 1, 30, 20);
  CHECK(outcome.melt_g == chilled.water_added_g);
  CHECK(outcome.ice_g == chilled.ice_left_g);
}

TEST_CASE("what no step moves is drunk from where it was mixed") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100);
  auto outcome = recipe.run();
  CHECK_FALSE(outcome.reached_glass);
  CHECK(outcome.liquid.total() == 100);
}

TEST_CASE("building takes what is mixed already into the glass") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 30).act(operation::Build{Grams(0)}).add(slot, 20);
  auto outcome = recipe.run();
  CHECK(outcome.liquid.total() == 50);
  CHECK(outcome.reached_glass);
}

// ---- chilling

TEST_CASE("ice by the drink is so much to each 100 ml of it") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  operation::Chill by_drink = shaken(0), by_weight = shaken(3 * volume_ml(water * 100));
  by_drink.ice = operation::IcePer100Ml{Grams(300)};
  Recipe other = recipe;
  recipe.add(slot, 100).act(by_drink);
  other.add(slot, 100).act(by_weight);
  CHECK(recipe.run().melt_g == Approx(other.run().melt_g).epsilon(1e-12));
  CHECK(recipe.run().ice_g == Approx(other.run().ice_g).epsilon(1e-12));
}

TEST_CASE("where the water is in the bottle, ice cools and adds nothing") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  auto chill = shaken(300);
  chill.water_is_in = true;
  recipe.add(slot, 100).act(chill);
  auto outcome = recipe.run();
  CHECK(outcome.melt_g == 0);
  CHECK(outcome.liquid.total() == 100);
  CHECK(outcome.temperature_c < 0);
  CHECK(reckoned<reckoning::CooledOnly>(recipe.program).size() == 1);
  CHECK(reckoned<reckoning::Diluted>(recipe.program).empty());
}

TEST_CASE("blended ice is water to the last gram, and none is left, shaken ice is not") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  auto blend = shaken(150, 20);
  blend.method = ChillMethod::blend;
  recipe.add(slot, 100).act(blend);
  auto outcome = recipe.run();
  CHECK(outcome.melt_g == 150);
  CHECK(outcome.ice_g == 0);
  CHECK(reckoned<reckoning::Diluted>(recipe.program)[0].is_blended);
}

TEST_CASE("an empty vessel is not chilled") {
  Recipe recipe;
  recipe.act(shaken(300));
  auto outcome = recipe.run();
  CHECK(outcome.melt_g == 0);
  CHECK(outcome.liquid.total() == 0);
}

TEST_CASE("a prep is not served: its ice melts no further") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.program.is_prep = true;
  recipe.act(operation::Build{Grams(100)}).add(slot, 100);
  CHECK(recipe.run().melt_g == 0);
  recipe.program.is_prep = false;
  CHECK(recipe.run().melt_g > 0);
}

TEST_CASE("shaking, whipping and blending drive out nine tenths of the gas, stirring none") {
  // Common practice, no source.
  auto left = [](ChillMethod method) {
    Recipe recipe;
    auto slot = recipe.slot(masses({{Component::water, 0.99}, {Component::carbon_dioxide, 0.01}}));
    auto chill = shaken(20);
    chill.method = method;
    recipe.add(slot, 100).act(chill);
    return recipe.run().liquid[Component::carbon_dioxide];
  };
  CHECK(left(ChillMethod::shake) == Approx(0.1));
  CHECK(left(ChillMethod::whip) == Approx(0.1));
  CHECK(left(ChillMethod::blend) == Approx(0.1));
  CHECK(left(ChillMethod::stir) == 1);
  CHECK(left(ChillMethod::swizzle) == 1);
}

TEST_CASE("a drink that stands melts as slowly as one twenty times as little stirred") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.act(operation::Build{Grams(100)}).add(slot, 100);
  Simulator simulator(recipe.program);
  auto served = simulator.run();
  auto later = simulator.stood_for(300);
  auto chilled = chill(ChillMethod::build, served.liquid, served.temperature_c, {.ice_g = served.ice_g},
                       1 / stirred_over_still, 300, 20);
  CHECK(stirred_over_still == 20);
  CHECK(later.ice_g == Approx(chilled.ice_left_g).epsilon(1e-12));
  CHECK(later.liquid.total() == Approx(served.liquid.total() + chilled.water_added_g).epsilon(1e-12));
  CHECK(later.temperature_c == chilled.end_c);
}

TEST_CASE("without ice a drink stays what it is while it stands") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100).act(operation::StrainToGlass{Grams(0)});
  Simulator simulator(recipe.program);
  auto served = simulator.run();
  auto later = simulator.stood_for(600);
  CHECK(later.liquid == served.liquid);
  CHECK(later.temperature_c == served.temperature_c);
}

// ---- foam (common practice, no source: foam.h)

namespace {

/// How far the foam of a shaken drink stands over its liquid, with so much egg white of 15 g needed.
double foam_rise(std::vector<Operation::Act> acts, double egg_g = 15, double fat_g = 0,
                 bool holds_fat = false) {
  Recipe recipe;
  auto base = recipe.slot(water), egg = recipe.slot(water), fat = recipe.slot(only(Component::fat, 1));
  recipe.program.slots[egg].foam_rise = 0.25;
  recipe.program.slots[egg].foam_rise_dry_last = 0.375;
  recipe.program.slots[egg].full_foam = Grams(15);
  recipe.program.slots[fat].holds_fat = holds_fat;
  recipe.add(base, 100);
  if (egg_g > 0) recipe.add(egg, egg_g);
  if (fat_g > 0) recipe.add(fat, fat_g);
  for (auto& act : acts) recipe.act(act);
  auto outcome = recipe.run();
  return outcome.foam_ml / volume_ml(outcome.liquid);
}

}  // namespace

TEST_CASE(
    "egg white foams in full after a dry shake, half as far with ice alone, furthest when dry comes last") {
  operation::DryShake dry;
  auto wet = shaken(300);
  CHECK(foam_rise({dry, wet}) == Approx(0.25));
  CHECK(foam_rise({dry}) == Approx(0.25));
  CHECK(foam_rise({wet}) == Approx(0.125));
  CHECK(foam_rise({wet, dry}) == Approx(0.375));
  CHECK(foam_rise({}) == 0);
  auto stir = wet;
  stir.method = ChillMethod::stir;
  CHECK(foam_rise({stir}) == 0);
}

TEST_CASE("a third of the egg white makes a third of the foam, twice as much no more") {
  CHECK(foam_rise({operation::DryShake{}}, 5) == Approx(0.25 / 3));
  CHECK(foam_rise({operation::DryShake{}}, 30) == Approx(0.25));
  CHECK(foam_rise({operation::DryShake{}}, 0) == 0);
}

TEST_CASE("more than a millilitre of free fat halves a foam, fat that is held does not") {
  double ml = specific_volume_ml_per_g(Component::fat);
  CHECK(foam_rise({operation::DryShake{}}, 15, 0.99 / ml) == Approx(0.25));
  CHECK(foam_rise({operation::DryShake{}}, 15, 1.01 / ml) == Approx(0.125));
  CHECK(foam_rise({operation::DryShake{}}, 15, 5 / ml, true) == Approx(0.25));
}

TEST_CASE("the foam comes along into the glass") {
  CHECK(foam_rise({operation::DryShake{}, operation::StrainToGlass{}}) == Approx(0.25));
}

// ---- heat and gas

namespace {

/// Share of the alcohol that is left after so long at that temperature.
double alcohol_left(double celsius, double minutes) {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  recipe.add(slot, 100).act(operation::Heat{Celsius(celsius), Seconds(60 * minutes)});
  return recipe.run().liquid[Component::ethanol] / 40;
}

}  // namespace

TEST_CASE("alcohol goes off at a simmer as the table has it") {
  // USDA Table of Nutrient Retention Factors, Release 6, U.S. Department of Agriculture, from memory.
  struct Row {
    double minutes, share;
  };
  for (const Row& row : {Row{0, 0.85}, Row{15, 0.40}, Row{30, 0.35}, Row{60, 0.25}, Row{90, 0.20},
                         Row{120, 0.10}, Row{150, 0.05}, Row{600, 0.05}}) {
    INFO(row.minutes);
    CHECK(alcohol_left(95, row.minutes) == Approx(row.share).epsilon(1e-12));
  }
  // Between the rows in a straight line.
  CHECK(alcohol_left(95, 7.5) == Approx(0.625).epsilon(1e-12));
  CHECK(alcohol_left(95, 45) == Approx(0.30).epsilon(1e-12));
}

TEST_CASE("alcohol begins to go off at 60 C, and half way to the simmer half as much is gone") {
  CHECK(alcohol_left(60, 15) == 1);
  CHECK(alcohol_left(20, 15) == 1);
  CHECK(alcohol_left(77.5, 15) == Approx(1 - 0.5 * 0.6).epsilon(1e-12));
  CHECK(alcohol_left(100, 15) == Approx(0.40).epsilon(1e-12));
}

TEST_CASE("heating tells what goes off, and only where something does") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  recipe.add(slot, 100).act(operation::Heat{Celsius(95), Seconds(900)});
  auto told = reckoned<reckoning::BoiledOff>(recipe.program);
  REQUIRE(told.size() == 1);
  CHECK(told[0].lost_g == Approx(24).epsilon(1e-12));
  CHECK(told[0].of_g == 40);
  CHECK(told[0].heated_to_c == 95);
  Recipe thin;
  slot = thin.slot(water);
  thin.add(slot, 100).act(operation::Heat{Celsius(95), Seconds(900)});
  CHECK(reckoned<reckoning::BoiledOff>(thin.program).empty());
}

TEST_CASE("a drink is flat from 50 C on") {
  auto gas_left = [](auto act) {
    Recipe recipe;
    auto slot = recipe.slot(masses({{Component::water, 0.99}, {Component::carbon_dioxide, 0.01}}));
    recipe.add(slot, 100).act(act);
    return recipe.run().liquid[Component::carbon_dioxide];
  };
  CHECK(gas_left(operation::Heat{Celsius(50), Seconds(0)}) == 0);
  CHECK(gas_left(operation::Heat{Celsius(49.9), Seconds(0)}) == 1);
  CHECK(gas_left(operation::SetTemperature{Celsius(50)}) == 0);
  CHECK(gas_left(operation::SetTemperature{Celsius(49.9)}) == 1);
}

TEST_CASE("set to a temperature, a drink has it and loses nothing") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  recipe.add(slot, 100).act(operation::SetTemperature{Celsius(80)});
  CHECK(recipe.run().temperature_c == Approx(80).epsilon(1e-9));
  CHECK(recipe.run().liquid.total() == 100);
}

TEST_CASE("carbonated to four volumes, a litre holds about 7.9 g") {
  // A volume is a litre of gas at 0 C and 1.01325 bar: 1.977 g (CRC Handbook of Chemistry and Physics, CRC
  // Press).
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 998.2).act(operation::Carbonate{GasVolumes(4)});
  CHECK(recipe.run().liquid[Component::carbon_dioxide] == Approx(4 * 1.977).epsilon(0.002));
  recipe.program.fridge = Celsius(3);
  auto told = reckoned<reckoning::Carbonated>(recipe.program);
  REQUIRE(told.size() == 1);
  CHECK(told[0].pressure_bar == Approx(carbonation_pressure_bar_gauge(4, {.celsius = 20})));
  CHECK(told[0].fridge_pressure_bar == Approx(carbonation_pressure_bar_gauge(4, {.celsius = 3})));
  CHECK(told[0].fridge_c == 3);
}

TEST_CASE("less gas than the air holds back takes no pressure") {
  Recipe recipe;
  auto slot = recipe.slot(water);
  recipe.add(slot, 100).act(operation::Carbonate{GasVolumes(0.1)});
  CHECK(reckoned<reckoning::Carbonated>(recipe.program)[0].pressure_bar == 0);
}

// ---- preps

namespace {

const Masses pulp = masses({{Component::water, 0.8}, {Component::solids, 0.2}});

Recipe strained_pulp(bool pressed, bool measured, double grams = 100) {
  Recipe recipe;
  recipe.program.is_prep = true;
  recipe.program.yield_measured = measured;
  auto slot = recipe.slot(pulp);
  recipe.add(slot, grams).act(operation::Strain{pressed});
  return recipe;
}

}  // namespace

TEST_CASE("strained solids keep two and a half times their weight of liquid, pressed ones one and a half") {
  // Common practice, no source.
  auto drained = strained_pulp(false, false).run(), pressed = strained_pulp(true, false).run();
  CHECK(drained.liquid.total() == Approx(80 - 2.5 * 20).epsilon(1e-12));
  CHECK(drained.held_back_g == Approx(50).epsilon(1e-12));
  CHECK(pressed.liquid.total() == Approx(80 - 1.5 * 20).epsilon(1e-12));
  auto told = reckoned<reckoning::HeldBack>(strained_pulp(false, false).program);
  REQUIRE(told.size() == 1);
  CHECK(told[0].what == reckoning::HeldBack::What::solids);
  CHECK(told[0].left_g == 20);
  CHECK(told[0].liquid_g == Approx(50).epsilon(1e-12));
}

TEST_CASE("a measured yield replaces the estimate of what is held back") {
  auto outcome = strained_pulp(false, true).run();
  CHECK(outcome.liquid.total() == 80);
  CHECK(outcome.held_back_g == 0);
  CHECK(reckoned<reckoning::HeldBack>(strained_pulp(false, true).program).empty());
}

TEST_CASE("solids never keep more than nine tenths of the liquid") {
  Recipe recipe;
  recipe.program.is_prep = true;
  auto slot = recipe.slot(masses({{Component::water, 0.5}, {Component::solids, 0.5}}));
  recipe.add(slot, 100).act(operation::Strain{});
  CHECK(recipe.run().liquid.total() == Approx(5).epsilon(1e-12));
}

TEST_CASE("a fat that is taken off again keeps about six tenths of its weight of spirit") {
  // 375 ml of spirit with 120 g of oil comes back as about 300 ml. Common practice, no source.
  Recipe recipe;
  recipe.program.is_prep = true;
  auto strong = recipe.slot(spirit), oil = recipe.slot(only(Component::fat, 1));
  recipe.add(strong, 375 * 0.95).add(oil, 120).act(operation::Remove{oil, Share(0)});
  auto outcome = recipe.run();
  CHECK(outcome.liquid[Component::fat] == 0);
  CHECK(outcome.held_back_g == Approx(0.59 * 120).epsilon(1e-12));
  CHECK(volume_ml(outcome.liquid) == Approx(300).margin(6));
  CHECK(outcome.slot_g[oil] == 0);
}

TEST_CASE("of what is removed but for a share, that share stays") {
  Recipe recipe;
  recipe.program.is_prep = true;
  auto strong = recipe.slot(spirit), oil = recipe.slot(only(Component::fat, 1));
  recipe.add(strong, 400).add(oil, 100).act(operation::Remove{oil, Share(0.1)});
  auto outcome = recipe.run();
  // What is held back is of the liquid, the fat that stayed in it included.
  CHECK(outcome.liquid[Component::fat] == Approx(10 * (410 - 0.59 * 90) / 410).epsilon(1e-12));
  CHECK(outcome.slot_g[oil] == Approx(10).epsilon(1e-12));
}

TEST_CASE("what has gone into the liquid does not come out again with the thing") {
  Recipe recipe;
  recipe.program.is_prep = recipe.program.yield_measured = true;
  auto base = recipe.slot(water),
       tea = recipe.slot(
           masses({{Component::sugar, 0.3}, {Component::protein, 0.1}, {Component::solids, 0.6}}));
  recipe.add(base, 100).add(tea, 10).act(operation::Remove{tea, Share(0)});
  auto outcome = recipe.run();
  CHECK(outcome.liquid[Component::sugar] == 3);
  CHECK(outcome.liquid[Component::solids] == 0);
  CHECK(outcome.liquid[Component::protein] == 0);
}

TEST_CASE("a clarification takes nearly all fat and four fifths of the protein, and the curd keeps liquid") {
  // General dairy science, from memory; what the curd keeps is common practice.
  Recipe recipe;
  recipe.program.is_prep = true;
  auto milk = recipe.slot(masses({{Component::water, 0.90},
                                  {Component::fat, 0.05},
                                  {Component::protein, 0.04},
                                  {Component::solids, 0.01}}));
  recipe.add(milk, 100).act(operation::Clarify{});
  auto outcome = recipe.run();
  double curd = 5 * 0.98 + 4 * 0.8, left = 90 + 5 * 0.02 + 4 * 0.2;
  CHECK(outcome.held_back_g == Approx(3 * curd).epsilon(1e-12));
  CHECK(outcome.liquid.total() == Approx(left - 3 * curd).epsilon(1e-12));
  CHECK(outcome.liquid[Component::solids] == 0);
  CHECK(outcome.liquid[Component::fat] / outcome.liquid.total() == Approx(0.1 / left).epsilon(1e-12));
  CHECK(outcome.liquid[Component::protein] / outcome.liquid.total() == Approx(0.8 / left).epsilon(1e-12));
  recipe.program.yield_measured = true;
  CHECK(recipe.run().liquid.total() == Approx(left).epsilon(1e-12));
}

TEST_CASE("boiled down to a volume, a mass or by a share, a syrup comes to it and keeps its sugar") {
  const Masses syrup = masses({{Component::water, 0.5}, {Component::sugar, 0.5}});
  auto reduced = [&](auto to) {
    Recipe recipe;
    recipe.program.is_prep = true;
    auto slot = recipe.slot(syrup);
    recipe.add(slot, 200).act(operation::Reduce{to});
    auto outcome = recipe.run();
    CHECK(outcome.liquid[Component::sugar] == 100);
    return outcome.liquid;
  };
  CHECK(volume_ml(reduced(Millilitres(120))) == Approx(120).epsilon(1e-6));
  CHECK(reduced(Grams(150)).total() == Approx(150).epsilon(1e-6));
  double before = volume_ml(syrup * 200);
  CHECK(volume_ml(reduced(Share(0.25))) == Approx(0.75 * before).epsilon(1e-6));
}

TEST_CASE("boiling drives off ethanol before water, and gas at once") {
  Recipe recipe;
  recipe.program.is_prep = true;
  auto wine = recipe.slot(
      masses({{Component::water, 0.89}, {Component::ethanol, 0.1}, {Component::carbon_dioxide, 0.01}}));
  recipe.add(wine, 1000).act(operation::Reduce{Grams(880)});
  auto outcome = recipe.run();
  double ethanol_left = outcome.liquid[Component::ethanol] / 100,
         water_left = outcome.liquid[Component::water] / 890;
  CHECK(ethanol_left < 0.6);
  CHECK(water_left > 0.9);
  CHECK(outcome.liquid[Component::carbon_dioxide] == 0);
  // The vapour over a dilute mixture is richer by the relative volatility (Rayleigh's equation of
  // differential distillation): ln of the ethanol's share left over ln of the water's is that volatility, by
  // mass.
  CHECK(std::log(ethanol_left) / std::log(water_left) == Approx(ethanol_relative_volatility).epsilon(0.02));
}

TEST_CASE("what is dried keeps a tenth of its dry weight of water and no spirit") {
  Recipe recipe;
  recipe.program.is_prep = true;
  auto fruit =
      recipe.slot(masses({{Component::water, 0.7}, {Component::ethanol, 0.1}, {Component::sugar, 0.2}}));
  recipe.add(fruit, 100).act(operation::Dehydrate{});
  auto outcome = recipe.run();
  CHECK(outcome.liquid[Component::ethanol] == 0);
  CHECK(outcome.liquid[Component::water] == Approx(2).epsilon(1e-12));
  CHECK(outcome.liquid[Component::sugar] == 20);
}

TEST_CASE("what is dry already takes no water by being dried") {
  Recipe recipe;
  recipe.program.is_prep = true;
  auto fruit = recipe.slot(masses({{Component::water, 0.01}, {Component::sugar, 0.99}}));
  recipe.add(fruit, 100).act(operation::Dehydrate{});
  CHECK(recipe.run().liquid[Component::water] == Approx(1).epsilon(1e-12));
}

// ---- the trace

TEST_CASE("the trace says of every line what is in the vessel, how cold, and what melted in it") {
  Recipe recipe;
  auto strong = recipe.slot(spirit), thin = recipe.slot(water);
  recipe.add(strong, 60).add(thin, 20).act(shaken(300)).act(operation::StrainToGlass{Grams(0)});
  std::vector<TraceStep> trace;
  Simulator simulator(recipe.program);
  auto outcome = simulator.run({}, &trace);
  REQUIRE(trace.size() == 4);
  CHECK(trace[0].contents.size() == 1);
  CHECK(trace[1].contents.size() == 2);
  CHECK(trace[1].after.masses.total() == 80);
  CHECK(trace[1].before.masses.total() == 60);
  CHECK(trace[2].melt_g == outcome.melt_g);
  CHECK(trace[1].melt_g == 0);
  CHECK(trace[2].after.ice_g == Approx(300 - outcome.melt_g).epsilon(1e-12));
  CHECK_FALSE(trace[2].in_glass);
  CHECK(trace[3].in_glass);
  CHECK(trace[3].after.temperature_c == outcome.temperature_c);
}

TEST_CASE("a run repeated gives the same, whatever was moved between") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  recipe.add(slot, 60).act(shaken(300)).act(operation::StrainToGlass{Grams(50)});
  Simulator simulator(recipe.program);
  auto once = simulator.run();
  Perturbation more;
  more.amounts = {2, 1, 1};
  CHECK(simulator.run(more).liquid.total() > 1.5 * once.liquid.total());
  auto again = simulator.run();
  CHECK(again.liquid == once.liquid);
  CHECK(again.temperature_c == once.temperature_c);
  CHECK(again.melt_g == once.melt_g);
}

TEST_CASE("a shake is explained by the fit, its correction and the water") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  recipe.add(slot, 100).act(shaken(300));
  auto fitted = reckoned<reckoning::Fitted>(recipe.program);
  auto diluted = reckoned<reckoning::Diluted>(recipe.program);
  REQUIRE(fitted.size() == 1);
  REQUIRE(diluted.size() == 1);
  CHECK(fitted[0].strength == Approx(strength(spirit)).epsilon(1e-12));
  CHECK(fitted[0].fit_dilution == shaken_dilution(strength(spirit)));
  CHECK(fitted[0].time_share == Approx(1));
  CHECK(diluted[0].water_g == recipe.run().melt_g);
  CHECK_FALSE(diluted[0].is_blended);
  CHECK(explain(diluted[0]).find("g of water join the drink") != std::string::npos);
  CHECK(explain(fitted[0]).find("published fit") != std::string::npos);
}

TEST_CASE("any other way is explained by the balance") {
  Recipe recipe;
  auto slot = recipe.slot(spirit);
  auto swizzle = shaken(200, 20);
  swizzle.method = ChillMethod::swizzle;
  recipe.add(slot, 100).act(swizzle);
  CHECK(reckoned<reckoning::Balanced>(recipe.program).size() == 1);
  CHECK(reckoned<reckoning::Fitted>(recipe.program).empty());
}

TEST_CASE("every reckoning has a sentence of its own") {
  std::vector<Reckoning> all = {reckoning::Fitted{},
                                reckoning::Balanced{},
                                reckoning::Diluted{},
                                reckoning::Diluted{1, 0, true},
                                reckoning::Diluted{.water_g = 1, .film_g = 0.5},
                                reckoning::MetGlass{},
                                reckoning::CooledOnly{},
                                reckoning::HeldBack{reckoning::HeldBack::What::solids, 1, 1},
                                reckoning::HeldBack{reckoning::HeldBack::What::fat, 1, 1},
                                reckoning::HeldBack{reckoning::HeldBack::What::removed, 1, 1},
                                reckoning::HeldBack{reckoning::HeldBack::What::curd, 1, 1},
                                reckoning::BoiledOff{},
                                reckoning::Carbonated{},
                                reckoning::Reduced{}};
  std::vector<std::string> sentences;
  for (const auto& reckoning : all) {
    auto sentence = explain(reckoning);
    CHECK(sentence.ends_with('.'));
    CHECK(std::find(sentences.begin(), sentences.end(), sentence) == sentences.end());
    sentences.push_back(sentence);
  }
}

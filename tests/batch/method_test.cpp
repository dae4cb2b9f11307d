// The drink as it is made: limits, directions and continuity of whole drinks, and the refinements of the
// method.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "model/physics/freezing.h"
#include "model/physics/gas.h"
#include "unit/driver/house_fixture.h"

using namespace gill;
using model::Component;
using test::compile;
using test::drink;
using test::stock;

namespace {

double freezing_point_of(const model::DrinkFacts& facts) {
  return model::freezing_point_c(facts.trace.back().after.masses);
}

/// Whether some line of the work of a drink or prep holds these words.
bool explanation_says(const std::vector<model::TraceStep>& trace, const std::string& words) {
  for (const auto& step : trace)
    for (const auto& reckoning : step.work)
      if (model::explain(reckoning).find(words) != std::string::npos) return true;
  return false;
}

const std::vector<std::string> liquids = {
    "vodka",      "London dry gin", "aged rum",       "lemon juice",     "simple syrup",
    "rich syrup", "sweet vermouth", "orange liqueur", "pineapple juice", "water"};

/// A build of two to five things, from a seeded source.
std::vector<std::pair<double, std::string>> random_build(std::mt19937& random) {
  std::vector<std::pair<double, std::string>> build;
  auto n = std::uniform_int_distribution<int>(2, 5)(random);
  for (int i = 0; i < n; ++i)
    build.emplace_back(0.5 * std::uniform_int_distribution<int>(20, 120)(random),
                       liquids[std::uniform_int_distribution<std::size_t>(0, liquids.size() - 1)(random)]);
  return build;
}

std::string drink_text(const std::string& name, const std::vector<std::pair<double, std::string>>& build,
                       const std::string& method, double first_scale = 1) {
  std::string text = "drink " + name + "\n";
  for (std::size_t i = 0; i < build.size(); ++i)
    text += fmt::format("  {:.6f} ml {}\n", build[i].first * (i == 0 ? first_scale : 1), build[i].second);
  return text + method;
}

/// Every way of chilling in a mixing vessel, with its length as a number to fill in.
std::string method_text(int which, double length, double ice_g = 300) {
  switch (which % 4) {
    case 0:
      return fmt::format("  shake {:.6f} s with {:.6f} g cubed\n  strain\n", length, ice_g);
    case 1:
      return fmt::format("  stir {:.6f} s with {:.6f} g cubed\n  strain\n", 3 * length, ice_g);
    case 2:
      return fmt::format("  whip {:.6f} s with {:.6f} g crushed\n  strain\n", length / 2, ice_g / 4);
    default:
      return fmt::format("  swizzle {:.6f} s with {:.6f} g crushed\n  strain\n", length, ice_g);
  }
}

}  // namespace

TEST_CASE("a drink without ice neither melts nor cools") {
  auto house = compile("drink A\n  ice none\n  50 ml vodka\n  25 ml lemon juice\n  build\n  stir 30 s\n");
  const auto& facts = drink(*house, "A");
  CHECK(facts.dilution_percent == 0);
  // Spirit and juice of 20 °C warm each other as they mix, by two to three kelvin.
  CHECK(facts.served.temperature_c == Approx(22.5).margin(1));
  CHECK(facts.served.volume_ml == Approx(facts.mixed.volume_ml));
  CHECK(facts.served_later.empty());
}

TEST_CASE("ice that melts whole adds its weight and no more") {
  // 10 g of ice give 10 / 0.99820 = 10.018 ml of water at 20 °C, over 75 ml of water and juice mixed.
  auto house = compile("drink A\n  75 ml water\n  stir 1 h with 10 g cubed\n  strain\n");
  const auto& facts = drink(*house, "A");
  CHECK(facts.dilution_percent == Approx(100 * 10.018 / 75).margin(0.15));
  // Ice at 0 °C takes 333.55 J/g to melt, and 4.18 J/g K warm its water: about 20 − 10 · (333.55 + 4.18 · 10)
  // / (74.87 · 4.18) = 8.0, and what an hour in the room gives on top; never above the room.
  CHECK(facts.served.temperature_c > 8);
  CHECK(facts.served.temperature_c <= 20);
}

TEST_CASE("no drink is colder than its freezing point, and none is warmer for ice") {
  auto house = compile(
      "drink Frozen\n  60 ml vodka, frozen\n  shake 20 s with 400 g cubed\n  strain\n"
      "drink Strong\n  60 ml neutral\n  shake 20 s with 400 g cubed\n  strain\n"
      "drink Soft\n  60 ml water\n  30 ml lemon juice\n  shake 20 s with 400 g cubed\n  strain\n"
      "drink Sweet\n  90 ml sixty\n  shake 20 s with 400 g cubed\n  strain\n"
      "ingredient neutral\n  kind spirit\n  strength 95 % abv\n  allergen none\n"
      "ingredient sixty\n  kind syrup\n  sugar 60 brix\n  allergen none\n"
      "house H\n  freezer -30 C\n  ice -18 C\n");
  for (const char* name : {"Frozen", "Strong", "Soft", "Sweet"}) {
    INFO(name);
    const auto& facts = drink(*house, name);
    REQUIRE(facts.valid);
    CHECK(facts.served.temperature_c >= freezing_point_of(facts) - 1e-6);
    CHECK(facts.served.temperature_c <= 20);
    CHECK(facts.dilution_percent >= 0);
    CHECK(std::isfinite(facts.served.volume_ml));
    CHECK(std::isfinite(facts.tolerance.volume_ml));
    CHECK(facts.served.abv_percent <= facts.mixed.abv_percent + 1e-9);
  }
  CHECK(drink(*house, "Strong").mixed.abv_percent == Approx(95).margin(0.01));
  CHECK(drink(*house, "Soft").served.abv_percent == 0);
  CHECK(drink(*house, "Soft").ethanol_g == 0);
  // 60 brix: 60 g of sugar in 100 g; at 1.28646 g/ml (ICUMSA, 20 °C) that is 77.19 g in 100 ml.
  CHECK(drink(*house, "Sweet").mixed.sugar_g_per_100ml == Approx(77.19).margin(0.05));
}

TEST_CASE("longer never melts less, colder ice never more, and more ice at 0 °C never less") {
  std::mt19937 random(21);
  for (int round = 0; round < 6; ++round) {
    std::string text;
    std::vector<std::vector<std::pair<double, std::string>>> builds;
    for (int i = 0; i < 8; ++i) {
      builds.push_back(random_build(random));
      const auto& build = builds.back();
      double length = std::uniform_real_distribution<double>(4, 20)(random),
             ice = std::uniform_real_distribution<double>(60, 400)(random);
      text += drink_text(fmt::format("Short {}", i), build, method_text(i, length, ice));
      text += drink_text(fmt::format("Long {}", i), build, method_text(i, 1.5 * length, ice));
      text += drink_text(fmt::format("Much {}", i), build, method_text(i, length, 1.5 * ice));
    }
    auto warm = compile(text + "house H\n  ice 0 C\n"), cold = compile(text + "house H\n  ice -10 C\n");
    for (int i = 0; i < 8; ++i) {
      INFO("round " << round << ", drink " << i << "\n"
                    << drink_text("X", builds[static_cast<std::size_t>(i)], method_text(i, 0)));
      const auto &few = drink(*warm, fmt::format("Short {}", i)),
                 &many = drink(*warm, fmt::format("Long {}", i));
      REQUIRE(few.valid);
      CHECK(many.dilution_percent >= few.dilution_percent - 1e-9);
      CHECK(drink(*cold, fmt::format("Short {}", i)).dilution_percent <= few.dilution_percent + 1e-9);
      CHECK(drink(*warm, fmt::format("Much {}", i)).dilution_percent >= few.dilution_percent - 1e-6);
    }
  }
}

TEST_CASE("working a drink in its glass never melts less than leaving it alone, and longer never less") {
  for (const char* verb : {"churn", "swizzle", "stir"}) {
    double before = 0;
    for (double seconds : {0.0, 1.0, 3.0, 6.0, 7.0, 8.0, 12.0, 20.0, 40.0}) {
      INFO(verb << " " << seconds << " s");
      auto house = compile(
          "drink A\n  glass double rocks\n  ice crushed\n  60 ml white rum\n  30 ml lime juice\n  10 ml "
          "simple syrup\n  build\n" +
          (seconds > 0 ? fmt::format("  {} {} s\n", verb, seconds) : std::string()));
      double melt = drink(*house, "A").dilution_percent;
      // But for what a room gives in the second or two that a quicker method is on the ice for less long.
      CHECK(melt >= before - 0.02);
      before = melt;
    }
  }
}

TEST_CASE("a reduction ends at the volume asked for") {
  for (double ml : {900.0, 500.0, 301.0, 299.7}) {
    auto house = compile(fmt::format("prep A\n  1 l sweet vermouth\n  reduce to {} ml\n", ml));
    CHECK(stock(*house, "A").yield_ml == Approx(ml).epsilon(2e-4));
  }
}

TEST_CASE("a thousandth more of anything moves no figure by more than two thousandths") {
  std::mt19937 random(22);
  auto within = [](double a, double b, double scale) {
    return std::abs(a - b) <= 0.002 * std::max(std::abs(a), scale);
  };
  std::string text, checked;
  constexpr int drinks = 60;
  std::vector<std::string> shown;
  for (int i = 0; i < drinks; ++i) {
    auto build = random_build(random);
    double length = std::uniform_real_distribution<double>(4, 20)(random),
           ice = std::uniform_real_distribution<double>(20, 400)(random);
    shown.push_back(drink_text("X", build, method_text(i, length, ice)));
    text += drink_text(fmt::format("Base {}", i), build, method_text(i, length, ice));
    text += drink_text(fmt::format("Time {}", i), build, method_text(i, 1.001 * length, ice));
    text += drink_text(fmt::format("Ice {}", i), build, method_text(i, length, 1.001 * ice));
    text += drink_text(fmt::format("Amount {}", i), build, method_text(i, length, ice), 1.001);
  }
  auto house = compile(text);
  for (int i = 0; i < drinks; ++i) {
    const auto& base = drink(*house, fmt::format("Base {}", i)).served;
    for (const char* moved : {"Time", "Ice", "Amount"}) {
      INFO(moved << " of\n" << shown[static_cast<std::size_t>(i)]);
      const auto& other = drink(*house, fmt::format("{} {}", moved, i)).served;
      CHECK(within(base.volume_ml, other.volume_ml, 1));
      CHECK(within(base.abv_percent, other.abv_percent, 1));
      CHECK(within(base.sugar_g_per_100ml, other.sugar_g_per_100ml, 1));
      CHECK(within(base.acid_g_per_100ml, other.acid_g_per_100ml, 0.1));
      // Of the 20 K and more that a drink falls.
      CHECK(within(base.temperature_c, other.temperature_c, 20));
    }
  }
}

TEST_CASE("a drink on ice thins while it stands") {
  auto house = compile(
      "drink A\n  glass rocks\n  ice large cube\n  60 ml bourbon whiskey\n  5 ml rich syrup\n  build\n  stir "
      "15 s\n"
      "drink B\n  glass coupe\n  60 ml bourbon whiskey\n  5 ml rich syrup\n  stir 30 s\n  strain\n");
  const auto& facts = drink(*house, "A");
  REQUIRE(facts.served_later.size() == 2);
  const auto &five = facts.served_later[0], &ten = facts.served_later[1];
  CHECK(five.minutes == 5);
  CHECK(ten.minutes == 10);
  CHECK(five.figures.abv_percent < facts.served.abv_percent);
  CHECK(ten.figures.abv_percent < five.figures.abv_percent);
  CHECK(ten.figures.volume_ml > five.figures.volume_ml);
  CHECK(ten.ice_g < five.ice_g);
  // The ethanol is the same: strength times volume stays.
  CHECK(ten.figures.abv_percent * ten.figures.volume_ml ==
        Approx(facts.served.abv_percent * facts.served.volume_ml).epsilon(1e-9));
  // Common practice, no source: a drink on one large piece gains a tenth to a third of its volume in ten
  // minutes.
  double gain = ten.figures.volume_ml / facts.served.volume_ml - 1;
  CHECK(gain > 0.08);
  CHECK(gain < 0.35);
  CHECK(drink(*house, "B").served_later.empty());
}

TEST_CASE("heating in the open drives alcohol off above 60 C") {
  auto house = compile(
      "drink Warm\n  50 ml aged rum\n  100 ml water\n  build\n  heat to 55 C\n"
      "drink Hot\n  50 ml aged rum\n  100 ml water\n  build\n  heat to 95 C\n"
      "prep Simmered\n  500 ml aged rum\n  500 ml water\n  simmer 30 min\n"
      "prep Stewed\n  500 ml aged rum\n  500 ml water\n  simmer 45 min\n");
  const auto &warm = drink(*house, "Warm"), &hot = drink(*house, "Hot");
  CHECK(warm.ethanol_g == Approx(hot.ethanol_g / 0.85).epsilon(1e-9));
  // USDA Table of Nutrient Retention Factors, Release 6, from memory: 85 % stay when a boiling liquid is
  // taken off the heat, 35 % after half an hour at the simmer and 25 % after an hour.
  double before = 500 * stock(*house, "aged rum").composition.of_ml(1)[Component::ethanol];
  const auto &simmered = stock(*house, "Simmered"), &stewed = stock(*house, "Stewed");
  CHECK(simmered.composition.per_gram[Component::ethanol] * simmered.yield_g ==
        Approx(0.35 * before).epsilon(1e-6));
  CHECK(stewed.composition.per_gram[Component::ethanol] * stewed.yield_g ==
        Approx(0.30 * before).epsilon(1e-6));
  CHECK(explanation_says(hot.trace, "go off in the open"));
  CHECK_FALSE(explanation_says(warm.trace, "go off in the open"));
}

TEST_CASE("a bottle batched with its water is not diluted a second time") {
  const std::string build = "  50 ml London dry gin\n  25 ml dry vermouth\n";
  auto house = compile(
      "drink Poured\n" + build +
      "  stir 30 s\n  strain\n"
      "drink Bottled\n" +
      build +
      "  batched London dry gin, dry vermouth, with water\n  stir 30 s\n  strain\n"
      "drink Measured\n" +
      build + "  30 ml water\n  batched London dry gin, dry vermouth, with water\n  stir 30 s\n  strain\n");
  const auto &poured = drink(*house, "Poured"), &bottled = drink(*house, "Bottled"),
             &measured = drink(*house, "Measured");
  // The stir says how much water the bottle gets: once.
  CHECK(bottled.served.abv_percent == Approx(poured.served.abv_percent));
  CHECK(bottled.bottle_water_ml == Approx(bottled.dilution_percent / 100 * bottled.mixed.volume_ml));
  // A written water line is that water: the ice only cools.
  CHECK(measured.dilution_percent == 0);
  CHECK(measured.served.abv_percent == Approx(measured.mixed.abv_percent));
  CHECK(measured.served.temperature_c < 5);
}

TEST_CASE("a strain to the tin leaves ice and one hundredth behind, and foam stands higher dry last") {
  const std::string build =
      "  50 ml London dry gin\n  25 ml lemon juice\n  20 ml simple syrup\n  1 egg white\n";
  auto house = compile("drink First\n" + build +
                       "  dry shake 15 s\n  shake 12 s\n  strain\n"
                       "drink Last\n" +
                       build + "  shake 12 s\n  strain to tin\n  dry shake 15 s\n  strain\n");
  const auto &first = drink(*house, "First"), &last = drink(*house, "Last");
  CHECK(last.ethanol_g == Approx(0.99 * first.ethanol_g).epsilon(1e-9));
  CHECK(last.served.abv_percent == Approx(first.served.abv_percent).epsilon(1e-9));
  CHECK(last.in_glass.foam_ml > first.in_glass.foam_ml);
  CHECK(last.in_glass.ice_g == 0);
}

TEST_CASE("half of a rim is drunk, for its energy alone") {
  auto house = compile(
      "drink Plain\n  60 ml tequila blanco\n  30 ml lime juice\n  shake 12 s\n  strain\n"
      "drink Rimmed\n  60 ml tequila blanco\n  30 ml lime juice\n  rim white sugar\n  shake 12 s\n  "
      "strain\n");
  // 3 g of sugar on the rim, half of it drunk, at 4 kcal/g (EU 1169/2011, Annex XIV): 6 kcal.
  CHECK(drink(*house, "Rimmed").energy_kcal == Approx(drink(*house, "Plain").energy_kcal + 6).margin(0.01));
  CHECK(drink(*house, "Rimmed").served.sugar_g_per_100ml ==
        Approx(drink(*house, "Plain").served.sugar_g_per_100ml));
}

TEST_CASE("carbonation tells the pressure that it takes") {
  auto house = compile(
      "drink A\n  40 ml vodka\n  120 ml water, chilled\n  build\n  carbonate to 3.5 vol\nhouse H\n  fridge 4 "
      "C\n");
  // Fresh water dissolves 1.49 volumes at 4 °C and one atmosphere (Marine Chemistry 2, 1974): 3.5 take
  // about 3.5 / 1.49 · 1.013 − 1.013 = 1.37 bar over the air.
  double in_water = model::carbonation_pressure_bar_gauge(3.5, {.celsius = 4});
  CHECK(in_water == Approx(1.37).margin(0.05));
  // A tenth of it is alcohol, which holds an eighth less.
  double bar = model::carbonation_pressure_bar_gauge(3.5, {.celsius = 4, .strength = 0.10});
  CHECK(bar > in_water + 0.2);
  CHECK(explanation_says(drink(*house, "A").trace, fmt::format("{:.1f} bar at the fridge's 4 C", bar)));
}

TEST_CASE("pressed solids keep less than drained ones") {
  auto house = compile(
      "prep Drained\n  500 ml vodka\n  200 g mint\n  infuse 1 d\n  strain\n"
      "prep Pressed\n  500 ml vodka\n  200 g mint\n  infuse 1 d\n  press\n");
  CHECK(stock(*house, "Pressed").yield_ml > stock(*house, "Drained").yield_ml);
  CHECK(stock(*house, "Pressed").abv_percent == Approx(stock(*house, "Drained").abv_percent));
  CHECK(stock(*house, "Drained").loss_percent > stock(*house, "Pressed").loss_percent);
}

#include <catch2/catch.hpp>

#include "accuracy/table.h"
#include "unit/driver/house_fixture.h"

// What every bar knows and no book states: common practice, no source.

using namespace gill;
using namespace gill::accuracy;
using diagnostics::Rule;

namespace {

constexpr std::string_view practice = "Common practice, no source";

/// What a drink's first line comes to.
const model::Entry& first_line(const driver::Compilation& house) {
  return test::drink(house, "A").entries.at(0);
}

/// The words of the first finding of a rule; empty where there is none.
std::string words_of(const driver::Compilation& house, Rule rule) {
  for (const auto& finding : house.findings)
    if (finding.rule == rule) return finding.message + " " + finding.help;
  return {};
}

}  // namespace

TEST_CASE("a bar ounce of 30 ml makes 3/4 oz 22.5 ml and 1/4 oz 7.5 ml", "[accuracy]") {
  Table table({"common_practice-ounce", practice, "fractions of a bar ounce of 30 ml", "ml"}, within(1e-9));
  table.add("3/4 oz", 22.5, first_line(*test::compile("drink A\n  3/4 oz lemon juice\n")).volume_ml.value());
  table.add("1/4 oz", 7.5, first_line(*test::compile("drink A\n  1/4 oz lemon juice\n")).volume_ml.value());
  table.add("1 1/2 oz", 45,
            first_line(*test::compile("drink A\n  1 1/2 oz lemon juice\n")).volume_ml.value());
  table.check();
}

TEST_CASE(
    "cards that write 22 ml for 3/4 oz and 7 ml for 1/4 oz differ by 2 % and 7 %, and only the second is "
    "told",
    "[accuracy]") {
  const auto three_quarters = test::compile("drink A\n  3/4 oz = 22 ml lemon juice\n");
  const auto quarter = test::compile("drink A\n  1/4 oz = 7 ml lemon juice\n");
  Table table(
      {"common_practice-rounded-cards", practice, "cards rounded to whole millilitres, too little by", "%"},
      within(0.5));
  table.add("22 ml for 3/4 oz", 2, 100 * (1 - 22 / first_line(*three_quarters).volume_ml.value()));
  table.add("7 ml for 1/4 oz", 7, 100 * (1 - 7 / first_line(*quarter).volume_ml.value()));
  table.check();
  CHECK(test::count(*three_quarters, Rule::unequal_measures) == 0);
  CHECK(test::count(*quarter, Rule::unequal_measures) == 1);
}

TEST_CASE("a fat wash of 375 ml of spirit with 120 g of oil returns about 300 ml", "[accuracy]") {
  const auto house = test::compile(
      "prep washed rye\n  375 ml rye whiskey\n  120 g toasted sesame oil\n  shake 30 s\n  rest 4 h at 20 C\n"
      "  freeze 12 h at -18 C\n  remove toasted sesame oil\n  fine strain\n  keeps 30 d chilled\n");
  Table table(
      {"common_practice-fat-wash", practice, "375 ml of spirit washed with 120 g of oil returns", "ml"},
      within(10));
  table.add("washed rye", 300, test::stock(*house, "washed rye").yield_ml);
  table.check();
}

TEST_CASE("four fluid ounces of oil weigh about 108 g, not 120 g, and the check says so", "[accuracy]") {
  Table table({"common_practice-oil", practice, "weight of 4 US fluid ounces of oil", "g"}, within(1.5));
  for (const char* oil : {"olive oil", "rapeseed oil", "sunflower oil", "toasted sesame oil"})
    table.add(oil, 108,
              first_line(*test::compile(std::string("drink A\n  4 us oz ") + oil + "\n")).mass_g.value());
  table.check();
  CHECK(test::count(*test::compile("drink A\n  4 us oz = 108 g olive oil\n"), Rule::unequal_measures) == 0);
  const auto as_water = test::compile("drink A\n  4 us oz = 120 g olive oil\n");
  REQUIRE(test::count(*as_water, Rule::unequal_measures) == 1);
  CHECK_THAT(words_of(*as_water, Rule::unequal_measures), Catch::Contains("108"));
}

TEST_CASE("one large egg white is about 30 ml", "[accuracy]") {
  Table table({"common_practice-egg-white", practice, "one large egg white", "ml"}, within(1));
  table.add("1 egg white", 30, first_line(*test::compile("drink A\n  1 egg white\n")).volume_ml.value());
  table.check();
}

TEST_CASE("drinks are handed over about as cold, and as watered down, as bars find them", "[accuracy]") {
  struct Row {
    const char* way;
    const char* text;
    double coldest, warmest, least_percent, most_percent;
  };
  const std::string sour = "  60 ml white rum\n  25 ml lime juice\n  15 ml simple syrup\n";
  const std::string spirit = "  60 ml rye whiskey\n  30 ml sweet vermouth\n";
  const std::pair<std::string, Row> rows[] = {
      {sour + "  shake 12 s with 300 g cubed\n  strain\n",
       {"shaken, cold glass", "  glass coupe, frozen\n", -8, -4, 45, 65}},
      {spirit + "  stir 30 s\n  strain\n",
       {"stirred, cold glass", "  glass coupe, chilled\n", -5, 1, 25, 45}},
      {"  60 ml fino sherry\n  30 ml sweet vermouth\n  throw 6\n  strain\n",
       {"thrown", "  glass coupe, chilled\n", -2, 4, 20, 35}},
      {"  50 ml vodka\n  120 ml tomato juice, chilled\n  roll 5\n  strain\n",
       {"rolled", "  glass highball\n", -2, 3, 10, 30}},
      {sour + "  swizzle 20 s\n", {"swizzled", "  glass collins\n  ice crushed\n", -5, -1, 40, 65}},
      {"  60 ml white rum\n  25 ml lime juice\n  25 ml simple syrup\n  blend 20 s with 120 g crushed\n  "
       "dump\n",
       {"blended", "  glass hurricane, chilled\n", -6, -3, 90, 130}},
      {"  45 ml London dry gin, chilled\n  120 ml tonic water\n  build\n",
       {"built long, cold gin", "  glass highball\n", 0, 7, 5, 25}},
      {"  60 ml bourbon whiskey\n  5 ml rich syrup\n  build\n  stir 20 s\n",
       {"stirred on a large cube", "  glass rocks\n  ice large cube\n", -1, 7, 15, 30}},
      {"  50 ml aged rum\n  15 ml lemon juice\n  15 ml honey syrup\n  150 ml boiling water\n  build\n",
       {"hot, warmed mug", "  glass mug, warmed\n", 62, 78, 0, 0}},
  };
  Table cold({"common_practice-temperature", practice, "temperature as handed over", "C"}, within(0.05));
  Table water({"common_practice-dilution", practice, "dilution as handed over", "%"}, within(0.05));
  for (const auto& [build, row] : rows) {
    const auto house = test::compile(std::string("drink A\n") + row.text + build + "  garnish none\n");
    const auto& drink = test::drink(*house, "A");
    cold.add_range(row.way, row.coldest, row.warmest, drink.served.temperature_c);
    water.add_range(row.way, row.least_percent, row.most_percent, drink.dilution_percent);
  }
  cold.check();
  water.check();
}

TEST_CASE(
    "a glass from the shelf warms 100 ml of a cold drink by 1 to 3 K, a cold mug cools a toddy by 5 to 12",
    "[accuracy]") {
  auto celsius = [](const std::string& glass, const std::string& build) {
    return test::drink(*test::compile("drink A\n  glass " + glass + "\n" + build + "  garnish none\n"), "A")
        .served.temperature_c;
  };
  const std::string stirred = "  50 ml London dry gin\n  20 ml dry vermouth\n  stir 30 s\n  strain\n";
  const std::string toddy = "  50 ml aged rum\n  20 ml honey syrup\n  150 ml boiling water\n  build\n";
  Table table({"common_practice-glass", practice, "what a glass does to its drink", "K"}, within(0.05));
  for (const char* glass : {"coupe", "cocktail glass", "small coupe"})
    table.add_range(std::string("room glass against frozen, halfway: ") + glass, 0.5, 3,
                    (celsius(glass, stirred) - celsius(std::string(glass) + ", frozen", stirred)) / 2);
  table.add_range("toddy, warmed mug against one from the shelf", 4, 12,
                  celsius("mug, warmed", toddy) - celsius("mug", toddy));
  table.check();
}

TEST_CASE("what is strained off, washed or pressed comes back as bars measure it", "[accuracy]") {
  auto yield_ml = [](const std::string& lines) {
    return test::stock(*test::compile("prep p\n" + lines + "  keeps 7 d chilled\n"), "p").yield_ml;
  };
  Table table({"common_practice-yields", practice, "yield of a prep", "ml"}, within(1));
  table.add_range(
      "700 ml of spirit washed with 140 g of butter", 610, 660,
      yield_ml("  700 ml bourbon whiskey\n  140 g butter\n  rest 2 h\n  freeze 12 h\n  strain\n"));
  table.add_range("700 ml of gin on 300 g of strawberries, strained", 680, 780,
                  yield_ml("  700 ml London dry gin\n  300 g strawberry\n  infuse 2 d\n  strain\n"));
  table.add_range("the same, pressed", 880, 980,
                  yield_ml("  700 ml London dry gin\n  300 g strawberry\n  infuse 2 d\n  press\n"));
  table.add_range("700 ml of vodka on the peel of 6 lemons", 670, 710,
                  yield_ml("  700 ml vodka\n  60 g lemon peel\n  infuse 2 d\n  strain\n"));
  table.add_range("1 l of water on 20 g of black tea", 930, 970,
                  yield_ml("  1 l water\n  20 g black tea leaves\n  infuse 5 min\n  strain\n"));
  table.add_range("750 ml of wine mulled with an orange", 700, 800,
                  yield_ml("  750 ml dry red wine\n  1 orange\n  heat to 75 C for 20 min\n  strain\n"));
  table.check();
}

TEST_CASE("foam and level stand as bars see them", "[accuracy]") {
  auto drink = [](const std::string& lines) {
    return test::drink(*test::compile("drink A\n" + lines + "  garnish none\n"), "A");
  };
  const std::string base =
      "  glass coupe\n  45 ml London dry gin\n  25 ml lemon juice\n  15 ml simple syrup\n";
  auto rise = [&](const std::string& lines) {
    const auto facts = drink(base + lines);
    return 100 * facts.in_glass.foam_ml / facts.in_glass.liquid_ml;
  };
  Table foam({"common_practice-foam", practice, "foam over the liquid", "%"}, within(0.5));
  foam.add_range("egg white, dry shaken first", 20, 35,
                 rise("  20 ml egg white\n  dry shake 15 s\n  shake 12 s\n  double strain\n"));
  foam.add_range("egg white, dry shaken last", 30, 45,
                 rise("  20 ml egg white\n  shake 12 s\n  strain to tin\n  dry shake 15 s\n  strain\n"));
  foam.add_range("pineapple juice", 7, 25, rise("  30 ml pineapple juice\n  shake 12 s\n  strain\n"));
  foam.check();
  // Floating ice displaces its own mass of what it swims in (Archimedes).
  const auto on_ice = drink("  glass double rocks\n  ice large cube\n  100 ml water, at 0 C\n  build\n");
  Table level({"common_practice-level", "Archimedes' principle, worked out",
               "room that floating ice takes below the surface", "ml"},
              within(0.05));
  level.add("a large cube in water", on_ice.in_glass.ice_g / on_ice.served.density_g_per_ml,
            on_ice.in_glass.ice_below_ml);
  level.check();
}

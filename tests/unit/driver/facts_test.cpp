#include <catch2/catch.hpp>

#include "house_fixture.h"

using namespace gill;
using diagnostics::Rule;
using test::compile;
using test::count;
using test::drink;
using test::stock;

TEST_CASE("a shaken drink with bar ice is diluted as the published fit says") {
  // Liquid Intelligence, W. W. Norton, 2014, coefficients from memory: D = -1.567 A^2 + 1.742 A + 0.203.
  auto house = compile(
      "drink A\n  60 ml white rum\n  20 ml lime juice\n  8 g white sugar\n  shake 12 s\n  double strain\n");
  const auto& facts = drink(*house, "A");
  double a = facts.mixed.abv_percent / 100;
  CHECK(facts.dilution_percent / 100 == Approx(-1.567 * a * a + 1.742 * a + 0.203).margin(0.002));
}

TEST_CASE("a stirred drink with bar ice is diluted as the published fit says") {
  // The same source: D = -1.21 A^2 + 1.246 A + 0.145.
  auto house = compile("drink A\n  50 ml rye whiskey\n  20 ml sweet vermouth\n  stir 30 s\n  strain\n");
  const auto& facts = drink(*house, "A");
  double a = facts.mixed.abv_percent / 100;
  CHECK(facts.dilution_percent / 100 == Approx(-1.21 * a * a + 1.246 * a + 0.145).margin(0.002));
}

TEST_CASE("without ice a drink keeps its strength and its temperature") {
  auto house = compile("drink A\n  build\n  50 ml vodka\n  ice none\n");
  const auto& facts = drink(*house, "A");
  CHECK(facts.served.abv_percent == Approx(40).margin(1e-9));
  CHECK(facts.served.volume_ml == Approx(50).margin(1e-9));
  CHECK(facts.served.temperature_c == Approx(20));
  CHECK(facts.dilution_percent == 0);
}

TEST_CASE("fifty millilitres of forty per cent spirit are two UK units and half") {
  // UK Department of Health: units = ml x % abv / 1000.
  auto house = compile("drink A\n  build\n  25 ml vodka\n  ice none\n");
  CHECK(drink(*house, "A").alcohol_units.at("UK") == Approx(1.0).margin(0.02));
}

TEST_CASE("a syrup of one to one by mass is fifty brix and 61.48 g in 100 ml") {
  // ICUMSA SPS-4 sucrose density, 50 brix: 1229.65 kg/m3.
  auto house = compile("prep syrup A\n  500 g white sugar\n  500 g water\n  dissolve\n");
  CHECK(stock(*house, "syrup A").brix == Approx(50).margin(0.1));
  CHECK(stock(*house, "syrup A").density_g_per_ml == Approx(1.22965).margin(0.0005));
  CHECK(stock(*house, "syrup A").sugar_g_per_100ml == Approx(61.48).margin(0.15));
}

TEST_CASE("an amount until a strength brings the vessel to that strength") {
  auto house = compile("prep A\n  700 ml London dry gin\n  until strength 30 % abv water\n  stir\n");
  CHECK(stock(*house, "A").abv_percent == Approx(30).margin(1e-9));
}

TEST_CASE("an amount until an acidity counts citric equivalents of all its parts") {
  auto house = compile(
      "prep A\n  1 l orange juice\n  until acid 6 % w/v 2 parts citric acid, 1 part malic acid\n  stir\n");
  const auto& facts = stock(*house, "A");
  CHECK(facts.acid_g_per_100ml == Approx(6).margin(1e-9));
  CHECK(facts.entries[1].solved);
  CHECK(*facts.entries[1].mass_g == Approx(2 * *facts.entries[2].mass_g));
}

TEST_CASE("an amount until brings sugar to a brix") {
  auto house = compile("prep A\n  1 l water\n  until sugar 50 brix white sugar\n  dissolve\n");
  CHECK(stock(*house, "A").brix == Approx(50).margin(1e-9));
}

TEST_CASE("an amount that cannot reach its value says how near it comes") {
  auto house = compile("prep A\n  1 l water\n  until strength 20 % abv orange juice\n");
  REQUIRE(count(*house, Rule::impossible_composition) == 1);
  CHECK(test::first(*house, Rule::impossible_composition).message.find("the nearest it comes is 0 %") !=
        std::string::npos);
}

TEST_CASE("filling up to a total leaves that total") {
  auto house = compile("prep A\n  100 g white sugar\n  200 ml vodka\n  to 1 l water\n  stir\n");
  CHECK(stock(*house, "A").yield_ml == Approx(1000).margin(1e-6));
}

TEST_CASE("a measured yield sets the loss of what would be in the vessel") {
  auto house = compile(
      "prep washed\n  700 ml rye whiskey\n  140 g toasted sesame oil\n  shake 30 s\n  freeze 12 h\n"
      "  remove toasted sesame oil\n  makes 630 ml\n  keeps 30 d chilled\n");
  CHECK(stock(*house, "washed").loss_percent == Approx(10).margin(1e-6));
  CHECK(stock(*house, "washed").abv_percent == Approx(45).margin(1e-6));
}

TEST_CASE("a washed spirit without a measured yield leaves some of itself with the fat") {
  // Common practice, no source: 375 ml of spirit with 120 g of oil returns about 300 ml.
  auto house =
      compile("prep washed\n  375 ml rye whiskey\n  120 g toasted sesame oil\n  remove toasted sesame oil\n");
  CHECK(stock(*house, "washed").yield_ml == Approx(300).margin(10));
}

TEST_CASE("washing and straining never clear an allergen") {
  auto house = compile(
      "prep washed\n  700 ml rye whiskey\n  140 g toasted sesame oil\n  remove toasted sesame oil\n"
      "  fine strain, through coffee filter\n  makes 610 ml\n"
      "drink A\n  60 ml washed\n  stir 30 s\n  strain\n");
  CHECK(drink(*house, "A").allergens.present() == std::vector<std::string>{"sesame"});
}

TEST_CASE("a fruit gives muddled what it gives squeezed, and blended all of it") {
  // The juice of one lime: stdlib, common practice (`gives 30 ml lime juice`).
  auto house = compile(
      "drink Muddled\n  glass rocks\n  60 ml vodka\n  1 lime\n  muddle\n  shake 12 s\n  strain\n"
      "drink Squeezed\n  glass rocks\n  60 ml vodka\n  30 ml lime juice\n  shake 12 s\n  strain\n"
      "drink Blended\n  glass rocks\n  60 ml vodka\n  1 lime\n  blend 10 s with 100 g crushed\n  strain\n");
  auto acid_g = [&](const char* name) {
    const auto& served = drink(*house, name).served;
    return served.acid_g_per_100ml * served.volume_ml / 100;
  };
  CHECK(acid_g("Muddled") == Approx(acid_g("Squeezed")).epsilon(0.03));
  CHECK(acid_g("Blended") > 1.3 * acid_g("Squeezed"));
}

TEST_CASE("a garnish counts for allergens and not for the liquid") {
  auto house = compile(
      "drink A\n  50 ml vodka\n  stir 30 s\n  strain\n"
      "drink B\n  50 ml vodka\n  stir 30 s\n  strain\n  garnish sesame seed\n");
  CHECK(drink(*house, "A").served.volume_ml == drink(*house, "B").served.volume_ml);
  CHECK(drink(*house, "A").allergens.present().empty());
  CHECK(drink(*house, "B").allergens.present() == std::vector<std::string>{"sesame"});
}

TEST_CASE("an ingredient that says nothing of allergens leaves the drink's not known") {
  auto house = compile(
      "ingredient mystery\n  kind liqueur\n  strength 20 % abv\ndrink A\n  30 ml mystery\n  stir 30 s\n  "
      "strain\n");
  CHECK_FALSE(drink(*house, "A").allergens.known);
}

TEST_CASE("an unknown garnish leaves the allergens not known") {
  auto house = compile("drink A\n  50 ml vodka\n  stir 30 s\n  strain\n  garnish marzipan pig\n");
  CHECK_FALSE(drink(*house, "A").allergens.known);
  CHECK(count(*house, Rule::unknown_garnish) == 1);
}

TEST_CASE("a permitted stand-in is worked out as well, and its allergens may be there") {
  auto house = compile(
      "drink A\n  60 ml bourbon whiskey\n  15 ml honey syrup, or orgeat\n  22.5 ml lemon juice\n  shake 12 "
      "s\n  strain\n");
  const auto& facts = drink(*house, "A");
  REQUIRE(facts.alternatives.size() == 1);
  CHECK(facts.alternatives[0].served.sugar_g_per_100ml != facts.served.sugar_g_per_100ml);
  CHECK_FALSE(facts.allergens.possible().empty());
}

TEST_CASE("an optional part is in no figure, but its allergens count") {
  auto house = compile("drink A\n  50 ml vodka\n  10 ml cream, optional\n  stir 30 s\n  strain\n");
  CHECK(drink(*house, "A").mixed.volume_ml == Approx(50));
  CHECK(drink(*house, "A").allergens.present() == std::vector<std::string>{"milk"});
}

TEST_CASE("a bowl's figures are those of one serve") {
  auto house = compile(
      "drink Bowl\n  serves 10\n  glass punch bowl\n  cup punch cup\n  build\n  500 ml aged rum\n  500 ml "
      "water\n  ice none\n");
  CHECK(drink(*house, "Bowl").served.volume_ml == Approx(100).margin(2));
  CHECK(drink(*house, "Bowl").entries[0].volume_ml.value() == Approx(50));
}

TEST_CASE("parts fill the size less what is given otherwise") {
  auto house = compile(
      "drink A\n  size 90 ml\n  2 parts London dry gin\n  1 part sweet vermouth\n  15 ml maraschino "
      "liqueur\n  stir 30 s\n  strain\n");
  const auto& entries = drink(*house, "A").entries;
  CHECK(entries[0].volume_ml.value() == Approx(50));
  CHECK(entries[1].volume_ml.value() == Approx(25));
}

TEST_CASE("a top without a quantity comes to the glass's line") {
  auto house = compile(
      "glass tall\n  holds 300 ml\n  line 200..220 ml\ndrink A\n  glass tall\n  ice none\n  build\n  50 ml "
      "vodka\n  top soda water\n");
  CHECK(drink(*house, "A").served.volume_ml == Approx(210).margin(1e-6));
}

TEST_CASE("the two measures of a line must agree within five per cent") {
  CHECK(count(*compile("drink A\n  3/4 oz = 22.5 ml lemon juice\n"), Rule::unequal_measures) == 0);
  CHECK(count(*compile("drink A\n  3/4 oz = 20 ml lemon juice\n"), Rule::unequal_measures) == 1);
  CHECK(count(*compile("drink A\n  1 dash = 1 ml aromatic bitters\n"), Rule::unequal_measures) == 0);
}

TEST_CASE("an ounce of a solid is refused and offers both readings") {
  auto house = compile("drink A\n  1 oz white sugar\n");
  REQUIRE(count(*house, Rule::ounce_of_solid) == 1);
  CHECK(test::first(*house, Rule::ounce_of_solid).help.find("1 oz wt") != std::string::npos);
  CHECK(test::first(*house, Rule::ounce_of_solid).help.find("28 g") != std::string::npos);
  CHECK(count(*compile("drink A\n  1 oz toasted sesame oil\n"), Rule::ounce_of_solid) == 0);
}

TEST_CASE("a volume of a thing without a density says which fact is missing and where to put it") {
  auto house =
      compile("ingredient gravel sugar\n  kind sweetener\n  sugar 100 % w/w\ndrink A\n  5 ml gravel sugar\n");
  REQUIRE(count(*house, Rule::no_density) == 1);
  CHECK(test::first(*house, Rule::no_density).help.find("density") != std::string::npos);
  CHECK(test::first(*house, Rule::no_density).help.find("ingredient gravel sugar") != std::string::npos);
}

TEST_CASE("composition that cannot be is reported where it is declared") {
  auto house = compile("ingredient rocket\n  kind spirit\n  strength 80 % abv\n  sugar 60 % w/v\n");
  REQUIRE(count(*house, Rule::impossible_composition) == 1);
  CHECK(house->sources[test::first(*house, Rule::impossible_composition).span.file_id]
            .place_of(test::first(*house, Rule::impossible_composition).span)
            .line == 3);
}

TEST_CASE("a prep that is made of itself is a circle, told once") {
  auto house = compile("prep A\n  100 ml B\nprep B\n  100 ml A\n");
  CHECK(count(*house, Rule::name_cycle) == 1);
}

TEST_CASE("a yield above what went in is an error") {
  CHECK(count(*compile("prep A\n  100 ml vodka\n  makes 150 ml\n"), Rule::yield_over_input) == 1);
  CHECK(count(*compile("prep A\n  100 ml vodka\n  makes 100 ml\n"), Rule::yield_over_input) == 0);
}

TEST_CASE("a measured strength replaces the computed one, and a wide difference is told") {
  auto house = compile("prep A\n  500 ml vodka\n  500 ml water\n  stir\n  strength 25 % abv\n");
  CHECK(stock(*house, "A").abv_percent == Approx(25).margin(1e-6));
  CHECK(count(*house, Rule::measured_differs) == 1);
  CHECK(count(*compile("prep A\n  500 ml vodka\n  500 ml water\n  stir\n  strength 20 % abv\n"),
              Rule::measured_differs) == 0);
}

TEST_CASE("a prep keeps as long as its shortest part, unless it says otherwise") {
  auto house =
      compile("prep A\n  100 ml lemon juice\n  100 ml vodka\n  stir\nprep B like A\n  keeps 5 d chilled\n");
  CHECK(stock(*house, "A").keeps_days == stock(*house, "lemon juice").keeps_days);
  CHECK(stock(*house, "B").keeps_days == Approx(5));
}

TEST_CASE("cost goes through preps with their yields") {
  auto house = compile(
      "house H\n  currency EUR\ningredient house gin like London dry gin\n  buy 700 ml for 21 EUR\n"
      "prep washed\n  700 ml house gin\n  makes 350 ml\ndrink A\n  50 ml washed\n  stir 30 s\n  strain\n");
  // 21 EUR make 350 ml, so 50 ml cost 3 EUR.
  CHECK(base::to_double(drink(*house, "A").cost.value().amount) == Approx(3).margin(1e-9));
}

TEST_CASE("a missing price leaves the cost unknown and names what lacks it") {
  auto house = compile("drink A\n  50 ml vodka\n  stir 30 s\n  strain\n");
  CHECK_FALSE(drink(*house, "A").cost);
  REQUIRE(drink(*house, "A").without_price.size() == 1);
  CHECK(house->specs[drink(*house, "A").without_price[0]].head.name == "vodka");
}

TEST_CASE("a bar ounce of thirty millilitres makes three quarters 22.5 ml and a quarter 7.5 ml") {
  // Common practice, no source.
  auto house = compile("drink A\n  3/4 oz vodka\n  1/4 oz lemon juice\n");
  CHECK(drink(*house, "A").entries[0].volume_ml.value() == Approx(22.5));
  CHECK(drink(*house, "A").entries[1].volume_ml.value() == Approx(7.5));
}

// What a prep comes to: its yield by any measure, how long and where it keeps, what a meter's reading
// replaces.
#include <cmath>

#include "model_house.h"

using namespace gill;
using testing::evaluate;

TEST_CASE("a yield is told by volume, by weight or in pieces, and what is missing is the loss") {
  auto made = [](const char* lines) {
    return evaluate(std::string("prep p\n  1000 g water\n") + lines + "  keeps 1 d chilled\n").stock("p");
  };
  // A kilogram of water of 20 °C fills 1001.8 ml (0.99820 g/ml, OIML R 22).
  auto reckoned = made("");
  CHECK(reckoned.yield_ml == Approx(1001.8).margin(0.1));
  CHECK(reckoned.yield_g == Approx(1000));
  CHECK(reckoned.loss_percent == 0);
  CHECK_FALSE(reckoned.yield_measured);
  auto volume = made("  makes 900 ml\n");
  CHECK(volume.yield_measured);
  CHECK(volume.yield_ml == 900);
  CHECK(volume.yield_g == Approx(898.4).margin(0.1));
  CHECK(volume.loss_percent == Approx(10.16).margin(0.01));
  CHECK(volume.would_be_ml == Approx(1001.8).margin(0.1));
  auto mass = made("  makes 800 g\n");
  CHECK(mass.yield_g == 800);
  CHECK(mass.yield_ml == Approx(801.4).margin(0.1));
  CHECK(mass.loss_percent == Approx(20));
  auto pieces = made("  makes 20\n");
  CHECK(pieces.yield_count == 20);
  CHECK(pieces.yield_g == Approx(1000));
  CHECK(pieces.loss_percent == 0);
  auto weighed = made("  makes 20\n  each 40 g\n");
  CHECK(weighed.yield_g == Approx(800));
  CHECK(weighed.loss_percent == Approx(20));
  // More than went in is no loss below nothing.
  CHECK(made("  makes 1010 ml\n").loss_percent == 0);
}

TEST_CASE("a prep that says nothing keeps as long as the shortest of its parts, as cold as the coldest") {
  const std::string parts =
      "ingredient long one\n  kind mixer\n  allergen none\n  keeps 30 d chilled\n"
      "ingredient short one\n  kind mixer\n  allergen none\n  keeps 5 d ambient\n"
      "ingredient frozen one\n  kind mixer\n  allergen none\n  keeps 90 d frozen\n";
  auto prep = [&](const char* lines) { return evaluate(parts + "prep p\n" + lines).stock("p"); };
  for (const char* order :
       {"  100 ml long one\n  100 ml short one\n", "  100 ml short one\n  100 ml long one\n"}) {
    INFO(order);
    CHECK(prep(order).keeps_days == 5);
    CHECK(prep(order).storage == analysis::Storage::chilled);
  }
  CHECK(prep("  100 ml frozen one\n  100 ml short one\n").storage == analysis::Storage::ambient);
  CHECK(prep("  100 ml short one\n  keeps 36 h chilled\n").keeps_days == 1.5);
  CHECK_FALSE(prep("  100 ml water\n").keeps_days);
}

TEST_CASE("a meter's reading replaces the figure, and both are kept") {
  auto prep = [](const char* lines) {
    return evaluate(
        std::string("ingredient sour\n  kind juice\n  acid 6 % w/v citric\n  allergen none\nprep p\n"
                    "  500 ml vodka\n  400 ml water\n  100 g white sugar\n  100 ml sour\n") +
        lines + "  keeps 1 d chilled\n");
  };
  auto plain = prep("").stock("p");
  auto strength = prep("  strength 15 % abv\n").stock("p");
  CHECK(strength.abv_percent == Approx(15));
  CHECK(*strength.computed_abv_percent == Approx(plain.abv_percent));
  REQUIRE(strength.readings.size() == 1);
  CHECK(strength.readings[0].measured == Approx(15));
  CHECK(strength.readings[0].computed == Approx(plain.abv_percent));
  CHECK(strength.readings[0].unit == "% abv");
  // The sugar and the acid in 100 ml stay what they were.
  CHECK(strength.sugar_g_per_100ml == Approx(plain.sugar_g_per_100ml).epsilon(1e-3));
  CHECK(strength.acid_g_per_100ml == Approx(plain.acid_g_per_100ml).epsilon(1e-3));
  auto by_volume = prep("  sugar 12 % w/v\n").stock("p");
  CHECK(by_volume.sugar_g_per_100ml == Approx(12));
  CHECK(by_volume.readings[0].unit == "% w/v");
  CHECK(by_volume.readings[0].computed == Approx(plain.sugar_g_per_100ml));
  auto by_mass = prep("  sugar 12 % w/w\n").stock("p");
  CHECK(by_mass.sugar_g_per_100ml == Approx(12 * by_mass.density_g_per_ml));
  CHECK(by_mass.readings[0].unit == "% w/w");
  CHECK(by_mass.readings[0].computed == Approx(plain.brix));
  auto acid = prep("  acid 0.9 % w/v citric\n").stock("p");
  CHECK(acid.acid_g_per_100ml == Approx(0.9).epsilon(1e-3));
  CHECK(*acid.computed_acid_g_per_100ml == Approx(plain.acid_g_per_100ml));
  CHECK(acid.readings[0].unit == "% w/v");
  auto acid_by_mass = prep("  acid 0.9 % w/w citric\n").stock("p");
  CHECK(acid_by_mass.acid_g_per_100ml == Approx(0.9 * acid_by_mass.density_g_per_ml).epsilon(0.01));
  CHECK(acid_by_mass.readings[0].computed == Approx(plain.acid_g_per_100ml / plain.density_g_per_ml));
  auto density = prep("  density 1.05 g/ml\n").stock("p");
  CHECK(density.density_g_per_ml == Approx(1.05));
  CHECK(*density.computed_density == Approx(plain.density_g_per_ml));
  CHECK(plain.readings.empty());
}

TEST_CASE("an acid is read as citric where none was reckoned") {
  auto house = evaluate("prep p\n  1 l water\n  acid 2 % w/v citric\n  keeps 1 d chilled\n");
  CHECK(house.stock("p").acid_g_per_100ml == Approx(2).epsilon(1e-3));
}

TEST_CASE("a prep is as unsure as what goes into it, by share") {
  auto house = evaluate(
      "ingredient sweet\n  kind syrup\n  sugar 60 % w/v ± 6 % w/v\n  allergen none\n"
      "prep p\n  500 ml sweet\n  500 ml ± 10 % vodka\n  keeps 1 d ambient\n");
  const auto& prep = house.stock("p");
  // A tenth more sugar in the syrup is a tenth more in the prep, and water gives way to it. A tenth more or
  // less vodka makes it 1050 or 950 ml: 5 % less sugar or more, and 5 % more alcohol or less. A label may lie
  // 0.3 off its 37.5 or 40 % vol.
  CHECK(prep.sugar_tolerance == Approx(std::hypot(0.100, 0.050)).margin(0.003));
  CHECK(prep.strength_tolerance == Approx(std::hypot(0.050, 0.0075)).margin(0.003));
  CHECK(prep.acid_tolerance == 0);
}

TEST_CASE("what foams, holds fat or has gas in it passes that on, unless the prep says otherwise") {
  auto prep = [](const char* lines) {
    return evaluate(std::string("prep p\n") + lines + "  keeps 1 d chilled\n").stock("p");
  };
  CHECK(prep("  100 ml water\n  3 egg white\n").foams);
  CHECK_FALSE(prep("  100 ml water\n").foams);
  CHECK(prep("  100 ml cream\n").holds_fat == evaluate("").stock("cream").holds_fat);
  auto soda = prep("  500 ml soda water\n");
  CHECK(soda.fizz_vol == Approx(evaluate("").stock("soda water").fizz_vol).epsilon(0.01));
  CHECK(soda.fizz_vol > 1);
}

TEST_CASE("allergens and origins of a substitute may be in a prep, those of its own lines are") {
  auto house =
      evaluate("prep p\n  100 ml water\n  50 ml vodka, or cream\n  allergen soybeans\n  keeps 1 d chilled\n");
  const auto& allergens = house.stock("p").allergens;
  CHECK(allergens.present() == std::vector<std::string>{"soybeans"});
  CHECK(allergens.possible() == std::vector<std::string>{"milk"});
}

TEST_CASE("two lines that are worked out in one prep each find their own amount") {
  auto house = evaluate(
      "prep p\n  1 l water\n  until sugar 20 % w/w  white sugar\n  until acid 2 % w/w  2 parts citric acid, "
      "1 part malic "
      "acid\n  keeps 1 d chilled\n");
  const auto& prep = house.stock("p");
  CHECK(prep.valid);
  REQUIRE(prep.entries.size() == 4);
  // 998.2 g of water, and sugar that is 99.9 % sugar; then the acid is one part in fifty of the whole, in
  // citric equivalents: a gram of malic acid counts for 192.12 / 3 over 134.09 / 2 (g/mol over protons).
  CHECK(*prep.entries[1].mass_g == Approx(998.2 * 0.2 / (0.999 - 0.2)).margin(0.1));
  double citric = *prep.entries[2].mass_g, malic = *prep.entries[3].mass_g;
  CHECK(citric == Approx(2 * malic));
  CHECK(citric + malic * (192.12 / 3) / (134.09 / 2) ==
        Approx(0.02 * (998.2 * 1.25 + citric + malic)).epsilon(1e-3));
}

TEST_CASE("preps that are made of each other are told with the way round, and are not valid") {
  auto house = evaluate(
      "prep a\n  100 ml b\n  keeps 1 d chilled\nprep b\n  100 ml c\n  keeps 1 d chilled\nprep c\n  100 ml "
      "a\n  100 ml water\n"
      "  keeps 1 d chilled\nprep d\n  100 ml a\n  keeps 1 d chilled\n");
  auto errors = house.errors();
  REQUIRE(errors.size() == 1);
  CHECK(errors.front() == "`a` is made of itself, by way of `a`, `b`, `c`");
  CHECK_FALSE(house.stock("a").valid);
  CHECK_FALSE(house.stock("d").valid);
}

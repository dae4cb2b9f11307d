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
  // By weight 100 ml hold as much more as they are heavier than 100 g, most of it the sugar's doing.
  auto by_mass =
      evaluate("prep p\n  500 g water\n  500 g white sugar\n  acid 2 % w/w citric\n  keeps 1 d chilled\n");
  const auto& syrup = by_mass.stock("p");
  CHECK(syrup.density_g_per_ml > 1.2);
  CHECK(syrup.acid_g_per_100ml == Approx(2 * syrup.density_g_per_ml).epsilon(0.01));
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

namespace {

double yield_ml(const std::string& lines) {
  return evaluate("prep p\n" + lines + "  keeps 1 d chilled\n").stock("p").yield_ml;
}

}  // namespace

// What drained fruit weighs, and what washing and pressing give back: common practice, no source.

TEST_CASE(
    "berries that are strained off take about as much with them as they brought, pressed ones give it up") {
  const std::string in = "  700 ml vodka\n  300 g strawberry\n";
  const double strained = yield_ml(in + "  infuse 2 d\n  strain\n");
  const double pressed = yield_ml(in + "  infuse 2 d\n  press\n");
  const double muddled = yield_ml(in + "  muddle\n  infuse 2 d\n  strain\n");
  const double blended = yield_ml(in + "  blend\n  strain\n");
  CHECK(strained > 680);
  CHECK(strained < 780);
  CHECK(pressed > 930);
  CHECK(muddled > 900);
  CHECK(blended == Approx(muddled).epsilon(0.01));
  // What is in the liquid is the same either way: only how much of it comes through differs.
  auto prep = [&](const char* steps) {
    return evaluate("prep p\n" + in + steps + "  keeps 1 d chilled\n").stock("p");
  };
  CHECK(prep("  infuse 2 d\n  strain\n").abv_percent ==
        Approx(prep("  infuse 2 d\n  press\n").abv_percent).epsilon(1e-9));
}

TEST_CASE("cooked soft, fruit keeps less than raw and more than pressed") {
  const std::string in = "  1 l water\n  400 g raspberry\n";
  const double raw = yield_ml(in + "  infuse 1 h\n  strain\n");
  const double warm = yield_ml(in + "  heat to 79 C for 10 min\n  strain\n");
  const double cooked = yield_ml(in + "  heat to 80 C for 10 min\n  strain\n");
  CHECK(warm == Approx(raw).margin(8));
  CHECK(cooked > raw + 90);
  CHECK(cooked < yield_ml(in + "  heat to 80 C for 10 min\n  press\n"));
}

TEST_CASE("whole fruit gives its juice to a prep, and its wet flesh and skin soak up nothing") {
  // An orange gives 75 ml squeezed; 750 ml of wine with one in it comes back as about 750 to 800 ml, not 900.
  const std::string in = "  750 ml dry red wine\n";
  const double alone = yield_ml(in + "  heat to 75 C for 20 min\n  strain\n");
  const double with_one = yield_ml(in + "  1 orange\n  heat to 75 C for 20 min\n  strain\n");
  CHECK(with_one > alone);
  CHECK(with_one < alone + 75);
  const double pressed = yield_ml(in + "  1 orange\n  heat to 75 C for 20 min\n  press\n");
  CHECK(pressed == Approx(alone + 75).margin(15));
  // By weight it is fruit without skin and stones, all of it.
  CHECK(yield_ml(in + "  140 g orange\n  press\n") > pressed);
  // What stays in the prep stays whole.
  CHECK(evaluate("prep p\n  500 g white sugar\n  2 orange\n  rest 1 h\n  keeps 1 d chilled\n")
            .stock("p")
            .yield_g ==
        Approx(500 + evaluate("prep p\n  2 orange\n  rest 1 h\n  keeps 1 d chilled\n").stock("p").yield_g));
}

TEST_CASE("brine has opened an olive's cells: its water is all in the gin") {
  // 200 g of green olives in 700 ml of 43 % gin: 150 g of water, and about 30 ml stay with the flesh.
  auto prep = evaluate(
                  "ingredient strong gin like London dry gin\n  strength 43 % abv\nprep p\n  700 ml strong "
                  "gin\n  200 g green olive\n  infuse 2 d\n  strain\n  keeps 1 d chilled\n")
                  .stock("p");
  CHECK(prep.yield_ml == Approx(820).margin(10));
  CHECK(prep.abv_percent == Approx(35.5).margin(0.5));
}

TEST_CASE("a fat that has set stays in the strainer, one that has not goes through") {
  auto fat = [](const std::string& what, const std::string& steps) {
    auto prep = evaluate("prep p\n  700 ml bourbon whiskey\n  140 g " + what + "\n  rest 2 h\n" + steps +
                         "  keeps 1 d chilled\n");
    return prep.stock("p").fat_g_per_100ml;
  };
  CHECK(fat("butter", "  strain\n") > 10);
  CHECK(fat("butter", "  chill\n  strain\n") < 0.5);
  CHECK(fat("butter", "  freeze 12 h\n  strain\n") < 0.5);
  CHECK(fat("toasted sesame oil", "  chill\n  strain\n") > 10);
  CHECK(fat("toasted sesame oil", "  freeze 12 h\n  strain\n") < 0.5);
  // A ladle leaves a twentieth; an emulsion gives nothing up.
  const double skimmed = fat("butter", "  skim\n"), whole = fat("butter", "  rest 1 h\n");
  CHECK(skimmed < 0.07 * whole);
  CHECK(skimmed > 0.04 * whole);
  CHECK(fat("butter\n  1 egg yolk", "  freeze 12 h\n  strain\n") > 8);
  // 700 ml of 45 % bourbon comes back from 140 g of butter as about 650 ml.
  CHECK(yield_ml("  700 ml bourbon whiskey\n  140 g butter\n  rest 2 h\n  freeze 12 h\n  strain\n") ==
        Approx(650).margin(15));
}

TEST_CASE("a yield is as unsure as its amounts and as what is strained off, a measured one is not") {
  auto prep = [](const std::string& lines) {
    return evaluate("prep p\n  700 ml vodka\n  300 g strawberry\n  infuse 2 d\n" + lines +
                    "  keeps 1 d chilled\n")
        .stock("p");
  };
  auto strained = prep("  strain\n");
  // 300 g of strawberries keep about 220 ml, ± 40 % of it: near 90 ml of 740.
  CHECK(strained.yield_tolerance * strained.yield_ml == Approx(90).margin(12));
  CHECK(prep("  press\n").yield_tolerance < 0.2 * strained.yield_tolerance);
  CHECK(prep("  strain\n  makes 730 ml\n").yield_tolerance == 0);
  const double by_hands = evaluate(
                              "house Bar\n  hands strain hold 1 ± 0.1\nprep p\n  700 ml vodka\n  300 g "
                              "strawberry\n  infuse 2 d\n  strain\n"
                              "  keeps 1 d chilled\n")
                              .stock("p")
                              .yield_tolerance;
  CHECK(by_hands == Approx(strained.yield_tolerance / 4).epsilon(0.15));
}

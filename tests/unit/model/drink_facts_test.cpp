// The figures of a drink beside its strength and volume: how sure they are, what stands in the glass, what a
// substitute makes of it, its alcohol in each country's units.
#include <fmt/format.h>

#include <cmath>

#include "model/constants.h"
#include "model_house.h"

using namespace gill;
using testing::evaluate;
using testing::influence_of;

TEST_CASE("what two loose amounts do to a figure adds as squares") {
  // Both pours are good to a tenth: 5 ml each, and the root of 5² + 5² together. With no ice and one liquid
  // nothing else moves.
  auto house = evaluate(
      "drink A\n  50 ml ± 10 % water\n  50 ml ± 10 % spring\n  build\n  ice none\n"
      "ingredient spring like water\n");
  const auto& drink = house.drink("A");
  REQUIRE(drink.influences.size() == 2);
  for (const auto& influence : drink.influences) {
    CHECK(influence.width == Approx(0.1));
    CHECK(influence.effect.volume_ml == Approx(5));
    CHECK(influence.effect.abv_percent == 0);
  }
  CHECK(words_of(drink.influences[0].cause, house.front.specs) == "the amount of water");
  CHECK(drink.tolerance.volume_ml == Approx(std::sqrt(50.0)));
  CHECK(drink.tolerance.abv_percent == 0);
}

TEST_CASE("a loose amount of syrup moves sugar up, acid and strength down, and the balance with them") {
  // By mass and volume to the pour: 20 ml of syrup of 60 g in 100 ml, a tenth more and a tenth less, in a
  // hundred of the mix. What the mean of both ways differs from the way up is within the margins.
  auto house = evaluate(
      "ingredient sweet\n  kind syrup\n  sugar 60 % w/v\n  allergen none\n"
      "ingredient sour\n  kind juice\n  acid 6 % w/v citric\n  allergen none\n"
      "drink A\n  20 ml ± 10 % sweet\n  20 ml sour\n  60 ml vodka\n  build\n  ice none\n");
  const auto& drink = house.drink("A");
  const auto& effect = influence_of(house, drink, "the amount of sweet").effect;
  double volume = drink.served.volume_ml;
  CHECK(effect.volume_ml == Approx(2).margin(0.05));
  CHECK(effect.sugar_g_per_100ml == Approx(1320 / (volume + 2) - 1200 / volume).margin(0.03));
  CHECK(effect.acid_g_per_100ml == Approx(120 / (volume + 2) - 120 / volume).margin(0.002));
  CHECK(effect.abv_percent == Approx(2400 / (volume + 2) - 2400 / volume).margin(0.03));
  CHECK(effect.sugar_acid_ratio == Approx(1).margin(0.001));  // from 10 to 11, and to 9
  // With the juice's days and the vodka's label beside it.
  CHECK(drink.written_tolerance.sugar_g_per_100ml ==
        Approx(std::abs(effect.sugar_g_per_100ml)).epsilon(0.01));
  CHECK(drink.written_tolerance.acid_g_per_100ml > std::abs(effect.acid_g_per_100ml));
  CHECK(drink.written_tolerance.abv_percent > std::abs(effect.abv_percent));
}

TEST_CASE("a fruit's stated doubt moves acid and sugar alone") {
  auto house = evaluate(
      "ingredient sour\n  kind juice\n  acid 6 % w/v ± 0.6 % w/v citric\n  sugar 2 % w/v ± 0.5 % w/v\n  "
      "allergen none\n"
      "drink A\n  50 ml sour\n  50 ml water\n  build\n  ice none\n");
  const auto& drink = house.drink("A");
  // Half of it is the juice: a tenth of 3 g and a quarter of 1 g.
  CHECK(influence_of(house, drink, "the acidity of sour").effect.acid_g_per_100ml ==
        Approx(0.3).margin(0.01));
  CHECK(influence_of(house, drink, "the sugar of sour").effect.sugar_g_per_100ml ==
        Approx(0.25).margin(0.01));
  CHECK(drink.written_tolerance.acid_g_per_100ml == Approx(0.3).margin(0.01));
  CHECK(drink.written_tolerance.sugar_g_per_100ml == Approx(0.25).margin(0.01));
  CHECK(drink.tolerance.abv_percent == 0);
}

TEST_CASE("sugar over acid says nothing below a twentieth of a gram of acid") {
  model::Figures figures;
  figures.sugar_g_per_100ml = 8;
  figures.acid_g_per_100ml = 0.05;
  REQUIRE(figures.sugar_acid_ratio());
  CHECK(*figures.sugar_acid_ratio() == Approx(160));
  figures.acid_g_per_100ml = 0.0499;
  CHECK_FALSE(figures.sugar_acid_ratio());
}

TEST_CASE("a serve's alcohol is told in the units of the three countries and the house's own") {
  // 100 ml at 40 % hold 31.57 g of ethanol (0.78924 g/ml, OIML R 22). A UK unit is 10 ml or 7.89 g, a US
  // standard drink 14 g, an Australian one 10 g.
  auto house = evaluate("drink A\n  serves 2\n  glass punch bowl\n  200 ml vodka\n  build\n  ice none\n");
  const auto& drink = house.drink("A");
  CHECK(drink.ethanol_g == Approx(31.57).margin(0.01));
  CHECK(drink.alcohol_units.at("UK") == Approx(4).margin(0.01));
  CHECK(drink.alcohol_units.at("US") == Approx(31.57 / 14).margin(0.01));
  CHECK(drink.alcohol_units.at("AU") == Approx(31.57 / 10).margin(0.01));
}

TEST_CASE("a piece of ice floats by its own weight of drink, a heap as far as there is drink between it") {
  auto piece =
      evaluate("drink A\n  glass highball\n  ice 50 g cubed\n  200 ml water\n  build\n").drink("A").in_glass;
  CHECK(piece.ice_g < 50);
  CHECK(piece.ice_below_ml == Approx(piece.ice_g).epsilon(0.01));
  CHECK(piece.ice_below_ml + piece.ice_above_ml == Approx(piece.ice_g / model::ice_density_g_per_ml));
  CHECK(piece.level_ml == Approx(piece.liquid_ml + piece.ice_below_ml));
  // Cubes pack to 57 %: the drink stands in the 43 % between them.
  auto heap =
      evaluate("drink A\n  glass highball\n  ice 200 g cubed\n  30 ml water\n  build\n").drink("A").in_glass;
  CHECK(heap.ice_below_ml == Approx(heap.liquid_ml * 0.57 / 0.43));
  CHECK(heap.ice_below_ml < heap.ice_g);
}

TEST_CASE("floats are listed from the lowest, each with its volume, as part of the drink") {
  auto house = evaluate(
      "drink A\n  glass highball\n  120 ml water\n  build\n  float 15 ml aged rum\n  layer 10 ml overproof "
      "rum\n  ice none\n");
  const auto& in_glass = house.drink("A").in_glass;
  REQUIRE(in_glass.floats.size() == 2);
  CHECK(house.front.specs[in_glass.floats[0].first].head.name == "aged rum");
  CHECK(in_glass.floats[0].second == Approx(15));
  CHECK(in_glass.floats[1].second == Approx(10));
}

TEST_CASE("a substitute changes the drink as if it had been written in its place") {
  auto house = evaluate(
      "drink A\n  50 ml vodka, or overproof rum\n  50 ml water\n  build\n  ice none\n"
      "drink B\n  50 ml overproof rum\n  50 ml water\n  build\n  ice none\n");
  const auto& drink = house.drink("A");
  REQUIRE(drink.alternatives.size() == 1);
  CHECK(house.front.specs[drink.alternatives[0].substitute].head.name == "overproof rum");
  CHECK(house.front.specs[drink.alternatives[0].instead_of].head.name == "vodka");
  const auto& written = house.drink("B").served;
  CHECK(drink.alternatives[0].served.abv_percent == Approx(written.abv_percent));
  CHECK(drink.alternatives[0].served.volume_ml == Approx(written.volume_ml));
  CHECK(drink.alternatives[0].served.mass_g == Approx(written.mass_g));
}

TEST_CASE("a drink's fill is its level in the glass it is drunk from, and unknown without a size") {
  auto house = evaluate(
      "glass beaker\n  holds 200 ml\nglass any\n"
      "drink A\n  glass beaker\n  150 ml water\n  build\n  ice none\n"
      "drink B\n  glass any\n  150 ml water\n  build\n  ice none\ndrink C\n  150 ml water\n  build\n  ice "
      "none\n");
  REQUIRE(house.drink("A").glass_fill_percent);
  CHECK(*house.drink("A").glass_fill_percent == Approx(75));
  CHECK_FALSE(house.drink("B").glass_fill_percent);
  CHECK_FALSE(house.drink("C").glass_fill_percent);
}

TEST_CASE("a garnish is counted or weighed as its line says, one where it says nothing") {
  auto garnish = [](const char* line) {
    auto house = evaluate(std::string("drink A\n  60 ml vodka\n  build\n  garnish ") + line + "\n");
    return house.drink("A").entries.back();
  };
  auto twist = garnish("lemon twist"), two = garnish("2 lemon twist");
  REQUIRE(twist.mass_g);
  CHECK(twist.count == 1);
  CHECK(two.count == 2);
  CHECK(*two.mass_g == Approx(2 * *twist.mass_g));
  auto weighed = garnish("3 g nutmeg");
  CHECK(weighed.mass_g == 3);
  CHECK_FALSE(weighed.count);
  auto poured = garnish("5 ml cream");
  REQUIRE(poured.volume_ml);
  CHECK(*poured.volume_ml == Approx(5));
}

TEST_CASE("what an optional line weighs and fills is told, and moves no figure") {
  auto house = evaluate(
      "drink A\n  60 ml vodka\n  20 ml water, optional\n  build\n  ice none\ndrink B\n  60 ml vodka\n  "
      "build\n  ice none\n");
  const auto& drink = house.drink("A");
  REQUIRE(drink.entries.size() == 2);
  CHECK(drink.entries[1].optional);
  CHECK(*drink.entries[1].volume_ml == Approx(20));
  CHECK(drink.served.volume_ml == house.drink("B").served.volume_ml);
}

TEST_CASE("every reckoning tells its own figures") {
  using namespace gill::model::reckoning;
  using model::explain;
  auto says = [](const model::Reckoning& reckoning, const char* words) {
    CHECK_THAT(explain(reckoning), Catch::Contains(words));
  };
  says(Fitted{0.25, 0.4, false, 0.9, 0.8},
       "gives 0.250 of added water to one of drink at 40.0 % abv; the ice balance");
  says(Fitted{0.25, 0.6, true, 0.9, 0.8},
       "at 60.0 % abv (held to the fit's range of 10 to 50 %); the ice balance");
  says(Fitted{0.25, 0.4, false, 0.9, 0.8}, "is 0.900, and the time reaches 0.800 of the usual.");
  says(Balanced{35.2, -4.1, 0.5}, "35.2 g of melt and -4.1 C; the time reaches 0.500 of it");
  says(Diluted{12.3, -5.5, false}, "12.3 g of water join the drink; the energy balance puts it at -5.5 C.");
  says(Diluted{12.3, -5.5, false, 4.5},
       "12.3 g of water join the drink, 4.5 g of it from the surface of the ice;");
  says(MetGlass{4, -5.8, -5.2}, "A glass at 4 C brings it from -5.8 to -5.2 C.");
  says(Diluted{120, -6, true}, "All of the ice is drunk, melted or blended in: 120.0 g of water");
  says(CooledOnly{-3.2}, "only cools, to -3.2 C");
  says(HeldBack{HeldBack::What::solids, 10, 25}, "10.0 g of solids stay behind and keep about 25.0 g");
  says(HeldBack{HeldBack::What::removed, 10, 6}, "10.0 g are taken out and keep about 6.0 g");
  says(HeldBack{HeldBack::What::curd, 10, 30}, "10.0 g of curd stay behind and keep about 30.0 g");
  says(BoiledOff{2, 10, 70}, "2.0 of 10.0 g of alcohol go off in the open at 70 C");
  says(BoiledOff{2, 10, 70}, "and none at 60 C.");
  says(Carbonated{4, 2.2, 8, 1.5, 4},
       "4.00 volumes of gas take 2.2 bar over the air's pressure at 8 C and 1.5 bar at the fridge's 4 C");
}

TEST_CASE("a drink is hot from forty degrees on as it is served") {
  auto is_hot = [](const char* degrees) {
    return testing::evaluate(std::string("drink A\n  150 ml water\n  heat ") + degrees + " C\n")
        .drink("A")
        .is_hot;
  };
  CHECK_FALSE(is_hot("39.9"));
  CHECK(is_hot("40"));
  CHECK(is_hot("70"));
}

TEST_CASE("what is brought to the guest beside the drink is among its allergens, in whatever words",
          "[allergens]") {
  auto codes = [](const std::string& line) {
    auto house = evaluate("drink A\n  glass rocks\n  50 ml vodka\n  stir 20 s\n  strain\n  " + line + "\n");
    return house.drink("A").allergens.present();
  };
  using Codes = std::vector<std::string>;
  CHECK(codes("serve with a bowl of peanuts") == Codes{"peanuts"});
  CHECK(codes("do top with a walnut") == Codes{"nuts:walnut"});
  CHECK(codes("do dust with pistachio") == Codes{"nuts:pistachio"});
  CHECK(codes("serve on a saucer, handle to the guest") == Codes{});
  CHECK(codes("serve without the peanuts") == Codes{});
}

TEST_CASE("a flamed twist is weighed as a twist, and what is optional is not", "[garnish]") {
  auto entry = [](const std::string& line) {
    auto house = evaluate("drink A\n  glass rocks\n  50 ml vodka\n  stir 20 s\n  strain\n  " + line + "\n");
    return house.drink("A").entries.back();
  };
  auto plain = entry("garnish orange twist"), flamed = entry("flame orange twist"),
       optional = entry("garnish orange twist, optional");
  REQUIRE(plain.mass_g.has_value());
  CHECK(flamed.mass_g == plain.mass_g);
  CHECK(flamed.role == model::Role::garnish);
  CHECK_FALSE(plain.optional);
  CHECK(optional.optional);
  // What burns in a spoon is in the drink already.
  CHECK(entry("flame overproof rum").name == "vodka");
}

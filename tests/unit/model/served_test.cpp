// What a drink is served on, how hot, and from what: decided once, for every output.
#include <fmt/format.h>

#include "model/constants.h"
#include "model/physics/volume.h"
#include "model_house.h"

using namespace gill;
using model::ServedIce;
using testing::evaluate;

TEST_CASE("a hot drink that is built stands on no ice") {
  auto house = evaluate("drink Toddy\n  45 ml rye whiskey\n  120 ml water, hot\n  build\n");
  const auto& toddy = house.drink("Toddy");
  CHECK(toddy.served_on.kind == ServedIce::Kind::none);
  CHECK(toddy.in_glass.ice_g == 0);
  CHECK(toddy.dilution_percent == 0);
  CHECK(toddy.is_hot);
  CHECK(toddy.served.temperature_c > 60);
}

// Common practice, no source: a toddy, an Irish coffee and a mulled wine are stirred with a spoon.
TEST_CASE("a hot drink that names no ice is stirred in its glass without any") {
  for (std::string body : {"  45 ml rye whiskey\n  120 ml water, hot\n  stir\n",
                           "  45 ml rye whiskey\n  stir 10 s\n  top 120 ml water, at 90 C\n",
                           "  45 ml rye whiskey\n  stir\n  top hot water\n",
                           "  150 ml dry red wine\n  20 ml cognac\n  heat to 70 C\n  stir\n"}) {
    CAPTURE(body);
    auto house = evaluate("drink Hot\n  glass mug\n" + body);
    const auto& hot = house.drink("Hot");
    CHECK(hot.is_hot);
    CHECK(hot.dilution_percent == 0);
    CHECK(hot.reached_glass);
    CHECK(hot.served_on.kind == ServedIce::Kind::none);
  }
}

// Common practice, no source: a cup of ice, 100 to 180 g, goes into a frozen drink of 110 to 120 ml.
TEST_CASE("ice that is blended in without a measure is a cup of it") {
  auto house = evaluate(
      "drink Frozen\n  glass highball\n  60 ml white rum\n  30 ml lime juice\n  25 ml simple syrup\n  blend "
      "20 s with "
      "crushed\n  dump\n");
  const auto& frozen = house.drink("Frozen");
  double ice_ml = frozen.mixed.volume_ml * frozen.dilution_percent / 100;
  CHECK(ice_ml > 100);
  CHECK(ice_ml < 180);
}

TEST_CASE("of a drink that is only begun neither figures nor allergens are known") {
  for (std::string body :
       {"", "  family sour\n", "  garnish lemon twist\n", "  glass coupe\n  shake 12 s\n  strain\n"}) {
    CAPTURE(body);
    auto house = evaluate("drink Begun\n" + body);
    CHECK(house.drink("Begun").is_empty);
    CHECK_FALSE(house.drink("Begun").valid);
    CHECK_FALSE(house.drink("Begun").allergens.known);
  }
  auto water = evaluate("drink Water\n  glass highball\n  100 ml water\n  build\n");
  CHECK_FALSE(water.drink("Water").is_empty);
  CHECK(water.drink("Water").allergens.known);
}

// Two in a hundred over the brim is what a jigger is good for: page and finding say the same of it.
TEST_CASE("a drink overflows where it comes over the brim by more than its measures are good for") {
  auto over = [](double ml) {
    auto house = evaluate(
        fmt::format("glass bench\n  holds 200 ml\n  line 150 ml\n\ndrink A\n  glass bench\n  ice none\n"
                    "  build\n  {} ml water\n",
                    ml));
    return house.drink("A").overflows;
  };
  CHECK_FALSE(over(199));
  CHECK_FALSE(over(203));
  CHECK(over(206));
}

TEST_CASE("ice that is named, or a strain, chills a hot drink that is stirred all the same") {
  for (std::string body :
       {"  120 ml espresso, hot\n  stir 20 s with cubed\n",
        "  ice cubed\n  120 ml espresso, hot\n  stir 20 s\n",
        "  120 ml espresso, hot\n  add ice\n  stir 20 s\n", "  120 ml espresso, hot\n  stir 20 s\n  strain\n",
        "  120 ml espresso, hot\n  stir 20 s\n  dump\n"}) {
    CAPTURE(body);
    CHECK(evaluate("drink Iced\n  glass mug\n" + body).drink("Iced").dilution_percent > 20);
  }
}

// Common practice, no source: soda is lifted with the spoon, spirits are stirred for half a minute.
TEST_CASE("a stir without a time lifts what is fizzy in its glass, and stirs all else for half a minute") {
  auto served = [](const std::string& long_one, const std::string& stir) {
    return evaluate("drink A\n  glass highball\n  ice cubed\n  build\n  50 ml London dry gin\n  100 ml " +
                    long_one + "\n  stir" + stir + "\n")
        .drink("A")
        .dilution_percent;
  };
  CHECK(served("tonic water", "") == served("tonic water", " 3 s"));
  CHECK(served("tonic water", "") < served("tonic water", " 30 s"));
  CHECK(served("orange juice", "") == served("orange juice", " 30 s"));
}

TEST_CASE("a drink from the room that is built stands on cubes, and is not hot") {
  auto house = evaluate("drink A\n  glass rocks\n  45 ml rye whiskey\n  build\n");
  const auto& drink = house.drink("A");
  CHECK(drink.served_on.kind == ServedIce::Kind::ice);
  CHECK(house.ice_of(drink) == "cubed");
  CHECK_FALSE(drink.served_on.is_measured);
  CHECK_FALSE(drink.is_hot);
  CHECK(drink.in_glass.ice == drink.served_on.use.ice);
}

TEST_CASE("hot begins at 40 C as it is served") {
  // No ice and no loss: the drink is as warm as it is poured.
  auto house = evaluate(
      "drink Warm\n  100 ml water, at 39.9 C\n  build\n  ice none\n"
      "drink Hot\n  100 ml water, at 40.001 C\n  build\n  ice none\n");
  CHECK_FALSE(house.drink("Warm").is_hot);
  CHECK(house.drink("Hot").is_hot);
}

TEST_CASE("an amount at 40 C makes a drink hot enough to be built without ice, and one at 39 C does not") {
  auto house =
      evaluate("drink Warm\n  100 ml water, at 39 C\n  build\ndrink Hot\n  100 ml water, at 40 C\n  build\n");
  CHECK(house.drink("Warm").served_on.kind == ServedIce::Kind::ice);
  CHECK(house.drink("Hot").served_on.kind == ServedIce::Kind::none);
}

TEST_CASE("an ice of the house's own is the usual one whatever its capitals") {
  std::string drink = "\ndrink A\n  glass highball\n  45 ml rye whiskey\n  90 ml water\n  build\n";
  std::string ice = "\n  each 30 g\n  melt 100 %\n  packs 57 %\n";
  auto lower = evaluate("ice cubed" + ice + drink), capital = evaluate("ice Cubed" + ice + drink);
  CHECK(capital.ice_of(capital.drink("A")) == "Cubed");
  CHECK(capital.drink("A").in_glass.ice_g == lower.drink("A").in_glass.ice_g);
  CHECK(capital.drink("A").served.volume_ml == lower.drink("A").served.volume_ml);
  CHECK(capital.drink("A").in_glass.ice_g > 0);
}

TEST_CASE("a strained drink that names no ice stands on none") {
  auto house = evaluate("drink A\n  60 ml rye whiskey\n  shake 12 s\n  strain\n");
  CHECK(house.drink("A").served_on.kind == ServedIce::Kind::none);
  CHECK(house.drink("A").served_later.empty());
}

TEST_CASE("ice that a swizzle brings into the glass is what the drink is served on") {
  auto house = evaluate("drink A\n  60 ml aged rum\n  swizzle 20 s with crushed\n");
  const auto& drink = house.drink("A");
  CHECK(drink.served_on.kind == ServedIce::Kind::ice);
  CHECK(house.ice_of(drink) == "crushed");
  CHECK(drink.in_glass.ice_g > 0);
}

TEST_CASE("a dumped drink stands on the shaker's ice") {
  auto house = evaluate("drink A\n  glass rocks\n  60 ml aged rum\n  shake 8 s with crushed\n  dump\n");
  const auto& drink = house.drink("A");
  CHECK(drink.served_on.kind == ServedIce::Kind::shakers);
  CHECK(house.ice_of(drink) == "crushed");
  CHECK(drink.in_glass.ice == drink.served_on.use.ice);
}

TEST_CASE("ice that is blended in is drunk: none lies in the glass and all of it is water") {
  auto house = evaluate("drink A\n  60 ml aged rum\n  blend 20 s with 120 g crushed\n  dump\n");
  const auto& drink = house.drink("A");
  CHECK(drink.served_on.kind == ServedIce::Kind::blended);
  CHECK(drink.in_glass.ice_g == 0);
  CHECK(drink.served.mass_g == Approx(drink.mixed.mass_g + 120).epsilon(1e-9));
}

TEST_CASE("a few pebbles whipped into a drink melt wholly") {
  auto house = evaluate("drink A\n  100 ml aged rum\n  whip\n  dump\n");
  const auto& drink = house.drink("A");
  double drink_ml = drink.mixed.volume_ml;
  CHECK(drink.served.mass_g - drink.mixed.mass_g ==
        Approx(model::whip_ice_g_per_100_ml * drink_ml / 100).epsilon(1e-9));
  CHECK(drink.in_glass.ice_g == 0);
}

TEST_CASE("of more ice than the drink can melt, a whip leaves the rest as ice") {
  auto house = evaluate("drink A\n  glass rocks\n  60 ml aged rum\n  whip with 60 g crushed\n  dump\n");
  const auto& drink = house.drink("A");
  double melt_g = drink.served.mass_g - drink.mixed.mass_g;
  // Its heat allows 35 g of 0 °C ice (worked out beside the physics), less of the house's colder ice; 7 % of
  // the mass, more than bar ice carries, is water already.
  CHECK(melt_g > 35);
  CHECK(melt_g < 40);
  CHECK(drink.in_glass.ice_g == Approx(60 - melt_g).epsilon(1e-9));
  CHECK(drink.served_on.is_measured);
}

TEST_CASE("a bowl that several share is drunk from its cup, without the bowl's ice") {
  auto house = evaluate(
      "drink Bowl\n  serves 8\n  glass punch bowl\n  cup punch cup\n  ice cubed\n  480 ml aged rum\n  480 ml "
      "water\n  build\n");
  const auto& bowl = house.drink("Bowl");
  CHECK(bowl.shared);
  CHECK(house.front.specs[bowl.drunk_from].head.name == "punch cup");
  CHECK(bowl.in_glass.ice_g == 0);
  CHECK(bowl.in_glass.liquid_ml == Approx(bowl.served.volume_ml).epsilon(1e-9));
  double holds = house.front.specs[bowl.drunk_from].holds->number();
  REQUIRE(bowl.glass_fill_percent);
  CHECK(*bowl.glass_fill_percent == Approx(100 * bowl.in_glass.level_ml / holds).epsilon(1e-9));
}

TEST_CASE("a cup beside one serve is not what it is drunk from") {
  auto house = evaluate("drink A\n  glass rocks\n  cup punch cup\n  60 ml aged rum\n  build\n");
  CHECK_FALSE(house.drink("A").shared);
  CHECK(house.front.specs[house.drink("A").drunk_from].head.name == "rocks");
}

TEST_CASE("a drink on ice is looked at again after five and ten minutes, thinner each time") {
  auto house =
      evaluate("drink A\n  glass rocks\n  ice large cube\n  60 ml aged rum\n  stir 30 s\n  strain\n");
  const auto& drink = house.drink("A");
  REQUIRE(drink.served_later.size() == 2);
  CHECK(drink.served_later[0].minutes == 5);
  CHECK(drink.served_later[1].minutes == 10);
  CHECK(drink.served_later[0].figures.abv_percent < drink.served.abv_percent);
  CHECK(drink.served_later[1].figures.abv_percent < drink.served_later[0].figures.abv_percent);
  // What melts joins the drink: ice and liquid together stay as heavy as they were.
  for (const auto& later : drink.served_later)
    CHECK(later.ice_g + later.figures.mass_g ==
          Approx(drink.in_glass.ice_g + drink.served.mass_g).epsilon(1e-9));
}

TEST_CASE("ice of fast melt that a step brought into the glass melts as fast while the drink stands") {
  // What melts in the second five minutes, of what melts in the first: the faster the melt, the nearer its
  // end.
  auto goes_on = [](const char* ice) {
    auto house = evaluate(fmt::format("drink A\n  60 ml aged rum\n  swizzle 20 s with 200 g {}\n", ice));
    const auto& drink = house.drink("A");
    const auto& later = drink.served_later;
    REQUIRE(later.size() == 2);
    return (later[0].ice_g - later[1].ice_g) / (drink.in_glass.ice_g - later[0].ice_g);
  };
  CHECK(goes_on("crushed") < goes_on("cubed"));
  CHECK(goes_on("cubed") < 1);
}

// ---- what is lost

TEST_CASE("a recipe past its thousandth line says so once, and nothing of it is vouched for") {
  std::string text = "drink Long\n  glass rocks\n";
  for (int i = 0; i < 1000; ++i) text += "  1 ml water\n";
  auto fits = evaluate(text);
  CHECK(fits.errors().empty());
  CHECK(fits.drink("Long").valid);
  CHECK(fits.drink("Long").allergens.known);
  for (const char* lost :
       {"  1 ml cream\n", "  float 10 ml cream\n", "  garnish lemon twist\n", "  stir 10 s\n"}) {
    INFO(lost);
    auto over = evaluate(text + lost + "  build\n");
    CHECK(over.errors() ==
          std::vector<std::string>{
              "a recipe holds at most 1000 lines; this one and those after it are not read"});
    CHECK_FALSE(over.drink("Long").valid);
    CHECK_FALSE(over.drink("Long").allergens.known);
  }
}

TEST_CASE("allergens are not known while a line of the drink or of anything in it cannot be read") {
  auto house = evaluate(
      "prep Cordial\n  100 g sugar\n  100 ml water\n  keeps for a good while\n"
      "drink Whole\n  50 ml aged rum\n  20 ml simple syrup\n  build\n"
      "drink Of A Prep\n  50 ml aged rum\n  20 ml Cordial\n  build\n"
      "drink Own Line\n  50 ml aged rum\n  garnish\n  build\n");
  CHECK(house.drink("Whole").allergens.known);
  CHECK_FALSE(house.stock("Cordial").allergens.known);
  CHECK_FALSE(house.drink("Of A Prep").allergens.known);
  CHECK_FALSE(house.drink("Own Line").allergens.known);
}

TEST_CASE("what is only laid on the rim makes the drink invalid, too, where it is in error") {
  auto house = evaluate(
      "prep Dust\n  100 g sugar\n  10 g nothing that is known\n"
      "drink A\n  50 ml aged rum\n  rim Dust\n  build\n");
  CHECK_FALSE(house.stock("Dust").valid);
  CHECK_FALSE(house.drink("A").valid);
}

TEST_CASE("ice that a line adds is there from then on, and is what the drink is served on") {
  std::string amounts = "drink A\n  glass highball\n  45 ml rye whiskey\n";
  auto early = evaluate(amounts + "  build\n  add crushed\n  90 ml water\n  stir 10 s\n");
  auto late = evaluate(amounts + "  build\n  90 ml water\n  stir 10 s\n  add crushed\n");
  CHECK(early.ice_of(early.drink("A")) == "crushed");
  CHECK(late.ice_of(late.drink("A")) == "crushed");
  // Stirred on its ice it melts more of it than when the ice comes last.
  CHECK(early.drink("A").dilution_percent > late.drink("A").dilution_percent);
  CHECK(late.drink("A").in_glass.ice_g > 0);
}

TEST_CASE("plain ice that a line adds is whichever the drink's own line says") {
  auto house = evaluate(
      "drink A\n  glass highball\n  ice spear\n  45 ml rye whiskey\n  build\n  90 ml water\n  add ice\n");
  CHECK(house.ice_of(house.drink("A")) == "spear");
}

TEST_CASE("ice added before the shake is what the shake works with, and the drink is served on none") {
  auto added = evaluate("drink A\n  60 ml rye whiskey\n  add 4 cubes\n  shake 12 s\n  strain\n");
  auto named = evaluate("drink A\n  60 ml rye whiskey\n  shake 12 s with 4 cubes\n  strain\n");
  CHECK(added.drink("A").served.volume_ml == named.drink("A").served.volume_ml);
  CHECK(added.drink("A").served_on.kind == ServedIce::Kind::none);
}

// ---- what cannot be weighed

TEST_CASE("a drink of something that nobody weighs is not valid, unless that is optional") {
  const std::string flower = "ingredient paper flower\n  kind garnish\n  allergen none\n";
  auto needed = evaluate(flower + "drink A\n  60 ml aged rum\n  2 paper flower\n  stir 30 s\n  strain\n");
  CHECK_FALSE(needed.drink("A").valid);
  auto optional =
      evaluate(flower + "drink A\n  60 ml aged rum\n  2 paper flower, optional\n  stir 30 s\n  strain\n");
  CHECK(optional.drink("A").valid);
}

TEST_CASE("what no step moves is mixed in its glass, and meets the glass's heat as well") {
  auto celsius = [](const char* glass, const char* step) {
    return evaluate(std::string("drink A\n  glass ") + glass + "\n  150 ml water, at 90 C\n" + step +
                    "  ice none\n")
        .drink("A")
        .served.temperature_c;
  };
  CHECK(celsius("mug", "") == Approx(celsius("mug", "  build\n")).margin(1e-6));
  CHECK(celsius("mug, warmed", "") > celsius("mug", "") + 2);
  CHECK(celsius("mug", "") < 85);
}

TEST_CASE("a drink that is swizzled on its ice keeps it where a line adds more behind") {
  std::string amounts = "drink A\n  glass highball\n  60 ml aged rum\n  20 ml lime juice\n";
  auto named = evaluate(amounts + "  ice crushed\n  churn 10 s\n  add crushed\n");
  auto added = evaluate(amounts + "  add crushed\n  churn 10 s\n  add crushed\n");
  CHECK(named.drink("A").dilution_percent > 10);
  CHECK(named.drink("A").dilution_percent == Approx(added.drink("A").dilution_percent));
}

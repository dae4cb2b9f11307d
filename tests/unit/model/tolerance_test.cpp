// How sure a figure is. What nobody writes has a width of its own, causes move together, and hands stand
// apart from what is written.
#include <fmt/format.h>

#include <cmath>

#include "model/cause.h"
#include "model/constants.h"
#include "model_house.h"

using namespace gill;
using namespace gill::model;
using testing::evaluate;
using testing::find_influence;

namespace {

Tolerance effect_of(const testing::ModelHouse& house, std::string_view drink, std::string_view words) {
  return testing::influence_of(house, house.drink(drink), words).effect;
}

const std::string spirits =
    "ingredient plain spirit\n  kind spirit\n  strength 40 % abv\n  allergen none\n  origin plant\n\n"
    "ingredient loose spirit\n  kind spirit\n  strength 40 % abv ± 2 % abv\n  allergen none\n  origin "
    "plant\n\n"
    "ingredient sharp juice\n  kind juice\n  acid 6 % w/v ± 10 % citric\n  sugar 2 % w/v ± 5 %\n  allergen "
    "none\n"
    "  origin plant\n\n"
    "ingredient silent juice\n  kind juice\n  acid 6 % w/v citric\n  sugar 2 % w/v\n  allergen none\n  "
    "origin "
    "plant\n\n";

testing::ModelHouse with(const std::string& lines) { return evaluate(spirits + lines); }

}  // namespace

TEST_CASE("a spirit poured neat lies as far from its strength as its label may, and no more") {
  // Regulation (EU) No 1169/2011, Annex XII, from memory: 0.3 % vol.
  auto house = with(
      "drink Neat\n  glass rocks\n  ice none\n  50 ml plain spirit\n  build\n  garnish none\n\n"
      "drink Loose\n  glass rocks\n  ice none\n  50 ml loose spirit\n  build\n  garnish none\n");
  CHECK(house.drink("Neat").tolerance.abv_percent == Approx(0.3).epsilon(1e-3));
  CHECK(house.drink("Neat").written_tolerance.abv_percent == Approx(0.3).epsilon(1e-3));
  CHECK(house.drink("Loose").tolerance.abv_percent == Approx(2).epsilon(1e-3));
}

TEST_CASE("beer and what sparkles may lie further from their labels") {
  auto width = [](std::string_view kind, std::string_view strength) {
    auto house =
        evaluate(fmt::format("ingredient drawn\n  kind {}\n  strength {} % abv\n  allergen none\n\n"
                             "drink A\n  glass rocks\n  ice none\n  100 ml drawn\n  build\n  garnish none\n",
                             kind, strength));
    return house.drink("A").tolerance.abv_percent;
  };
  CHECK(width("beer", "5.5") == Approx(0.5).epsilon(1e-2));
  CHECK(width("beer", "5.6") == Approx(1).epsilon(1e-2));
  CHECK(width("sparkling", "12") == Approx(1).epsilon(1e-2));
  CHECK(width("wine", "12") == Approx(0.3).epsilon(1e-2));
  CHECK(width("mixer", "1.2") == 0);
  CHECK(width("mixer", "1.3") == Approx(0.3).epsilon(1e-2));
}

TEST_CASE("a liqueur's sugar does not move the strength on its label") {
  auto house = evaluate(
      "ingredient sweet one\n  kind liqueur\n  strength 25 % abv ± 0 % abv\n  sugar 30 % w/v ± 20 %\n  "
      "allergen none\n\n"
      "drink A\n  glass rocks\n  ice none\n  50 ml sweet one\n  build\n  garnish none\n");
  auto effect = effect_of(house, "A", "the sugar of sweet one");
  CHECK(effect.sugar_g_per_100ml == Approx(6).epsilon(1e-3));
  CHECK(std::abs(effect.abv_percent) < 1e-6);
}

TEST_CASE("one jigger measures all pours: they are large or small together, and small ones the least exact") {
  auto house = with(
      "drink A\n  glass rocks\n  ice none\n  60 ml plain spirit\n  40 ml water\n  build\n  garnish none\n\n"
      "drink B\n  glass rocks\n  ice none\n  60 ml plain spirit\n  5 ml water\n  build\n  garnish none\n");
  auto even = effect_of(house, "A", "the pours");
  // 2 % of each pour, and the strength stays.
  CHECK(even.volume_ml == Approx(0.02 * house.drink("A").served.volume_ml).epsilon(1e-3));
  CHECK(std::abs(even.abv_percent) < 1e-3);
  // Half a millilitre of 5 is a tenth, so more water comes along.
  auto uneven = effect_of(house, "B", "the pours");
  CHECK(uneven.abv_percent < -0.15);
  CHECK(house.drink("A").written_tolerance.volume_ml < 0.2 * even.volume_ml);
}

TEST_CASE("weights, parts of a weight and what says its own width are no matter of the jigger") {
  auto house = with(
      "drink A\n  glass rocks\n  ice none\n  60 g plain spirit\n  40 ml ± 5 % water\n  build\n  garnish "
      "none\n");
  CHECK_FALSE(find_influence(house, house.drink("A"), "the pours"));
  CHECK(effect_of(house, "A", "the amount of water").volume_ml == Approx(2).epsilon(0.02));
}

TEST_CASE("every hand melts differently: 15 % of the water that a shake gives, and none of it is written") {
  auto house = with("drink A\n  glass coupe\n  60 ml plain spirit\n  shake 12 s\n  strain\n  garnish none\n");
  const auto& facts = house.drink("A");
  auto effect = effect_of(house, "A", "the dilution");
  double melt_ml = facts.dilution_percent / 100 * facts.mixed.volume_ml;
  CHECK(effect.volume_ml == Approx(melt_share * melt_ml).epsilon(0.02));
  CHECK(effect.abv_percent < 0);
  CHECK(facts.written_tolerance.volume_ml < 0.1);
  CHECK(facts.tolerance.volume_ml > effect.volume_ml);
}

TEST_CASE("nothing melts where there is no ice, and ice that is drunk is no matter of hands") {
  auto house = with(
      "drink Dry\n  glass rocks\n  ice none\n  60 ml plain spirit\n  build\n  garnish none\n\n"
      "drink Frozen\n  glass rocks\n  ice none\n  60 ml plain spirit\n  blend 15 s with 100 g crushed\n  "
      "garnish none\n");
  CHECK_FALSE(find_influence(house, house.drink("Dry"), "the dilution"));
  CHECK_FALSE(find_influence(house, house.drink("Frozen"), "the dilution"));
}

TEST_CASE("a warmer room melts more, and warmer ice melts more of itself") {
  auto house = with("drink A\n  glass coupe\n  60 ml plain spirit\n  stir 30 s\n  strain\n  garnish none\n");
  CHECK(effect_of(house, "A", "the room's temperature").volume_ml > 0.1);
  CHECK(effect_of(house, "A", "the ice's temperature").volume_ml >= 0);
}

TEST_CASE("a top by eye is 5 % of what stands in the glass") {
  auto house = with(
      "drink A\n  glass highball\n  ice none\n  40 ml plain spirit\n  build\n  top soda water\n  garnish "
      "none\n");
  CHECK(effect_of(house, "A", "the top").volume_ml ==
        Approx(top_share * house.drink("A").served.volume_ml).epsilon(0.02));
}

TEST_CASE("one juice in the cordial and in the drink beside it is one cause") {
  auto house = with(
      "prep sharp cordial\n  100 ml sharp juice\n  100 ml water\n  keeps 3 d chilled\n\n"
      "drink A\n  glass rocks\n  ice none\n  40 ml plain spirit\n  30 ml sharp cordial\n  15 ml sharp "
      "juice\n  build\n"
      "  garnish none\n");
  const auto& facts = house.drink("A");
  auto effect = effect_of(house, "A", "the acidity of sharp juice");
  // All its acid comes of the one juice, so all of it moves by that juice's tenth.
  CHECK(effect.acid_g_per_100ml == Approx(0.1 * facts.served.acid_g_per_100ml).epsilon(1e-3));
  CHECK(facts.written_tolerance.acid_g_per_100ml == Approx(effect.acid_g_per_100ml).epsilon(0.02));
}

TEST_CASE("a juice that says nothing of its days is as unsure as fresh citrus") {
  auto house = with("drink A\n  glass rocks\n  ice none\n  50 ml silent juice\n  build\n  garnish none\n");
  const auto& facts = house.drink("A");
  CHECK(facts.written_tolerance.acid_g_per_100ml ==
        Approx(0.15 * facts.served.acid_g_per_100ml).epsilon(1e-3));
  CHECK(facts.written_tolerance.sugar_g_per_100ml ==
        Approx(0.1 * facts.served.sugar_g_per_100ml).epsilon(1e-3));
}

TEST_CASE("a whole lime muddled is as sharp as its juice is that day") {
  auto house = evaluate(
      "drink A\n  glass rocks\n  ice none\n  50 ml white rum\n  1 lime\n  muddle\n  build\n  garnish none\n");
  const auto& facts = house.drink("A");
  auto effect = effect_of(house, "A", "the acidity of lime juice");
  double share = house.stock("lime juice").acid_tolerance;
  CHECK(share > 0);
  CHECK(effect.acid_g_per_100ml == Approx(share * facts.served.acid_g_per_100ml).epsilon(0.02));
}

TEST_CASE("a measured prep is as sure as its reading, whatever its juice was like") {
  auto house = with(
      "prep checked cordial\n  100 ml sharp juice\n  100 ml water\n  acid 3 % w/v ± 2 %\n"
      "  keeps 3 d chilled\n\n"
      "prep trusted cordial\n  100 ml sharp juice\n  100 ml water\n  acid 3 % w/v\n"
      "  keeps 3 d chilled\n");
  CHECK(house.stock("checked cordial").acid_tolerance == Approx(0.02).epsilon(1e-3));
  CHECK(house.stock("trusted cordial").acid_tolerance < 1e-9);
}

TEST_CASE("the whole is the root of the sum of squares of its causes, and hands are the rest") {
  auto house = with(
      "drink A\n  glass coupe\n  50 ml plain spirit\n  20 ml sharp juice\n  2 dashes loose spirit\n"
      "  shake 12 s\n  strain\n  garnish none\n");
  const auto& facts = house.drink("A");
  double all = 0, written = 0;
  for (const auto& influence : facts.influences) {
    all += std::pow(influence.effect.abv_percent, 2);
    if (!is_of_hands(influence.cause.kind)) written += std::pow(influence.effect.abv_percent, 2);
  }
  CHECK(facts.tolerance.abv_percent == Approx(std::sqrt(all)).epsilon(1e-12));
  CHECK(facts.written_tolerance.abv_percent == Approx(std::sqrt(written)).epsilon(1e-12));
  CHECK(written > 0);
  CHECK(written < all);
}

TEST_CASE("a cause's width is told in the unit in which it is known") {
  CHECK(width_text({Cause::Kind::strength, {}, {}}, 0.003) == "± 0.3 % abv");
  CHECK(width_text({Cause::Kind::melt, {}, {}}, 0.15) == "± 15 %");
  CHECK(width_text({Cause::Kind::room, {}, {}}, 2) == "± 2 C");
}

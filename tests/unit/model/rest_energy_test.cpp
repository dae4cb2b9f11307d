// Energy of what is neither sugar nor fat nor protein: Regulation (EU) No 1169/2011, Annex XIV. Polyols 2.4
// kcal and 10 kJ a gram, erythritol nothing, fibre (gums among it) 2 and 8, starch and dextrins 4 and 17.
#include <catch2/catch.hpp>
#include <string>

#include "unit/model/model_house.h"

using gill::testing::evaluate;

namespace {

/// What 10 g of it add to a glass of water, kcal.
double kcal_of_10_g(const std::string& lines, const std::string& name) {
  auto house = evaluate(lines + "\ndrink A\n  200 ml water\n  10 g " + name +
                        "\n  build\n  ice none\n  garnish none\n");
  return house.drink("A").energy_kcal;
}

}  // namespace

TEST_CASE("sweeteners that are no sugar feed by Annex XIV", "[energy]") {
  CHECK(kcal_of_10_g("", "xylitol") == Approx(24));
  CHECK(kcal_of_10_g("", "isomalt") == Approx(23.76));
  CHECK(kcal_of_10_g("", "vegetable glycerine") == Approx(23.88));
  CHECK(kcal_of_10_g("", "erythritol") == Approx(0).margin(1e-9));
}

TEST_CASE("gums and fibre feed 2 kcal a gram, dextrins and starch 4", "[energy]") {
  CHECK(kcal_of_10_g("", "inulin") == Approx(19));
  CHECK(kcal_of_10_g("", "gum arabic") == Approx(18.8));   // 9 g of gum, 0.2 g of protein
  CHECK(kcal_of_10_g("", "maltodextrin") == Approx(38));   // 9.2 g of dextrin, 0.3 g of sugar
  CHECK(kcal_of_10_g("", "cornstarch") == Approx(36.52));  // 9.13 g
  CHECK(kcal_of_10_g("", "baking soda") == Approx(0).margin(1e-9));
}

TEST_CASE("a house's own lines feed as the library's do", "[energy]") {
  CHECK(kcal_of_10_g(
            "ingredient bran\n  kind additive\n  water 10 % w/w\n  fibre 50 % w/w\n  starch 20 % w/w\n",
            "bran") == Approx(18));
  CHECK(kcal_of_10_g(
            "ingredient sorbet base\n  kind sweetener\n  form powder\n  water 0 % w/w\n  polyol 40 % w/w\n"
            "  sugar 60 % w/w\n",
            "sorbet base") == Approx(33.6));
}

TEST_CASE("energy of the rest goes through preps", "[energy]") {
  auto house = evaluate(
      "prep glycerine mix\n  100 g vegetable glycerine\n  100 g water\n  stir\n\n"
      "drink A\n  200 ml water\n  20 g glycerine mix\n  build\n  ice none\n  garnish none\n");
  CHECK(house.drink("A").energy_kcal == Approx(23.88));
}

TEST_CASE("starch that a strain takes out is not drunk", "[energy]") {
  auto house = evaluate(
      "prep rice water\n  500 ml water\n  100 g rice\n  steep 30 min\n  strain\n\n"
      "drink A\n  100 ml rice water\n  build\n  ice none\n  garnish none\n");
  CHECK(house.drink("A").energy_kcal < 15);
}

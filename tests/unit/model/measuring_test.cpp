// Volume, mass and count of one thing turned into each other, and what is told where they cannot be.
#include <fmt/format.h>

#include "model_house.h"

using namespace gill;
using testing::evaluate;

namespace {

/// The findings of a rule, as `message | help`.
std::vector<std::string> told(const testing::ModelHouse& house, std::string_view rule) {
  std::vector<std::string> found;
  for (const auto& finding : house.front.sink.all())
    if (diagnostics::info(finding.rule).name == rule) found.push_back(finding.message + " | " + finding.help);
  return found;
}

double grams(const testing::ModelHouse& house, std::string_view drink, std::size_t entry = 0) {
  return house.drink(drink).entries.at(entry).mass_g.value();
}

const std::string things =
    "ingredient oil of the house\n  kind fat\n  density 0.9 g/ml\n  allergen none\n"
    "ingredient fig\n  kind fruit\n  each 50 g\n  each slice 8 g\n  allergen none\n"
    "ingredient oil capsule\n  kind fat\n  density 0.9 g/ml\n  each 2 ml\n  allergen none\n";

}  // namespace

TEST_CASE("a volume weighs what its density says, and a weight fills what its density says") {
  auto house = evaluate(things +
                        "drink A\n  30 ml oil of the house\n  build\n  ice none\n"
                        "drink B\n  27 g oil of the house\n  build\n  ice none\n");
  CHECK(grams(house, "A") == Approx(27));
  CHECK(house.drink("B").entries[0].volume_ml.value() == Approx(30));
}

TEST_CASE("a piece weighs what its own word says, else its share of the whole") {
  auto house = evaluate(things +
                        "drink Whole\n  2 fig\n  build\n  ice none\n"
                        "drink Half\n  3 halves fig\n  build\n  ice none\n"
                        "drink Piece\n  1 piece fig\n  build\n  ice none\n"
                        "drink Slice\n  3 slices fig\n  build\n  ice none\n");
  CHECK(grams(house, "Whole") == Approx(100));
  CHECK(grams(house, "Half") == Approx(75));
  CHECK(grams(house, "Piece") == Approx(50));
  CHECK(grams(house, "Slice") == Approx(24));
}

TEST_CASE("a piece that is measured by volume weighs what its density says") {
  auto house = evaluate(things + "drink A\n  3 oil capsule\n  build\n  ice none\n");
  CHECK(grams(house, "A") == Approx(3 * 2 * 0.9));
  CHECK(house.drink("A").entries[0].count == 3.0);
}

TEST_CASE("a piece of a prep is its share of what the prep makes, under any word") {
  auto house = evaluate(things +
                        "prep dried figs\n  480 g fig\n  dehydrate 6 h at 60 C\n  makes 24\n"
                        "drink A\n  2 dried figs\n  build\n  ice none\n"
                        "drink B\n  3 wheels dried figs\n  build\n  ice none\n");
  double all = house.stock("dried figs").yield_g;
  CHECK(house.stock("dried figs").yield_count == 24.0);
  CHECK(grams(house, "A") == Approx(2 * all / 24));
  CHECK(grams(house, "B") == Approx(3 * all / 24));
}

TEST_CASE("a word for which no weight is known is refused, with what to write") {
  auto house = evaluate(things + "drink A\n  2 wedges fig\n  build\n  ice none\n");
  auto found = told(house, "no-density");
  REQUIRE(found.size() == 1);
  CHECK(found[0].find("Add `each wedge … g` to `ingredient fig`") != std::string::npos);
  CHECK_FALSE(house.drink("A").valid);
}

TEST_CASE("a bare number of what is poured was meant in ounces below five, in millilitres from there on") {
  // Common practice, no source.
  auto help = [](std::string_view number) {
    auto found = told(evaluate(fmt::format("drink A\n  {} vodka\n  build\n", number)), "unknown-unit");
    REQUIRE(found.size() == 1);
    return found[0].substr(found[0].find("| ") + 2);
  };
  CHECK(help("2") == "Write a unit: `2 oz vodka`.");
  CHECK(help("4.9") == "Write a unit: `4.9 oz vodka`.");
  CHECK(help("5") == "Write a unit: `5 ml vodka`.");
  CHECK(help("30") == "Write a unit: `30 ml vodka`.");
}

TEST_CASE(
    "a bare number of a herb is asked which piece of it is meant, and each answer weighs what it says") {
  const std::string herb =
      "ingredient weir balm\n  kind herb\n  each leaf 0.5 g\n  each sprig 3 g\n  allergen none\n"
      "ingredient weir moss\n  kind herb\n  allergen none\n";
  auto with = [&](std::string_view line) {
    return evaluate(herb + fmt::format("drink A\n  {}\n  build\n", line));
  };
  CHECK(told(with("6 weir balm"), "no-density") ==
        std::vector<std::string>{
            "`6 weir balm` could be several pieces of it | Write `6 weir balm leaf` or `6 weir "
            "balm sprig`."});
  CHECK(grams(with("6 weir balm leaf"), "A") == Approx(3));
  CHECK(grams(with("6 weir balm sprig"), "A") == Approx(18));
  CHECK(told(with("6 weir moss"), "no-density") ==
        std::vector<std::string>{
            "how much one `weir moss` weighs is not known | Add `each … g` to `ingredient weir moss`."});
}

TEST_CASE("an ounce of a fruit offers its juice and its weight, of another solid its weight in grams") {
  // NIST Handbook 44, Appendix C: an avoirdupois ounce is 28.349 523 125 g.
  auto lemon = told(evaluate("drink A\n  2 oz lemon\n  build\n"), "ounce-of-solid");
  REQUIRE(lemon.size() == 1);
  CHECK(lemon[0].find("`2 oz lemon juice`") != std::string::npos);
  CHECK(lemon[0].find("`2 oz wt lemon`") != std::string::npos);
  auto sugar = told(evaluate("drink A\n  10 oz white sugar\n  build\n"), "ounce-of-solid");
  REQUIRE(sugar.size() == 1);
  CHECK(sugar[0].find("Write `10 oz wt white sugar`. In grams that is `283 g white sugar`.") !=
        std::string::npos);
}

TEST_CASE("two measures agree within a twentieth of the larger, or within what either states") {
  auto differs = [](std::string_view line) {
    return told(evaluate(things + fmt::format("drink A\n  {} oil of the house\n  build\n  ice none\n", line)),
                "unequal-measures")
        .size();
  };
  CHECK(differs("100 ml = 90 g") == 0);
  CHECK(differs("100 ml = 94.5 g") == 0);  // 4.5 of 94.5
  CHECK(differs("100 ml = 95 g") == 1);    // 5 of 95
  CHECK(differs("100 ml = 85.6 g") == 0);
  CHECK(differs("100 ml = 85.4 g") == 1);
  CHECK(differs("100 ml ± 10 % = 98 g") == 0);
  CHECK(differs("100 ml = 98 g ± 10 %") == 0);
  CHECK(differs("100 ml = 105 ml") == 0);
  CHECK(differs("100 ml = 106 ml") == 1);
}

TEST_CASE("of two measures that differ the first counts, and the second is told in its own unit") {
  auto house = evaluate(things +
                        "drink A\n  100 ml = 60 g oil of the house\n  build\n  ice none\n"
                        "drink B\n  90 g = 150 ml oil of the house\n  build\n  ice none\n"
                        "drink C\n  100 g = 4 fig\n  build\n  ice none\n");
  CHECK(grams(house, "A") == Approx(90));
  auto found = told(house, "unequal-measures");
  REQUIRE(found.size() == 3);
  CHECK(found[0].find("differ by 33 %") != std::string::npos);
  CHECK(found[0].find("it comes to 90 g.") != std::string::npos);
  CHECK(found[1].find("it comes to 100 ml.") != std::string::npos);
  CHECK(found[2].find("it comes to 2.") != std::string::npos);
}

TEST_CASE("a prep that comes out dry or in pieces is no liquid, and a paste is one") {
  auto house = evaluate(things +
                        "prep dust\n  100 g white sugar\n  10 g salt\n"
                        "prep butter\n  100 g oil of the house\n"
                        "prep cubes\n  100 ml water\n  freeze 12 h\n  makes 8\n"
                        "drink A\n  10 g dust\n  build\n  ice none\n"
                        "drink B\n  10 g butter\n  build\n  ice none\n"
                        "drink C\n  2 cubes\n  build\n  ice none\n");
  CHECK_FALSE(house.drink("A").entries[0].volume_ml);
  CHECK(house.drink("B").entries[0].volume_ml.value_or(0) > 10);
  CHECK_FALSE(house.drink("C").entries[0].volume_ml);
}

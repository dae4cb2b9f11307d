#include <catch2/catch.hpp>

#include "render/wording/build_lines.h"
#include "render/wording/method_lines.h"
#include "rendered_house.h"

using namespace gill;
using namespace gill::render::wording;
using testing::RenderedHouse;

namespace {

std::vector<std::string> build_of(const RenderedHouse& house, std::string_view name) {
  const auto& drink = house.compiled.drink(name);
  const auto& facts =
      house.facts.drinks[static_cast<std::size_t>(&drink - house.compiled.specs.drinks.data())];
  std::vector<std::string> lines;
  for (const auto& line : build_lines(recipe_of(drink, facts, house.compiled.specs, house.compiled.units))) {
    std::string text;
    if (line.whole) text = text_of(*line.whole);
    for (const auto& column : line.columns)
      if (column && !line.whole) text += (text.empty() ? "" : " | ") + text_of(*column);
    text += " : " + line.name;
    for (const auto& remark : line.remarks) text += ", " + remark;
    lines.push_back((line.is_about ? "about " : "") + text);
  }
  return lines;
}

std::vector<std::string> method_of(const RenderedHouse& house, std::string_view name) {
  const auto& drink = house.compiled.drink(name);
  const auto& facts =
      house.facts.drinks[static_cast<std::size_t>(&drink - house.compiled.specs.drinks.data())];
  std::vector<std::string> lines;
  for (const auto& line : method_lines(recipe_of(drink, facts, house.compiled.specs, house.compiled.units)))
    lines.push_back(line.sentence);
  return lines;
}

std::vector<std::string> prep_method_of(const RenderedHouse& house, std::string_view name) {
  const auto& prep = house.compiled.stock(name);
  const auto& facts = house.facts.stock[static_cast<std::size_t>(&prep - house.compiled.specs.stock.data())];
  std::vector<std::string> lines;
  for (const auto& line : method_lines(recipe_of(prep, facts, house.compiled.specs, house.compiled.units)))
    lines.push_back(line.sentence);
  return lines;
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("a build has both of the house's columns", "[render]") {
  RenderedHouse house(
      "unit thimble = 7.5 ml ± 6 %\n"
      "drink A\n  glass coupe\n"
      "  1 1/2 oz = 45 ml  London dry gin\n  22.5 ml lemon juice, chilled\n  1 thimble simple syrup, or "
      "maple syrup\n"
      "  2 dashes orange bitters, optional\n  8 leaves mint\n  1 egg white\n  1 g salt\n"
      "  shake 12 s\n  strain\n  top 30..40 ml soda water\n");
  CHECK(build_of(house, "A") ==
        Lines{"45 ml | 1 1/2 oz : London dry gin", "22.5 ml | 3/4 oz : lemon juice, chilled",
              "7.5 ml | 1/4 oz : simple syrup, 1 thimble, or maple syrup",
              "2 dashes : orange bitters, optional", "8 leaves : mint", "1 : egg white, about 30 ml",
              "1 g : salt", "30–40 ml | 1–1 1/3 oz : soda water, to top"});
}

TEST_CASE("a method is short sentences in the order of doing", "[render]") {
  RenderedHouse house(
      "drink A\n  glass coupe\n  45 ml London dry gin\n  20 ml lemon juice\n  1 egg white\n"
      "  rim salt\n  dry shake 20 s\n  15 ml simple syrup\n  2 dashes orange bitters\n  shake 10..12 s with "
      "4 cubes, hard\n"
      "  double strain\n  mist 2 absinthe\n  float 5 ml overproof rum\n  garnish lemon twist, expressed\n"
      "  do tap the foot twice, 2 s\n  serve at once\n");
  CHECK(method_of(house, "A") ==
        Lines{"Rim the glass with salt.", "Dry shake 20 s.",
              "Add 15 ml simple syrup and 2 dashes orange bitters.", "Shake 10–12 s with 4 cubes, hard.",
              "Double strain into the glass.", "Mist twice with absinthe.", "Float 5 ml overproof rum.",
              "Garnish with lemon twist, expressed.", "Tap the foot twice, 2 s.", "Serve at once."});
}

TEST_CASE("a built drink says when the ice goes to work", "[render]") {
  RenderedHouse house(
      "drink A\n  glass rocks\n  ice crushed\n  build\n  60 ml bourbon whiskey\n  muddle\n  swizzle 20 s "
      "with 80 g crushed\n"
      "  throw 6\n  garnish none\n");
  CHECK(method_of(house, "A") ==
        Lines{"Build in the glass.", "Muddle.", "Swizzle 20 s with 80 g crushed ice.", "Throw 6 times."});
}

TEST_CASE("a prep's method tells what goes in when", "[render]") {
  RenderedHouse house(
      "prep A\n  1 l orange juice\n  simmer 20 min\n  remove orange juice, keeping 1 %\n  150 g white sugar\n"
      "  until acid 3 % w/v citric acid\n  dissolve\n  cool to 4 C within 2 h\n  fine strain, through "
      "muslin\n");
  auto lines = prep_method_of(house, "A");
  REQUIRE(lines.size() == 8);
  CHECK(lines[0] == "Start with orange juice.");
  CHECK(lines[1] == "Simmer 20 min.");
  CHECK(lines[2] == "Remove orange juice (1 % of it stays in).");
  CHECK(lines[3] == "Add 150 g white sugar.");
  CHECK_THAT(lines[4],
             Catch::StartsWith("Add ") && Catch::EndsWith("citric acid, until the acid is 3 % w/v."));
  CHECK(lines[6] == "Cool to 4 °C within 2 h.");
  CHECK(lines[7] == "Fine strain, through muslin.");
}

TEST_CASE("garnishes are told as meant: none on purpose, unknown, beside", "[render]") {
  RenderedHouse house(
      "drink A\n  glass coupe\n  60 ml London dry gin\n  stir 30 s\n  strain\n  garnish none\n"
      "drink B\n  glass coupe\n  60 ml London dry gin\n  stir 30 s\n  strain\n  garnish 2 lemon wheels\n  "
      "garnish unheard-of thing\n"
      "  side 1 lemon wedge\n");
  auto garnish = [&](std::string_view name) {
    const auto& drink = house.compiled.drink(name);
    const auto& facts =
        house.facts.drinks[static_cast<std::size_t>(&drink - house.compiled.specs.drinks.data())];
    return garnish_lines(recipe_of(drink, facts, house.compiled.specs, house.compiled.units));
  };
  CHECK(garnish("A").at(0).words == "none, on purpose");
  auto b = garnish("B");
  REQUIRE(b.size() == 3);
  CHECK(b[0].words == "2 lemon wheels");
  CHECK(b[1].words == "unheard-of thing");
  CHECK(b[1].is_unknown);
  CHECK(b[2].words == "1 lemon wedge");
  CHECK(b[2].is_side);
}

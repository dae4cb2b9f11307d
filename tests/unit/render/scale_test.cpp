#include <catch2/catch.hpp>

#include "render/wording/build_lines.h"
#include "rendered_house.h"

using namespace gill;
using namespace gill::render::wording;
using testing::RenderedHouse;

namespace {

constexpr std::string_view scaled_house_text =
    "house The Weir\n  ounce 30 ml\n"
    "drink A\n  glass coupe\n  3/4 oz lemon juice\n  45 ml London dry gin\n  1 dash orange bitters\n  1 egg "
    "white\n  8 leaves mint\n"
    "  shake 12 s\n  strain\n"
    "prep saline\n  20 g salt\n  to 1 l water\n  stir\n";

/// A build so many times, a line an amount.
std::vector<std::string> build_of(const RenderedHouse& house, double scale) {
  const auto& drink = house.compiled.drink("A");
  const auto& facts =
      house.facts.drinks[static_cast<std::size_t>(&drink - house.compiled.specs.drinks.data())];
  auto recipe = recipe_of(drink, facts, house.compiled.specs, house.compiled.units);
  recipe.scale = scale;
  std::vector<std::string> lines;
  for (const auto& line : build_lines(recipe)) {
    std::string text = line.whole ? text_of(*line.whole) : "";
    for (const auto& column : line.columns)
      if (column && !line.whole) text += (text.empty() ? "" : " | ") + text_of(*column);
    lines.push_back(text + " " + line.name);
  }
  return lines;
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("a build told ten times is ten times each amount, exactly", "[render]") {
  RenderedHouse house(scaled_house_text);
  CHECK(build_of(house, 1) == Lines{"22.5 ml | 3/4 oz lemon juice", "45 ml | 1 1/2 oz London dry gin",
                                    "1 dash orange bitters", "1 egg white", "8 leaves mint"});
  CHECK(build_of(house, 2) == Lines{"45 ml | 1 1/2 oz lemon juice", "90 ml | 3 oz London dry gin",
                                    "2 dashes orange bitters", "2 egg whites", "16 leaves mint"});
  CHECK(build_of(house, 10) == Lines{"225 ml | 7 1/2 oz lemon juice", "450 ml | 15 oz London dry gin",
                                     "10 dashes orange bitters", "10 egg whites", "80 leaves mint"});
}

TEST_CASE("a build told for a litre is rounded to what can be measured", "[render]") {
  RenderedHouse house(scaled_house_text);
  // 45 ml × 7.37 = 331.65 ml; 22.5 ml × 7.37 = 165.8 ml: above a hundred, to a millilitre.
  auto lines = build_of(house, 7.37);
  CHECK_THAT(lines[1], Catch::StartsWith("332 ml"));
  CHECK_THAT(lines[0], Catch::StartsWith("166 ml"));
}

TEST_CASE("the pages hold each amount at every scale, and the totals of a prep as well", "[render]") {
  RenderedHouse house(scaled_house_text);
  auto page = house.page("drinks/a.html");
  CHECK_THAT(page, Catch::Contains("<span data-scale=\"2\" hidden><span class=\"number\">450 <span "
                                   "class=\"unit\">ml</span></span></span>"));
  CHECK_THAT(house.page("preps/saline.html"), Catch::Contains("up to 10 l"));
}

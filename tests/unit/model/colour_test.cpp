// The colour of a drink: light that passes several liquids is weakened by each (Beer and Lambert; IUPAC
// Compendium of Chemical Terminology, "Beer-Lambert law").
#include "model/colour.h"

#include "model_house.h"

using namespace gill;
using model::Light;

namespace {

std::string colour_of(std::string_view colour) {
  analysis::Stock stock;
  stock.colour = colour;
  return model::to_hex(model::light_of(stock));
}

}  // namespace

TEST_CASE("a colour of six digits comes back as it was written, each channel its own") {
  for (std::string_view hex : {"#000000", "#ffffff", "#123456", "#fe0180"}) CHECK(colour_of(hex) == hex);
}

TEST_CASE("a colour's word beats the kind, and what is no colour leaves the kind's") {
  analysis::Stock wine;
  wine.kind = analysis::StockKind::wine;
  auto usual = model::to_hex(model::light_of(wine));
  wine.colour = "ruby";
  CHECK(model::to_hex(model::light_of(wine)) != usual);
  CHECK(model::to_hex(model::light_of(wine)) == colour_of("ruby"));
  wine.colour = "#12345";
  CHECK(model::to_hex(model::light_of(wine)) == usual);
}

TEST_CASE("light that is let through multiplies by share: half of a quarter lets half through") {
  auto half = model::mixed({{Light{}, 30}, {Light{0.25, 0.25, 0.25}, 30}});
  CHECK(half.red == Approx(0.5));
  CHECK(half.green == Approx(0.5));
  CHECK(half.blue == Approx(0.5));
  auto quarter = model::mixed({{Light{}, 90}, {Light{0.0625, 1, 1}, 30}});
  CHECK(quarter.red == Approx(0.5));
  CHECK(quarter.green == Approx(1));
}

TEST_CASE("the channels are mixed each by itself") {
  auto light = model::mixed({{Light{0.3, 0.6, 0.9}, 10}});
  CHECK(light.red == Approx(0.3));
  CHECK(light.green == Approx(0.6));
  CHECK(light.blue == Approx(0.9));
}

TEST_CASE("nothing mixed is clear, and black in a mix lets a fiftieth through") {
  CHECK(model::to_hex(model::mixed({})) == "#ffffff");
  CHECK(model::mixed({{Light{0, 1, 1}, 10}}).red == Approx(0.02));
}

TEST_CASE("light beyond its range is held to it") { CHECK(model::to_hex({1.2, -0.5, 0.5}) == "#ff0080"); }

TEST_CASE(
    "a drink has its own colour where it states one, else that of what is poured, thinned by its melt") {
  std::string things =
      "ingredient plum wine\n  kind liqueur\n  strength 20 % abv\n  colour #400a40\n  allergen none\n"
      "ingredient gold leaf syrup\n  kind syrup\n  sugar 50 % w/w\n  colour #ffff00\n  allergen none\n";
  auto house = testing::evaluate(things +
                                 "drink Plain\n  50 ml plum wine\n  build\n  ice none\n"
                                 "drink Stated\n  50 ml plum wine\n  colour #010203\n  build\n  ice none\n"
                                 "drink Left\n  50 ml plum wine\n  30 ml gold leaf syrup, optional\n  "
                                 "build\n  ice none\n  garnish lemon twist\n"
                                 "drink Shaken\n  50 ml plum wine\n  shake 12 s\n  strain\n");
  CHECK(house.drink("Plain").colour == "#400a40");
  CHECK(house.drink("Stated").colour == "#010203");
  CHECK(house.drink("Left").colour == "#400a40");
  // Water lets everything through: by how much of it there is to so much wine.
  const auto& shaken = house.drink("Shaken");
  double wine_g = shaken.entries.front().mass_g.value(),
         melt_g = shaken.served.mass_g / 0.99 - shaken.mixed.mass_g;
  Light light{64 / 255., 10 / 255., 64 / 255.};
  CHECK(shaken.colour == model::to_hex(model::mixed({{light, wine_g}, {Light{}, melt_g}})));
}

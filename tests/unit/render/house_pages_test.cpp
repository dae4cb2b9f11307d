#include <algorithm>
#include <catch2/catch.hpp>

#include "render/drawing/balance_chart.h"
#include "render/drawing/svg.h"
#include "render/wording/allergen_words.h"
#include "rendered_house.h"

using namespace gill;
using Catch::Contains;
using testing::RenderedHouse;

namespace {

constexpr std::string_view pages_house_text =
    "house The Weir\n"
    "prep boiled cordial\n  500 g white sugar\n  500 g water\n  20 g citric acid\n  heat to 85 C for 5 min\n "
    " bottle 500 ml, pouch\n"
    "  keeps 2 wk chilled\n  pH 2.6\n"
    "prep cooled cordial\n  500 g white sugar\n  500 g water\n  heat to 85 C for 5 min\n  cool to 4 C within "
    "2 h\n"
    "prep plain mix\n  500 ml water\n  5 g salt\n  stir\n"
    "prep wild brew\n  500 ml water\n  50 g white sugar\n  ferment 3 d at 20 C\n  keeps 1 wk chilled\n"
    "drink Withy Cutter\n  family sour\n  glass coupe\n  50 ml London dry gin\n  25 ml lemon juice\n  20 ml "
    "boiled cordial\n  shake 12 s\n  strain\n"
    "drink Dry One\n  family spirit-forward\n  glass coupe\n  60 ml London dry gin\n  10 ml wild brew\n  "
    "stir 30 s\n  strain\n"
    "menu Spring\n  section Short\n    Withy Cutter\n    Dry One\n";

/// The part of a page below one heading, up to the next of its order.
std::string part_of(const std::string& text, const std::string& heading) {
  auto begin = text.find("## [" + heading + "]");
  if (begin == std::string::npos) return {};
  return text.substr(begin, text.find("\n## ", begin + 3) - begin);
}

}  // namespace

TEST_CASE("the inspection sheet tells heat, cold, processes and what is not said", "[render]") {
  auto text = RenderedHouse(pages_house_text).page("inspection.md");
  auto boiled = part_of(text, "boiled cordial");
  CHECK_THAT(boiled, Contains("**Storage:** chilled"));
  CHECK_THAT(boiled, Contains("**pH:** measured, 2.6"));
  CHECK_THAT(boiled, Contains("Heat to 85 °C for 5 min"));
  CHECK_THAT(boiled, Contains("**No cooling step is written**"));
  CHECK_THAT(boiled, Contains("Acid is added: citric acid"));
  CHECK_THAT(boiled, Contains("Bottle in 500 ml, pouch"));
  auto cooled = part_of(text, "cooled cordial");
  CHECK_THAT(cooled, Contains("Cool to 4 °C within 2 h"));
  CHECK_THAT(cooled, !Contains("No cooling step"));
  CHECK_THAT(cooled, Contains("**pH:** not measured"));
  CHECK_THAT(part_of(text, "wild brew"), Contains("Ferment 3 days at 20 °C"));
  CHECK_THAT(part_of(text, "plain mix"), Contains("no step heats it or cools it"));
}

TEST_CASE("the chart of balance has a link for every drink, those without acid as well", "[render]") {
  auto page = RenderedHouse(pages_house_text).page("balance.html");
  CHECK_THAT(page, Contains("<a href=\"drinks/withy-cutter.html\" aria-label=\"Withy Cutter\">"));
  CHECK_THAT(page, Contains("<a href=\"drinks/dry-one.html\" aria-label=\"Dry One\">"));
  CHECK_THAT(page, Contains("next to no acid"));
  CHECK_THAT(page, Contains("role=\"group\""));
}

TEST_CASE("points of the chart stand by strength and by the logarithm of balance", "[render]") {
  using namespace render::drawing;
  auto scene = draw_balance_chart({{"1", "A", 10, 0, 4, 0, {"a", "A"}},
                                   {"2", "B", 20, 0, 8, 0, {"b", "B"}},
                                   {"3", "C", 20, 0, 16, 0, {"c", "C"}}},
                                  {});
  std::vector<Point> places;
  for (const auto& shape : scene.shapes)
    if (const auto* circle = std::get_if<Circle>(&shape)) places.push_back(circle->centre);
  REQUIRE(places.size() == 3);
  CHECK(places[1].x_mm > places[0].x_mm);
  CHECK(places[1].x_mm == Approx(places[2].x_mm));
  // Twice the balance is the same way up, wherever it begins.
  CHECK(places[0].y_mm - places[1].y_mm == Approx(places[1].y_mm - places[2].y_mm));
}

TEST_CASE("hundreds of drinks on one chart stay within it, and no two names meet", "[render]") {
  using namespace render::drawing;
  std::vector<ChartPoint> points;
  for (int i = 0; i < 300; ++i)
    points.push_back({std::to_string(i + 1),
                      "Some Drink " + std::to_string(i),
                      5 + (i * 7) % 40 * 1.0,
                      0.5,
                      0.3 + (i * 13) % 97,
                      1,
                      {"d", "D"}});
  auto scene = draw_balance_chart(points, {{"sour", 13, 21, 4.5, 11}});
  for (const auto& shape : scene.shapes)
    if (const auto* circle = std::get_if<Circle>(&shape)) {
      CHECK(circle->centre.x_mm >= 0);
      CHECK(circle->centre.x_mm <= scene.width_mm);
      CHECK(circle->centre.y_mm >= 0);
      CHECK(circle->centre.y_mm <= scene.height_mm);
    }
  CHECK(to_svg(scene, SvgUse::on_page, "p").find("nan") == std::string::npos);
}

TEST_CASE("a picture of its own cannot be followed", "[render]") {
  render::drawing::Scene scene;
  scene.add(render::drawing::Circle{{1, 1}, 1, render::drawing::Paint::ink(), {}, {"drinks/a", "A"}});
  CHECK(to_svg(scene, render::drawing::SvgUse::standalone, "p").find("<a ") == std::string::npos);
  CHECK_THAT(to_svg(scene, render::drawing::SvgUse::on_page, "p", "../"),
             Contains("href=\"../drinks/a.html\""));
}

TEST_CASE("code words of allergens are said as people say them in cautions", "[render]") {
  CHECK(render::wording::with_allergen_words("It carries nuts:hazelnut and cereals:rye. See: there.") ==
        "It carries hazelnut (nut) and rye (cereal with gluten). See: there.");
  CHECK(render::wording::with_allergen_words("egg: raw, 12:30, a:b") == "egg: raw, 12:30, a:b");
}

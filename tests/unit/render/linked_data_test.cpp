#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "rendered_house.h"

using namespace gill;
using testing::RenderedHouse;
using Json = nlohmann::json;

namespace {

constexpr std::string_view linked_house_text =
    "house The Weir\n"
    "drink \"Withy </script> Cutter\"\n  | Cold.\n  glass coupe\n  tag dry, late\n  since 2026-03-01\n  50 "
    "ml London dry gin\n  25 ml lemon juice\n"
    "  15 ml simple syrup\n  2 dashes orange bitters\n  shake 12 s\n  double strain\n  garnish none\n"
    "drink Weir Bowl\n  glass punch bowl\n  serves 8\n  build\n  400 ml London dry gin\n  600 ml soda "
    "water\n  stir 1 min\n"
    "drink Broken\n  glass coupe\n  60 mll London dry gin\n";

Json data_of(const std::string& page) {
  constexpr std::string_view opening = "<script type=\"application/ld+json\">";
  auto begin = page.find(opening);
  REQUIRE(begin != std::string::npos);
  begin += opening.size();
  return Json::parse(page.substr(begin, page.find("</script>", begin) - begin));
}

// schema.org, the types Recipe, HowTo, CreativeWork, Thing; HowToStep, ListItem; NutritionInformation;
// Organization: the properties that the book uses. tests/browser holds every page to the whole vocabulary.
const std::set<std::string> recipe_properties = {
    "@context",           "@type",          "name",     "description", "author",
    "datePublished",      "recipeCategory", "keywords", "recipeYield", "recipeIngredient",
    "recipeInstructions", "nutrition"};
const std::set<std::string> nutrition_properties = {"@type", "servingSize", "calories", "sugarContent"};
const std::set<std::string> step_properties = {"@type", "position", "text"};

void check_keys(const Json& object, const std::set<std::string>& known) {
  for (const auto& [key, value] : object.items()) {
    INFO(key);
    CHECK(known.contains(key));
  }
}

}  // namespace

TEST_CASE("a drink's page carries itself as a schema.org recipe", "[render]") {
  RenderedHouse house(linked_house_text);
  auto data = data_of(house.page("drinks/withy-script-cutter.html"));
  CHECK(data["@type"] == "Recipe");
  CHECK(data["name"] == "Withy </script> Cutter");
  CHECK(data["recipeIngredient"] ==
        Json{"50 ml London dry gin", "25 ml lemon juice", "15 ml simple syrup", "2 dashes orange bitters"});
  REQUIRE(data["recipeInstructions"].size() == 2);
  CHECK(data["recipeInstructions"][0]["text"] == "Shake 12 s.");
  CHECK(data["keywords"] == "dry, late");
  CHECK(data["datePublished"] == "2026-03-01");
  check_keys(data, recipe_properties);
  check_keys(data["nutrition"], nutrition_properties);
  for (const auto& step : data["recipeInstructions"]) check_keys(step, step_properties);
}

TEST_CASE("a bowl's recipe says how many it serves", "[render]") {
  auto data = data_of(RenderedHouse(linked_house_text).page("drinks/weir-bowl.html"));
  CHECK_THAT(data["recipeYield"].get<std::string>(), Catch::StartsWith("8 serves of "));
}

TEST_CASE("a drink in error states no nutrition", "[render]") {
  auto data = data_of(RenderedHouse(linked_house_text).page("drinks/broken.html"));
  CHECK_FALSE(data.contains("nutrition"));
  CHECK(data["recipeYield"] == "1 serve");
}

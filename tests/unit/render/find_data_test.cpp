#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/document/find_data.h"
#include "rendered_house.h"
#include "support/clearing_words.h"

using namespace gill;
using testing::RenderedHouse;
using Json = nlohmann::json;

namespace {

constexpr std::string_view found_house_text =
    "house The Weir\n"
    "ingredient Reed gin like London dry gin\n  aka reed\n  allergen none\n"
    "ingredient odd leaf\n  kind herb\n"
    "prep sesame gin\n  700 ml Reed gin\n  100 g toasted sesame oil\n  rest 2 h\n  remove toasted sesame "
    "oil\n"
    "drink Long Reach\n  family sour\n  glass coupe\n  tag dry\n  50 ml sesame gin\n  25 ml lemon juice\n  1 "
    "dash aromatic bitters\n"
    "  shake 12 s\n  strain\n  garnish odd leaf\n"
    "drink Plain\n  glass highball\n  alcohol ..0.5 % abv\n  build\n  150 ml soda water\n  garnish none\n"
    "menu Spring\n  section Short\n    Long Reach\n";

Json data_of(const RenderedHouse& house) {
  std::string script = house.page("find.js");
  REQUIRE(script.starts_with("gillBook("));
  REQUIRE(script.ends_with(");\n"));
  return Json::parse(script.substr(9, script.size() - 12));
}

const Json& drink(const Json& data, std::string_view name) {
  for (const auto& one : data["drinks"])
    if (one["name"] == name) return one;
  FAIL("no drink is called " << name);
  return data;
}

}  // namespace

TEST_CASE("what can be found of a drink holds its parts through preps, its tags and its allergens",
          "[render]") {
  RenderedHouse house(found_house_text);
  auto data = data_of(house);
  const auto& reach = drink(data, "Long Reach");
  std::vector<std::string> uses;
  for (const auto& at : reach["uses"]) uses.push_back(data["stock"][at.get<std::size_t>()]["name"]);
  for (const char* name : {"sesame gin", "Reed gin", "toasted sesame oil", "lemon juice", "odd leaf"})
    CHECK(std::find(uses.begin(), uses.end(), name) != uses.end());
  CHECK(reach["tags"] == Json{"dry"});
  CHECK(reach["menus"] == Json{"Spring"});
  CHECK(reach["family"] == "sour");
  CHECK(reach["has"].dump().find("sesame") != std::string::npos);
  CHECK(reach["known"] == false);
}

TEST_CASE("the base of a drink is what its strongest part is like, through preps", "[render]") {
  RenderedHouse house(found_house_text);
  auto data = data_of(house);
  CHECK(drink(data, "Long Reach")["base"] == "London dry gin");
  CHECK(drink(data, "Plain")["base"] == "");
}

TEST_CASE("alcohol-free is what says so and what the simulation agrees with", "[render]") {
  RenderedHouse house(std::string(found_house_text) +
                      "drink Not So\n  glass rocks\n  alcohol ..0.5 % abv\n  build\n  50 ml Reed gin\n");
  auto data = data_of(house);
  CHECK(drink(data, "Plain")["free"] == true);
  CHECK(drink(data, "Long Reach")["free"] == false);
  CHECK(drink(data, "Not So")["free"] == false);
}

TEST_CASE("the filters of the first page name every allergen of the list and carry the standing line",
          "[render]") {
  auto page = RenderedHouse(found_house_text).page("index.html");
  for (const char* code : {"value=\"sesame\"", "value=\"celery\"", "value=\"lupin\"", "value=\"egg\""})
    CHECK_THAT(page, Catch::Contains(code));
  CHECK_THAT(page, Catch::Contains("are shared"));
  CHECK_THAT(page, Catch::Contains("Without a declared"));
  CHECK(testing::clearing_words_in(page).empty());
}

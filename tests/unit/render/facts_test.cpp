#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "rendered_house.h"

using namespace gill;
using testing::RenderedHouse;
using Json = nlohmann::json;

namespace {

constexpr std::string_view house_text =
    "house The Weir\n  currency EUR\n"
    "ingredient Reed gin\n  kind spirit\n  strength 43 % abv\n  allergen none\n  buy 700 ml for 21 EUR\n"
    "prep bay syrup\n  500 g white sugar\n  500 g water\n  dissolve\n  keeps 2 wk chilled\n"
    "drink Withy Cutter\n  family sour\n  glass coupe\n  50 ml Reed gin\n  25 ml lemon juice\n  20 ml bay "
    "syrup\n  shake 12 s\n"
    "  double strain\n  garnish none\n"
    "drink Weir Bowl\n  glass punch bowl\n  serves 8\n  build\n  400 ml Reed gin\n  600 ml soda water\n  "
    "stir 1 min\n"
    "drink Broken\n  60 mll Reed gin\n";

const Json& find(const Json& list, std::string_view name) {
  for (const auto& item : list)
    if (item["name"] == name) return item;
  FAIL("nothing is called " << name);
  return list;
}

bool has_keys(const Json& object, std::initializer_list<const char*> keys) {
  bool all = true;
  for (const char* key : keys) {
    INFO(key);
    CHECK(object.contains(key));
    all = all && object.contains(key);
  }
  return all;
}

}  // namespace

TEST_CASE("facts as JSON have the fixed keys", "[render]") {
  RenderedHouse house(house_text);
  auto facts = Json::parse(render::facts_json(house.facts_input()));
  CHECK(facts["format"] == "gill-facts");
  CHECK(facts["version"] == 1);
  CHECK(facts["house"] == "The Weir");
  const auto& drink = find(facts["drinks"], "Withy Cutter");
  CHECK(has_keys(drink, {"name",
                         "file",
                         "line",
                         "family",
                         "glass",
                         "serves",
                         "mixed",
                         "served",
                         "tolerance",
                         "dilution_percent",
                         "ethanol_g",
                         "energy_kcal",
                         "energy_kj",
                         "alcohol_units",
                         "glass_fill_percent",
                         "allergens",
                         "allergens_may",
                         "allergens_known",
                         "cost",
                         "ingredients"}));
  CHECK(drink["file"] == "house.gill");
  CHECK(drink["line"] == 13);
  CHECK(drink["family"] == "sour");
  for (const char* part : {"mixed", "served"})
    CHECK(has_keys(drink[part], {"volume_ml", "mass_g", "abv_percent", "sugar_g_per_100ml",
                                 "acid_g_per_100ml", "density_g_per_ml"}));
  CHECK(has_keys(drink["served"], {"temperature_c", "sugar_acid_ratio"}));
  CHECK(has_keys(drink["tolerance"], {"abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml", "volume_ml"}));
  CHECK(has_keys(drink["alcohol_units"], {"UK", "US", "AU"}));
  CHECK(drink["cost"]["currency"] == "EUR");
  CHECK(drink["cost"]["amount"].is_null());
  const auto& first = drink["ingredients"][0];
  CHECK(has_keys(first, {"name", "as_written", "volume_ml", "mass_g", "cost"}));
  CHECK(first["name"] == "Reed gin");
  CHECK(first["as_written"] == "50 ml");
  CHECK(first["volume_ml"].get<double>() == Approx(50));
  CHECK(first["cost"].get<double>() == Approx(50 * 21.0 / 700));
  const auto& prep = find(facts["preps"], "bay syrup");
  CHECK(has_keys(prep, {"name", "file", "line", "yield_ml", "yield_g", "loss_percent", "abv_percent",
                        "sugar_g_per_100ml", "brix", "acid_g_per_100ml", "density_g_per_ml",
                        "fat_g_per_100ml", "allergens", "allergens_may", "allergens_known", "cost_per_l",
                        "keeps_days", "storage", "ingredients"}));
  CHECK(prep["keeps_days"] == 14);
  CHECK(prep["storage"] == "chilled");
  CHECK(prep["brix"].get<double>() == Approx(50).margin(0.1));
  const auto& ingredient = find(facts["ingredients"], "Reed gin");
  CHECK(
      has_keys(ingredient, {"name", "kind", "abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml",
                            "density_g_per_ml", "allergens", "allergens_may", "allergens_known", "source"}));
  CHECK(ingredient["kind"] == "spirit");
  CHECK(ingredient["allergens_known"] == true);
}

TEST_CASE("facts are of what the house uses", "[render]") {
  RenderedHouse house(house_text);
  auto facts = Json::parse(render::facts_json(house.facts_input()));
  find(facts["ingredients"], "lemon juice");
  find(facts["ingredients"], "white sugar");
  for (const auto& ingredient : facts["ingredients"]) CHECK(ingredient["name"] != "absinthe");
  for (const auto& prep : facts["preps"]) CHECK(prep["name"] != "rich syrup");
}

TEST_CASE("numbers of the facts are not rounded and read back as they were", "[render]") {
  RenderedHouse house(house_text);
  auto facts = Json::parse(render::facts_json(house.facts_input("Withy Cutter")));
  const auto& drink = house.compiled.drink("Withy Cutter");
  const auto& known =
      house.facts.drinks[static_cast<std::size_t>(&drink - house.compiled.specs.drinks.data())];
  CHECK(facts["drinks"][0]["served"]["abv_percent"].get<double>() == known.served.abv_percent);
  CHECK(facts["drinks"][0]["energy_kj"].get<double>() == known.energy_kj);
}

TEST_CASE("a bowl has its whole beside its serve", "[render]") {
  RenderedHouse house(house_text);
  auto facts = Json::parse(render::facts_json(house.facts_input()));
  const auto& bowl = find(facts["drinks"], "Weir Bowl");
  CHECK(bowl["serves"] == 8);
  CHECK(bowl["whole"]["ethanol_g"].get<double>() == Approx(8 * bowl["ethanol_g"].get<double>()));
  CHECK(bowl["whole"]["served"]["volume_ml"].get<double>() ==
        Approx(8 * bowl["served"]["volume_ml"].get<double>()));
  CHECK(bowl["whole"]["served"]["abv_percent"] == bowl["served"]["abv_percent"]);
  CHECK_FALSE(find(facts["drinks"], "Withy Cutter").contains("whole"));
}

TEST_CASE("a figure that rests on an error is null", "[render]") {
  RenderedHouse house(house_text);
  auto facts = Json::parse(render::facts_json(house.facts_input()));
  const auto& broken = find(facts["drinks"], "Broken");
  CHECK(broken["served"]["abv_percent"].is_null());
  CHECK(broken["sound"] == false);
  CHECK(broken["allergens_known"] == false);
}

TEST_CASE("one name is asked for as names are compared", "[render]") {
  RenderedHouse house(house_text);
  auto facts = Json::parse(render::facts_json(house.facts_input("withy  CUTTER")));
  CHECK(facts["drinks"].size() == 1);
  CHECK(facts["preps"].empty());
  CHECK(facts["ingredients"].empty());
  CHECK(render::facts_know(house.facts_input(), "reed GIN"));
  CHECK(render::facts_know(house.facts_input(), "clear honey"));
  CHECK_FALSE(render::facts_know(house.facts_input(), "nothing such"));
}

TEST_CASE("facts as a table have a column for every field of a row", "[render]") {
  RenderedHouse house("ingredient \"=1+1, \"\n  kind spirit\n  strength 40 % abv\n");
  std::string table = render::facts_csv(house.facts_input());
  auto lines = std::count(table.begin(), table.end(), '\n');
  CHECK(lines == 2);
  // RFC 4180, section 2: a field with a comma stands in quotes. A spreadsheet must not take a name for a
  // formula.
  CHECK_THAT(table, Catch::Contains("\"'=1+1, \"") || Catch::Contains("\"'=1+1,\""));
}

TEST_CASE("the table of facts has a column for each allergen of the house's list, and says what is not known",
          "[render]") {
  RenderedHouse house(R"(house H
  allergen list EU
ingredient meringue mix
  kind egg
  allergen egg
  allergen may milk
ingredient riddle
  kind syrup
drink Known
  30 ml meringue mix
drink Unknown
  30 ml meringue mix
  30 ml riddle
)");
  std::string table = render::facts_csv(house.facts_input("Known")),
              unknown = render::facts_csv(house.facts_input("Unknown"));
  CHECK_THAT(table, Catch::Contains("allergen:egg") && Catch::Contains("allergen:milk"));
  // The fourteen of Regulation (EU) No 1169/2011, Annex II: here one is in it, one may be, and twelve nobody
  // declares.
  auto count = [](const std::string& text, const std::string& words) {
    std::size_t found = 0;
    for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++found;
    return found;
  };
  CHECK(count(table, ",none declared") == 12);
  CHECK(count(table, ",yes") == 1);
  CHECK(count(table, ",may") == 1);
  CHECK(count(unknown, ",none declared") == 0);
  CHECK(count(unknown, ",not known") == 12);
}

TEST_CASE("facts for the terminal carry the standing lines", "[render]") {
  RenderedHouse house(house_text);
  std::string text = render::facts_text(house.facts_input());
  CHECK_THAT(text, Catch::Contains("Withy Cutter (drink, sour, coupe)"));
  CHECK_THAT(text, Catch::Contains("not worked out"));
  CHECK_THAT(text, Catch::Contains("Check each label and your local code."));
}

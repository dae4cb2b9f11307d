#include "editor/names.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "editor/calls.h"
#include "editor/rename.h"
#include "unit/editor/editor_fixture.h"

using namespace gill::editor;

namespace {

const std::string small_house =
    "glass Bench bowl like coupe\n  holds 200 ml\n\n"
    "family bench sour\n  strength 10..30 % abv\n\n"
    "ingredient bench apple\n  kind fruit\n  aka apples of the bench\n  each 150 g\n  origin plant\n  "
    "allergen none\n"
    "  source \"Bench\"\n\n"
    "prep Apple syrup\n  2 bench apples\n  300 g white sugar\n  200 ml water\n  blend 20 s\n  keeps 3 d "
    "chilled\n\n"
    "drink Bench Sour\n  family bench sour\n  glass Bench bowl\n  60 ml gin, or vodka\n  30 ml apple syrup\n"
    "  shake 12 s, then strain over ice\n  garnish apples of the bench\n\n"
    "drink Bench Two like Bench Sour\n  45 ml rye whiskey\n\n"
    "prices bench\n  bench apple  1 kg for 3 EUR\n\n"
    "menu Bench\n  runs 2026-01-01\n  section All\n    Bench Sour  at 9 EUR\n";

/// The places of the thing named at an offset, each as `line:words`.
std::vector<std::string> places(const EditedHouse& house, std::uint32_t offset) {
  std::vector<std::string> found;
  const auto* name = house.view.names().at(house.file.file_id, offset);
  if (!name) return found;
  for (const auto& place : house.view.names().of(name->declaration))
    found.push_back(std::to_string(house.view.text(house.file).line_of(place.span.begin) + 1) + ":" +
                    house.words_of(place.span));
  return found;
}

std::string renamed(const EditedHouse& house, std::uint32_t offset, std::string_view name) {
  auto edits = rename(house.view, house.file, offset, name);
  if (auto* refusal = std::get_if<Refusal>(&edits)) return "refused: " + refusal->why;
  return with_edits(house.view, std::get<std::vector<gill::diagnostics::Edit>>(edits)).files[0].text;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

}  // namespace

TEST_CASE("every place of a name is known, in the plural and by its other name", "[editor]") {
  EditedHouse house(small_house);
  using Places = std::vector<std::string>;
  CHECK(places(house, house.at("bench apple")) == Places{"7:bench apple", "9:apples of the bench",
                                                         "16:bench apple", "28:apples of the bench",
                                                         "34:bench apple"});
  CHECK(places(house, house.at("apple syrup")) == Places{"15:Apple syrup", "26:apple syrup"});
  CHECK(places(house, house.at("Bench bowl")) == Places{"1:Bench bowl", "24:Bench bowl"});
  CHECK(places(house, house.at("bench sour")) == Places{"4:bench sour", "23:bench sour"});
  CHECK(places(house, house.at("Bench Sour")) == Places{"22:Bench Sour", "30:Bench Sour", "39:Bench Sour"});
}

TEST_CASE("a place between names holds none", "[editor]") {
  EditedHouse house(small_house);
  CHECK(places(house, house.at("60 ml") + 1).empty());
  CHECK(places(house, house.at("section") + 1).empty());
  CHECK(places(house, static_cast<std::uint32_t>(house.text.size())).empty());
}

TEST_CASE("what a rename writes is what a careful hand would", "[editor]") {
  EditedHouse house(small_house);
  CHECK(renamed(house, house.at("bench apple"), "pippin") == replaced(small_house, "bench apple", "pippin"));
  CHECK(renamed(house, house.at("apples of the bench"), "pips") ==
        replaced(small_house, "apples of the bench", "pips"));
  CHECK(renamed(house, house.at("Bench Sour"), "Bench Three") ==
        replaced(small_house, "Bench Sour", "Bench Three"));
  CHECK(renamed(house, house.at("Bench bowl", 1), "bench cup") ==
        replaced(small_house, "Bench bowl", "bench cup"));
}

TEST_CASE("a rename that would mean something else is refused", "[editor]") {
  EditedHouse house(small_house);
  for (const char* name : {"Bench Two", "BENCH  TWO"})
    CHECK_THAT(renamed(house, house.at("Bench Sour"), name), Catch::StartsWith("refused"));
  CHECK_THAT(renamed(house, house.at("apple syrup"), "Gin"), Catch::StartsWith("refused: The library has"));
  CHECK_THAT(renamed(house, house.at("gin, or"), "geneva"), Catch::Contains("belongs to the library"));
  CHECK_THAT(renamed(house, house.at("60 ml"), "geneva"), Catch::StartsWith("refused: There is no name"));
  // An amount would be read where a name stood.
  CHECK_THAT(renamed(house, house.at("apple syrup"), "\"\""), Catch::StartsWith("refused"));
  // The same name, written otherwise, is no other thing.
  CHECK(renamed(house, house.at("apple syrup"), "apple Syrup") ==
        replaced(replaced(small_house, "Apple syrup", "apple Syrup"), "apple syrup", "apple Syrup"));
}

TEST_CASE("who needs what follows the lines, also those that like brought", "[editor]") {
  EditedHouse house(small_house);
  auto id = house.view.names().at(house.file.file_id, house.at("apple syrup"))->declaration;
  std::vector<std::string> users;
  for (const auto& need : needed_by(house.view, id)) {
    REQUIRE_FALSE(need.places.empty());
    users.push_back(house.view.house().names[need.declaration].name + " " + house.words_of(need.places[0]));
  }
  std::sort(users.begin(), users.end());
  CHECK(users == std::vector<std::string>{"Bench Sour apple syrup", "Bench Two Bench Two"});
}

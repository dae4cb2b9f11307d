#include "plan/bring_in.h"

#include <catch2/catch.hpp>

#include "plan/ingredient_line.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::WorkedHouse;

namespace {

const WorkedHouse& library() {
  static const WorkedHouse house("");
  return house;
}

std::vector<plan::RowProblem> errors_in(const std::string& text) {
  WorkedHouse house(text);
  std::vector<plan::RowProblem> errors;
  for (const auto& finding : house.compiled.sink.all())
    if (finding.severity == diagnostics::Severity::error)
      errors.push_back({house.compiled.sources[finding.span.file_id].place_of(finding.span).line, finding.message});
  return errors;
}

plan::BroughtIn bring(std::string_view bytes) { return plan::bring_in(bytes, "old.txt", library().house, errors_in); }

}  // namespace

// The shape is that of schema.org/Recipe (schema.org vocabulary, properties recipeIngredient, recipeInstructions with
// HowToStep, recipeYield); the recipe is made up.
TEST_CASE("recipes are found in a page of HTML", "[new]") {
  auto brought = bring("<!DOCTYPE html><html><script type=\"application/ld+json\">[{\"@type\":\"Recipe\",\"name\":\"X\",\"recipeIngredient\":[\"30 ml gin\"]}]</script></html>");
  CHECK(brought.drinks == 1);
  CHECK_THAT(brought.text, Catch::Contains("drink X"));
}

TEST_CASE("names that collide, or say too much, stay apart and sound", "[new]") {
  auto brought = bring("Twin\n30 ml vodka\nshake\n\nTwin\n40 ml vodka\nshake\n\nLike a \"thing\" at 9 #1\n30 ml vodka\nshake\n");
  INFO(brought.text);
  CHECK(errors_in(brought.text).empty());
  CHECK_THAT(brought.text, Catch::Contains("drink Twin\n") && Catch::Contains("drink Twin (2)\n"));
}

TEST_CASE("nothing that was written is lost, and the result always checks", "[new][property]") {
  const std::string pieces[] = {"2 oz", "rye", "lemon juice", "3/4", "ml", "shake", "stir", "garnish with", "\n", "\n\n", "moon", "½", "(", ")", ",", "#", "|", "\"", "drink", "at 5 EUR",
                                "like", "until", "to 1 l water", "é", "{", "\t", "1-2", "glass:", "coupe", "=", "swap", "menu", "allow raw-egg", "house"};
  for (unsigned seed = 1; seed <= 60; ++seed) {
    unsigned state = seed * 7919u;
    std::string bytes = "Start\n";
    for (int i = 0; i < 50; ++i) {
      state = state * 1664525u + 1013904223u;
      bytes += pieces[(state >> 16) % std::size(pieces)] + ((state >> 8) % 4 == 0 ? "\n" : " ");
    }
    auto brought = bring(bytes);
    INFO("seed " << seed << "\n" << bytes << "\n----\n" << brought.text);
    CHECK(errors_in(brought.text).empty());
    // Every word of letters is still there.
    for (const auto& word : {"moon", "swap", "menu", "until"})
      if (bytes.find(word) != std::string::npos) CHECK(brought.text.find(word) != std::string::npos);
  }
}

TEST_CASE("broken JSON is kept as a comment and told", "[new]") {
  auto brought = bring("{\"@type\": \"Recipe\", \"name\": ");
  CHECK(brought.drinks == 0);
  CHECK_THAT(brought.text, Catch::Contains("# {\"@type\": \"Recipe\", \"name\":"));
  REQUIRE(brought.findings.size() == 1);
  std::string deep(20000, '[');
  CHECK(bring(deep).findings.size() == 1);
  CHECK(bring("").drinks == 0);
  CHECK(bring("\xFF\xFE\x00").drinks <= 1);
}

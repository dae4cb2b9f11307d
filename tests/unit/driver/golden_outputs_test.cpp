// Whole outputs of one small house (tests/golden/a_small_house.gill): what `dump model`, `facts` and `check`
// print. They hold worked-out figures, which have tests of their own against outside sources: here it is the
// form that is meant, and a figure that moves without anybody having meant it to. GILL_UPDATE=1 in the
// environment rewrites them; the review of that diff is the test.
#include <catch2/catch.hpp>

#include "diagnostics/render.h"
#include "house_fixture.h"
#include "render/facts/explanation_text.h"
#include "render/facts/facts_json.h"
#include "support/golden.h"

using namespace gill;
using testing::compare_with_golden;

namespace {

const std::string folder = GILL_SOURCE_DIR "/tests/unit/driver/golden/";

const driver::Compilation& small_house() {
  static const auto house = test::compile(
      {{"a_small_house.gill", testing::read_file(GILL_SOURCE_DIR "/tests/golden/a_small_house.gill")}});
  return *house;
}

/// The house with one drink alone told, or all of it.
render::FactsInput facts_of(const driver::Compilation& house, const std::string& only = {}) {
  return {house.specs, house.facts, house.units, house.names, house.sources, only};
}

}  // namespace

TEST_CASE("the model of a small house is dumped as its golden file says", "[golden]") {
  const auto& house = small_house();
  auto text = model::dump(house.facts, house.specs, house.units);
  compare_with_golden(folder + "model.txt", text);
}

TEST_CASE("the findings of a small house read as their golden file says", "[golden]") {
  const auto& house = small_house();
  compare_with_golden(folder + "check.txt", diagnostics::render_text(house.findings, house.sources, false));
}

TEST_CASE("the facts of a small house's drink and prep read as their golden files say", "[golden]") {
  const auto& house = small_house();
  compare_with_golden(folder + "facts_drink.txt", render::facts_text(facts_of(house, "Wick and Wax")));
  compare_with_golden(folder + "facts_drink.json", render::facts_json(facts_of(house, "Wick and Wax")));
  compare_with_golden(folder + "facts_prep.json", render::facts_json(facts_of(house, "lamp syrup")));
  compare_with_golden(folder + "facts_drink.csv", render::facts_csv(facts_of(house, "Wick and Wax")));
}

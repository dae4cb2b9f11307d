// The tune command's answers: worked examples by hand, and their form.
#include "model/tune.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "batch/tune_output.h"
#include "unit/driver/house_fixture.h"

using namespace gill;
using model::TuneProperty;
using model::TuneTarget;
using test::compile;

namespace {

batch::TuneTask task(const driver::Compilation& house, const std::string& name, TuneProperty property,
                     double wanted) {
  batch::TuneTask result;
  result.request.drink = test::drink_id(house, name);
  result.request[property] = TuneTarget::value(wanted);
  result.wanted[static_cast<std::size_t>(property)] = wanted;
  return result;
}

model::Tuned tuned(const driver::Compilation& house, const batch::TuneTask& task) {
  return model::tune(house.specs, house.units, house.facts, task.request);
}

const std::string measures = "house H\n  measures 60 ml, 45 ml, 30 ml, 15 ml\n";

}  // namespace

TEST_CASE("thirty of vodka in thirty of water make twenty per cent") {
  auto house = compile(measures + "drink A\n  ice none\n  60 ml vodka\n  30 ml water\n  build\n");
  auto asked = task(*house, "A", TuneProperty::strength, 20);
  asked.request.vary = {test::stock(*house, "vodka").stock};
  auto result = tuned(*house, asked);
  // 60 ml at 40 % in 30 ml of water: 24 / 90, 26.7 %. For 20 %: 0.4 v / (v + 30) = 0.2, so v = 30. By OIML R
  // 22 the mix of 30 and 30 has 9.471 g of ethanol in 58.388 g, 0.97395 g/ml, 59.95 ml: 12 / 59.95 = 20.02 %.
  REQUIRE(result.amounts.size() == 1);
  CHECK(result.amounts[0].old_ml == 60);
  CHECK(result.amounts[0].new_ml == 30);
  CHECK(result.reached.abv_percent == Approx(20.02).margin(0.03));
  CHECK(result.unmet.empty());
  auto json = nlohmann::json::parse(batch::tune_json(asked, result, house->book_input()));
  CHECK(json["format"] == "gill-tune");
  CHECK(json["target"] == nlohmann::json{{"abv_percent", 20.0}});
  CHECK(json["amounts"][0]["name"] == "vodka");
  CHECK(json["measures_only"] == true);
  for (const char* figures : {"now", "reached"})
    for (const char* key : {"volume_ml", "mass_g", "abv_percent", "sugar_g_per_100ml", "acid_g_per_100ml",
                            "density_g_per_ml", "temperature_c", "sugar_acid_ratio"})
      CHECK(json[figures].contains(key));
}

TEST_CASE("what is there already stays as it is") {
  auto house = compile(measures + "drink A\n  ice none\n  30 ml vodka\n  30 ml water\n  build\n");
  auto asked = task(*house, "A", TuneProperty::strength, 20);
  auto result = tuned(*house, asked);
  CHECK(result.amounts.empty());
  CHECK(batch::tune_text(asked, result, house->book_input()).find("there already") != std::string::npos);
}

TEST_CASE("acid cannot come of vodka, and the answer says so") {
  auto house = compile(measures + "drink A\n  ice none\n  60 ml vodka\n  30 ml water\n  build\n");
  auto asked = task(*house, "A", TuneProperty::acid, 0.8);
  auto result = tuned(*house, asked);
  REQUIRE(result.unmet.size() == 1);
  CHECK(result.amounts.empty());
  auto text = batch::tune_text(asked, result, house->book_input());
  CHECK(text.find("not met") != std::string::npos);
  CHECK(text.find("No change among these measures brings the acid to 0.8") != std::string::npos);
  auto json = nlohmann::json::parse(batch::tune_json(asked, result, house->book_input()));
  CHECK(json["unmet"][0] == "acid_g_per_100ml");
}

TEST_CASE("a range is a target with two ends") {
  auto house = compile(measures + "drink A\n  ice none\n  60 ml vodka\n  30 ml water\n  build\n");
  auto asked = task(*house, "A", TuneProperty::strength, 0);
  asked.wanted = {};
  asked.request[TuneProperty::strength] = TuneTarget{19, 21};
  auto result = tuned(*house, asked);
  CHECK(result.unmet.empty());
  CHECK(result.reached.abv_percent >= 19);
  CHECK(result.reached.abv_percent <= 21);
  auto json = nlohmann::json::parse(batch::tune_json(asked, result, house->book_input()));
  CHECK(json["target"]["abv_percent"] == nlohmann::json::array({19.0, 21.0}));
}

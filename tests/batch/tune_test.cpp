// The tune command's answers: worked examples by hand, and their form.
#include "model/tune.h"

#include <fmt/format.h>
#include <algorithm>
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

namespace {

const std::string tuned_house = R"(house H
  currency EUR
  pour cost ..20 %
  strongest 32 g
  measures 60 ml, 50 ml, 45 ml, 40 ml, 30 ml, 25 ml, 20 ml, 15 ml, 10 ml, 5 ml

ingredient spirit like vodka
  buy 700 ml for 14 EUR
ingredient sugar water
  kind syrup
  sugar 50 brix
  buy 1 l for 3 EUR
ingredient lime
  kind fruit
  each 90 g
  gives 30 ml lime juice
  buy 1 for 0.30 EUR

glass bowl of a spoon
  holds 120 ml
  line 70..110 ml

)";

std::string sour(const std::string& glass, const std::string& spirit, const std::string& lime,
                 const std::string& sugar) {
  return tuned_house + "drink A\n  family sour\n  glass " + glass + "\n  " + spirit + " ml spirit\n  " +
         lime + " ml lime juice\n  " + sugar + " ml sugar water\n  shake 12 s\n  double strain\n\n" +
         "menu M\n  section All\n    A at 8.50 EUR\n";
}

const model::TuneLimit& limit_of(const model::TuneAnswer& answer, model::TuneLimit::Of of) {
  for (const auto& limit : answer.limits)
    if (limit.of == of) return limit;
  FAIL("nothing limits it so");
  return answer.limits.front();
}

std::string digits(double number) { return fmt::format("{:g}", number); }

}  // namespace

TEST_CASE("what tune offers is what the drink comes to once it is written") {
  auto house = compile(sour("coupe", "50", "25", "15"));
  auto asked = task(*house, "A", TuneProperty::sugar, 9);
  auto result = tuned(*house, asked);
  REQUIRE_FALSE(result.amounts.empty());
  std::array<double, 3> amounts = {50, 25, 15};
  for (const auto& change : result.amounts) amounts[change.amount_index] = change.new_ml;
  auto written = compile(sour("coupe", digits(amounts[0]), digits(amounts[1]), digits(amounts[2])));
  const auto& facts = written->facts[test::drink_id(*written, "A")];
  CHECK(result.reached.sugar_g_per_100ml == Approx(facts.served.sugar_g_per_100ml));
  CHECK(result.reached.abv_percent == Approx(facts.served.abv_percent));
  CHECK(limit_of(result, model::TuneLimit::Of::level).reached == Approx(facts.in_glass.level_ml));
  CHECK(limit_of(result, model::TuneLimit::Of::alcohol).reached == Approx(facts.ethanol_g));
  CHECK(limit_of(result, model::TuneLimit::Of::cost).reached == Approx(base::to_double(facts.cost->amount)));
}

TEST_CASE("a glass is never poured over its brim to reach a volume") {
  auto house = compile(sour("bowl of a spoon", "40", "20", "15"));
  auto asked = task(*house, "A", TuneProperty::volume, 160);
  asked.request.wants_other = true;
  auto result = tuned(*house, asked);
  CHECK(result.unmet == std::vector{TuneProperty::volume});
  CHECK(result.keeps_limits());
  CHECK(limit_of(result, model::TuneLimit::Of::level).reached <= 120);
  // Without the glass it could be had, and the other answer says what stands in the way.
  REQUIRE(result.other);
  CHECK(result.other->unmet.empty());
  CHECK_FALSE(limit_of(*result.other, model::TuneLimit::Of::level).is_kept());
  auto text = batch::tune_text(asked, result, house->book_input());
  CHECK(text.find("level in the bowl of a spoon") != std::string::npos);
  CHECK(text.find("not kept") != std::string::npos);
  CHECK(text.find("Another way") != std::string::npos);
}

TEST_CASE("the family's range of what is not asked for is kept") {
  auto house = compile(sour("coupe", "50", "25", "20"));
  auto asked = task(*house, "A", TuneProperty::strength, 21);
  auto result = tuned(*house, asked);
  for (const auto& limit : result.limits) {
    if (limit.of != model::TuneLimit::Of::family) continue;
    CAPTURE(model::name_of(limit.property), limit.reached);
    CHECK(limit.property != TuneProperty::strength);
    CHECK(limit.is_kept());
  }
}

TEST_CASE("a serve tuned stays within the house's pour cost and its line for a strong serve") {
  auto house = compile(sour("coupe", "45", "25", "15"));
  auto asked = task(*house, "A", TuneProperty::strength, 27);
  auto result = tuned(*house, asked);
  // 8.50 EUR at 20 %: 1.70.
  CHECK(limit_of(result, model::TuneLimit::Of::cost).range.high == Approx(1.70));
  CHECK(limit_of(result, model::TuneLimit::Of::cost).reached <= 1.70 + 1e-6);
  CHECK(limit_of(result, model::TuneLimit::Of::alcohol).range.high == 32);
  CHECK(limit_of(result, model::TuneLimit::Of::alcohol).reached <= 32 + 1e-6);
}

TEST_CASE("what is outside a limit already need only come no further out") {
  model::TuneLimit limit{model::TuneLimit::Of::level, {}, {70, 110}, 130, 125};
  CHECK(limit.is_kept());
  limit.reached = 131;
  CHECK_FALSE(limit.is_kept());
  limit.now = 100;
  limit.reached = 111;
  CHECK_FALSE(limit.is_kept());
  limit.reached = 69;
  CHECK_FALSE(limit.is_kept());
}

TEST_CASE("of two answers each changes something that the other leaves") {
  auto house = compile(sour("coupe", "50", "25", "15"));
  auto asked = task(*house, "A", TuneProperty::strength, 16);
  asked.request.wants_other = true;
  auto result = tuned(*house, asked);
  REQUIRE(result.unmet.empty());
  REQUIRE(result.other);
  CHECK(result.other->unmet.empty());
  CHECK(result.other->keeps_limits());
  auto changes = [](const model::TuneAnswer& answer, std::size_t index) {
    return std::any_of(answer.amounts.begin(), answer.amounts.end(),
                       [&](const auto& change) { return change.amount_index == index; });
  };
  auto has_own = [&](const model::TuneAnswer& a, const model::TuneAnswer& b) {
    return std::any_of(a.amounts.begin(), a.amounts.end(),
                       [&](const auto& change) { return !changes(b, change.amount_index); });
  };
  CHECK(has_own(result, *result.other));
  CHECK(has_own(*result.other, result));
  auto json = nlohmann::json::parse(batch::tune_json(asked, result, house->book_input()));
  CHECK(json["other"]["amounts"].size() == result.other->amounts.size());
  for (const char* key : {"of", "low", "high", "now", "reached", "kept"})
    CHECK(json["limits"][0].contains(key));
}

// What `gill tune` prints of an answer whose figures are given: its form alone, by hand.
#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

#include "batch/batch_output.h"
#include "batch/tune_output.h"
#include "unit/driver/house_fixture.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using Catch::Contains;
using model::TuneProperty;
using model::TuneTarget;
using testing::has_row;

namespace {

constexpr double open = std::numeric_limits<double>::infinity();

const driver::Compilation& tuned_bench() {
  static const auto house = test::compile(
      "house Bench\n  measures 60 ml, 45 ml, 30 ml, 15 ml\n"
      "drink A\n  ice none\n  60 ml vodka\n  30 ml water\n  2 dashes orange bitters\n  build\n"
      "drink Dashed\n  ice none\n  2 dashes orange bitters\n  build\n"
      "drink Été\n  ice none\n  60 ml vodka\n  build\n"
      "drink Bowl\n  serves 8\n  ice none\n  480 ml vodka\n  build\n");
  return *house;
}

costing::House tuned_desk() { return tuned_bench().book_input(); }

batch::TuneTask task_of(const std::string& drink) {
  batch::TuneTask task;
  task.request.drink = test::drink_id(tuned_bench(), drink);
  return task;
}

model::Figures figures(double abv, double sugar, double acid, double ml) {
  model::Figures one;
  one.abv_percent = abv;
  one.sugar_g_per_100ml = sugar;
  one.acid_g_per_100ml = acid;
  one.volume_ml = ml;
  return one;
}

model::Tuned answer() {
  model::Tuned tuned;
  tuned.now = figures(26.66, 8.04, 0.804, 90.4);
  tuned.reached = figures(20.04, 6, 0.6, 60);
  tuned.amounts = {{0, test::stock_id(tuned_bench(), "vodka"), 60, 37.5}};
  return tuned;
}

void want(batch::TuneTask& task, TuneProperty property, double value) {
  task.request[property] = TuneTarget::value(value);
  task.wanted[static_cast<std::size_t>(property)] = value;
}

}  // namespace

TEST_CASE("the page of a tuning sets each figure beside what was asked and what it comes to") {
  auto task = task_of("A");
  want(task, TuneProperty::strength, 20);
  task.request[TuneProperty::sugar] = TuneTarget{5, 6.5};
  task.request[TuneProperty::acid] = TuneTarget{0.5, open};
  task.request[TuneProperty::volume] = TuneTarget{-open, 80};
  auto text = batch::tune_text(task, answer(), tuned_desk());
  INFO(text);
  CHECK(testing::rows_of(text).front() == "A, as served");
  CHECK(has_row(text, "now asked comes to"));
  CHECK(has_row(text, "strength 26.7 % abv 20 % abv 20 % abv"));
  CHECK(has_row(text, "sugar 8 % w/v 5–6.5 % w/v 6 % w/v"));
  CHECK(has_row(text, "acid 0.8 % w/v at least 0.5 % w/v 0.6 % w/v"));
  CHECK(has_row(text, "balance 10 10"));
  CHECK(has_row(text, "volume 90 ml at most 80 ml 60 ml"));
  CHECK(has_row(text, "vodka 60 ml → 37.5 ml"));
  CHECK_THAT(base::collapse_space(text),
             Contains("1 amount changes; everything else is poured as it is written."));
  CHECK_THAT(base::collapse_space(text),
             !Contains("not met") && !Contains("No change") && !Contains("there already"));
}

TEST_CASE("two amounts change in the plural, and a bowl tells that its amounts are the bowl's") {
  auto task = task_of("Bowl");
  want(task, TuneProperty::strength, 20);
  auto tuned = answer();
  tuned.amounts.push_back(tuned.amounts.front());
  auto text = batch::tune_text(task, tuned, tuned_desk());
  CHECK_THAT(base::collapse_space(text), Contains("2 amounts change; everything"));
  CHECK_THAT(base::collapse_space(text), !Contains("What was varied"));
  CHECK(testing::rows_of(text).front() == "Bowl, as served (one of 8 serves; amounts are the bowl's)");
}

TEST_CASE("what is not met is told with the nearest, what was varied and what would help") {
  auto task = task_of("A");
  want(task, TuneProperty::acid, 0.9);
  auto tuned = answer();
  tuned.unmet = {TuneProperty::acid};
  auto text = batch::tune_text(task, tuned, tuned_desk());
  INFO(text);
  CHECK(has_row(text, "acid 0.8 % w/v 0.9 % w/v 0.6 % w/v not met"));
  CHECK_THAT(
      text,
      Contains("No change among these measures brings the acid to 0.9 % w/v: the nearest is 0.6 % w/v."));
  // Dashes are not jiggered.
  CHECK_THAT(base::collapse_space(text), Contains("What was varied: vodka and water, 3 at most"));
  CHECK_THAT(base::collapse_space(text), !Contains("No change comes nearer"));
  tuned.amounts.clear();
  CHECK_THAT(batch::tune_text(task, tuned, tuned_desk()),
             Contains("No change comes nearer than the drink as it is."));
  task.request.vary = {answer().amounts.front().stock};
  CHECK_THAT(base::collapse_space(batch::tune_text(task, tuned, tuned_desk())),
             Contains("What was varied: vodka, 3 at most"));
}

TEST_CASE("a drink of which nothing can be poured otherwise says so") {
  auto task = task_of("Dashed");
  want(task, TuneProperty::strength, 20);
  auto tuned = answer();
  tuned.amounts.clear();
  tuned.unmet = {TuneProperty::strength};
  CHECK_THAT(base::collapse_space(batch::tune_text(task, tuned, tuned_desk())),
             Contains("Nothing in the drink may be poured otherwise"));
  tuned.unmet.clear();
  CHECK_THAT(base::collapse_space(batch::tune_text(task, tuned, tuned_desk())),
             Contains("The drink is there already: nothing changes."));
}

TEST_CASE("JSON keeps the letters of a name as they are") {
  auto task = task_of("Été");
  CHECK_THAT(batch::tune_json(task, answer(), tuned_desk()), Contains("\"drink\": \"Été\""));
  batch::Batch made;
  made.name = "Été";
  CHECK_THAT(batch::batch_json(made, tuned_desk()), Contains("\"drink\": \"Été\""));
}

TEST_CASE("a balance without acid is none, and null in JSON") {
  auto task = task_of("A");
  task.request[TuneProperty::balance] = TuneTarget{8, open};
  want(task, TuneProperty::volume, 60);
  auto tuned = answer();
  tuned.now.acid_g_per_100ml = 0;
  CHECK(has_row(batch::tune_text(task, tuned, tuned_desk()), "balance none at least 8 10"));
  auto json = nlohmann::json::parse(batch::tune_json(task, tuned, tuned_desk()));
  CHECK(json["now"]["sugar_acid_ratio"].is_null());
  CHECK(json["reached"]["sugar_acid_ratio"] == Approx(10));
  CHECK(json["target"] ==
        nlohmann::json{{"sugar_acid_ratio", nlohmann::json::array({8, nullptr})}, {"volume_ml", 60}});
  CHECK(json["drink"] == "A");
  CHECK(json["amounts"] == nlohmann::json::array({{{"name", "vodka"}, {"old_ml", 60}, {"new_ml", 37.5}}}));
  CHECK(json["now"]["abv_percent"] == 26.66);
  CHECK(json["reached"]["volume_ml"] == 60);
  CHECK(json["unmet"].empty());
}

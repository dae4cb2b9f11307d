// What `gill batch` prints of a batch whose figures are given: its form alone, by hand.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "batch/batch.h"
#include "batch/batch_output.h"
#include "render/wording/allergen_words.h"
#include "unit/driver/house_fixture.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using batch::Batch;
using Catch::Contains;
using testing::has_row;

namespace {

const driver::Compilation& bench() {
  static const auto house = test::compile(
      "house Bench\n  freezer -18 C\ndrink A\n  50 ml vodka\n  stir 30 s\n  strain\n  garnish lemon twist\n");
  return *house;
}

costing::House desk() { return bench().book_input(); }

analysis::Use use_of(const std::string& name) { return {test::stock_id(bench(), name), {}, {}}; }

Batch twenty() {
  Batch made;
  made.name = "Long Reach";
  made.serves = 20;
  made.volume_ml = 1512;
  made.mass_g = 1450;
  made.abv_percent = 26.66;
  made.served_abv_percent = 20.04;
  made.sugar_g_per_100ml = 3.27;
  made.acid_g_per_100ml = 0.123;
  made.freezes_at_c = -12.34;
  made.keeps_days = 14;
  made.storage = analysis::Storage::chilled;
  made.ingredients = {{use_of("vodka"), "vodka", 1002.0, 950.0, {}},
                      {use_of("white sugar"), "white sugar", {}, 120.0, {}},
                      {use_of("lemon"), "lemon", {}, 600.0, 4.2}};
  return made;
}

std::string text_of(const Batch& made) { return batch::batch_text(made, desk()); }

}  // namespace

TEST_CASE(
    "the page of a batch tells what to take: poured things in millilitres, weighed in grams, pieces whole") {
  auto text = text_of(twenty());
  INFO(text);
  CHECK(testing::rows_of(text).front() == "Long Reach: 20 serves, 1510 ml");
  CHECK(has_row(text, "1000 ml vodka"));
  CHECK(has_row(text, "120 g white sugar"));
  CHECK(has_row(text, "5 lemon"));
  CHECK(has_row(text, "Pour 75.5 ml a serve."));
  CHECK(has_row(text, "26.7 % abv, 3.3 % w/v sugar, 0.12 % w/v acid; the drink as it is served, 20.0 % abv"));
  CHECK_THAT(base::collapse_space(text), !Contains("water, for the ice"));
  CHECK_THAT(base::collapse_space(text), !Contains("Not in the batch"));
  CHECK_THAT(base::collapse_space(text), !Contains("×"));
}

TEST_CASE("the page of a batch tells its water and what is added at service, and why") {
  auto made = twenty();
  made.water_ml = 612;
  made.left_out = {{{use_of("lemon"), "lemon twist", {}, 3.0, 1.0}, "it is garnish: put it on at service"}};
  auto text = text_of(made);
  INFO(text);
  CHECK(has_row(text, "612 ml water, for the ice that is not used"));
  CHECK(has_row(text, "Not in the batch, a serve:"));
  CHECK(has_row(text, "1 lemon twist it is garnish: put it on at service"));
}

TEST_CASE("a prep's batch counts pieces, and nothing is poured of it") {
  auto made = twenty();
  made.is_prep = true;
  made.served_abv_percent.reset();
  auto text = text_of(made);
  CHECK(testing::rows_of(text).front() == "Long Reach: 20 pieces, 1510 ml");
  CHECK_THAT(base::collapse_space(text), !Contains("a serve"));
  CHECK(has_row(text, "26.7 % abv, 3.3 % w/v sugar, 0.12 % w/v acid"));
  made.serves.reset();
  CHECK(testing::rows_of(text_of(made)).front() == "Long Reach: 1510 ml");
}

TEST_CASE("bottles are counted, and the last is told where it is not full") {
  auto made = twenty();
  made.bottles = {{700, 3, 700, 112, 0}};
  CHECK(has_row(text_of(made), "3 × 700 ml, the last with 112 ml"));
  made.bottles = {{500, 2, 500, 500, 0}};
  CHECK(has_row(text_of(made), "2 × 500 ml"));
  made.bottles = {{500, 2, 500, 500 * (1 - 1e-9), 0}};
  CHECK(has_row(text_of(made), "2 × 500 ml"));
  made.bottles = {{500, 2, 500, 480, 0}};
  CHECK(has_row(text_of(made), "2 × 500 ml, the last with 480 ml"));
  // A last one that would be nearly empty is shared out.
  made.bottles = {model::split_into_bottles(8117, 1000)};
  CHECK(has_row(text_of(made), "9 × 1000 ml, 902 ml in each"));
  made.bottles = {model::split_into_bottles(8017, 1000)};
  CHECK(has_row(text_of(made), "8 × 1000 ml, 17 ml left over"));
  made.bottles = {model::split_into_bottles(749, 750)};
  CHECK(has_row(text_of(made), "1 × 750 ml"));
  made.bottles = {model::split_into_bottles(1600, 5000)};
  CHECK(has_row(text_of(made), "1 × 5000 ml, 1600 ml in it"));
  made.bottles = {model::split_into_bottles(1600, 700)};
  CHECK(made.bottles[0].count == 3);
  CHECK(made.bottles[0].fill_ml == Approx(1600.0 / 3));
  made.bottles = {model::split_into_bottles(1800, 700)};
  CHECK(has_row(text_of(made), "3 × 700 ml, the last with 400 ml"));
}

TEST_CASE(
    "a batch within two degrees of the freezer is too near to tell, a weaker one freezes, a stronger stays") {
  auto made = twenty();
  for (double celsius : {-15.9, -10.0, 0.0}) {
    made.freezes_at_c = celsius;
    CHECK_THAT(base::collapse_space(text_of(made)),
               Contains("it turns to slush or ice, and a full bottle may burst"));
  }
  for (double celsius : {-16.1, -18.0, -19.9}) {
    made.freezes_at_c = celsius;
    CHECK_THAT(base::collapse_space(text_of(made)), Contains("too near to tell"));
  }
  for (double celsius : {-20.1, -40.0}) {
    made.freezes_at_c = celsius;
    CHECK_THAT(base::collapse_space(text_of(made)), Contains("It stays liquid in the freezer at −18 °C") ||
                                                        Contains("It stays liquid in the freezer at -18 °C"));
  }
  made.freezes_at_c = -17.9;
  CHECK(nlohmann::json::parse(batch::batch_json(made, desk()))["freezes_in_freezer"] == true);
  made.freezes_at_c = -18.1;
  CHECK(nlohmann::json::parse(batch::batch_json(made, desk()))["freezes_in_freezer"] == false);
}

TEST_CASE("how long a batch keeps is told in whole days, in hours below one, and never more than it does") {
  auto made = twenty();
  auto keeps = [&](std::optional<double> days) {
    made.keeps_days = days;
    return text_of(made);
  };
  CHECK_THAT(base::collapse_space(keeps(14)), Contains("Keep it chilled and closed, 14 days at the most."));
  CHECK_THAT(base::collapse_space(keeps(1)), Contains("closed, 1 day at the most."));
  CHECK_THAT(base::collapse_space(keeps(1.9)), Contains("closed, 1 day at the most."));
  CHECK_THAT(base::collapse_space(keeps(2)), Contains("closed, 2 days at the most."));
  CHECK_THAT(base::collapse_space(keeps(2.9)), Contains("closed, 2 days at the most."));
  CHECK_THAT(base::collapse_space(keeps(0.5)), Contains("closed, 12 h at the most."));
  CHECK_THAT(base::collapse_space(keeps({})), Contains("Keeping: not stated."));
  made.storage.reset();
  CHECK_THAT(base::collapse_space(keeps(3)),
             Contains("Keep it stored as its parts are and closed, 3 days at the most."));
  made.storage = analysis::Storage::frozen;
  CHECK_THAT(base::collapse_space(keeps(3)), Contains("Keep it frozen and closed"));
}

TEST_CASE("the page of a batch always tells what is declared of allergens, and that equipment is shared") {
  auto text = text_of(twenty());
  CHECK_THAT(base::collapse_space(text), Contains("Allergens declared in it: none declared."));
  CHECK_THAT(base::collapse_space(text), Contains(std::string(render::wording::shared_equipment_line)));
  auto house =
      test::compile("drink B\n  30 ml Irish cream liqueur\n  30 ml vodka\n  stir 30 s\n  strain\nhouse H\n");
  auto input = house->book_input();
  batch::BatchRequest request;
  request.serves = 4;
  auto made = std::get<Batch>(batch::make_batch(input, test::drink_id(*house, "B"), request));
  CHECK_THAT(base::collapse_space(batch::batch_text(made, input)),
             Contains("Allergens declared in it: milk"));
}

TEST_CASE("a batch as JSON has its figures unrounded and what it cannot know as null") {
  auto made = twenty();
  made.bottles = {{700, 3, 700, 112, 0}};
  made.left_out = {{{use_of("lemon"), "lemon twist", {}, 3.0, 1.0}, "it is garnish"}};
  made.water_ml = 612;
  auto json = nlohmann::json::parse(batch::batch_json(made, desk()));
  CHECK(json["volume_ml"] == 1512);
  CHECK(json["mass_g"] == 1450);
  CHECK(json["abv_percent"] == 26.66);
  CHECK(json["served_abv_percent"] == 20.04);
  CHECK(json["sugar_g_per_100ml"] == 3.27);
  CHECK(json["acid_g_per_100ml"] == 0.123);
  CHECK(json["water_ml"] == 612);
  CHECK(json["ml_a_serve"] == Approx(75.6));
  CHECK(json["is_prep"] == false);
  CHECK(json["bottles"] ==
        nlohmann::json::array(
            {{{"size_ml", 700}, {"count", 3}, {"fill_ml", 700}, {"last_ml", 112}, {"over_ml", 0}}}));
  CHECK(json["ingredients"][0] ==
        nlohmann::json{{"name", "vodka"}, {"volume_ml", 1002}, {"mass_g", 950}, {"count", nullptr}});
  CHECK(json["left_out"][0]["a_serve"] ==
        nlohmann::json{{"volume_ml", nullptr}, {"mass_g", 3}, {"count", 1}});
  CHECK(json["storage"] == "chilled");
  CHECK(json["goes"] == 1);
  CHECK(json["allergens_known"].is_boolean());
  made.serves.reset();
  made.keeps_days.reset();
  made.storage.reset();
  json = nlohmann::json::parse(batch::batch_json(made, desk()));
  for (const char* key : {"serves", "ml_a_serve", "keeps_days", "storage"}) CHECK(json[key].is_null());
}

TEST_CASE("from a litre a jug is read in fives, from ten in tens, and below as it is") {
  CHECK(batch::batch_measurable(999.9) == 999.9);
  CHECK(batch::batch_measurable(1000) == 1000);
  CHECK(batch::batch_measurable(1002.4) == 1000);
  CHECK(batch::batch_measurable(1002.6) == 1005);
  CHECK(batch::batch_measurable(9998) == 10000);
  CHECK(batch::batch_measurable(10004) == 10000);
  CHECK(batch::batch_measurable(10006) == 10010);
}

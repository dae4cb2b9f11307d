// One drink, one figure: whatever output is asked what a drink costs and earns, it says the same. The figures
// are worked by hand; the yen has no minor unit (ISO 4217).
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "costing/cost_report.h"
#include "house_fixture.h"
#include "render/book/book.h"
#include "render/facts/facts_json.h"

using namespace gill;
using base::Exact;
using Catch::Contains;

namespace {

// 60 ml of gin at 5 JPY a ml and 25 ml of juice at 2.40: 360 JPY.
// 1980 JPY with 10 % tax in it are 1800 without: 20.0 %. 1760 are 1600: 22.5 %.
// 360 / 0.22 = 1636.36; with tax 1800, which is a step of 50.
std::string house_in(const std::string& currency, const std::string& tax, const std::string& spring,
                     const std::string& summer) {
  return "house Lamp and Line\n  currency " + currency + "\n  tax 10 % " + tax +
         "\n  pour cost ..22 %\n  round prices to 50\n"
         "ingredient kelp gin like London dry gin\n  buy 700 ml for 3500 " +
         currency + "\ningredient sharp water like lemon juice\n  buy 1 l for 2400 " + currency +
         "\ndrink Bell Rope\n  glass coupe\n  60 ml kelp gin\n  25 ml sharp water\n  shake 12 s\n  strain\n"
         "  garnish none\n"
         "menu Summer\n  runs 2026-06-01 .. 2026-08-31\n  section Short\n    Bell Rope at " +
         summer +
         "\n"
         "menu Spring\n  runs 2026-03-01 .. 2026-05-31\n  section Short\n    Bell Rope at " +
         spring + "\n";
}

struct Outputs {
  explicit Outputs(const std::string& text) : house(test::compile(text)) {
    render::FactsInput facts{house->specs, house->facts, house->units, house->names, house->sources, {}};
    facts_text = render::facts_text(facts);
    facts_csv = render::facts_csv(facts);
    facts_json = nlohmann::json::parse(render::facts_json(facts));
    auto input = house->book_input();
    for (const auto& file : render::make_book(input, render::Form::markdown, false))
      if (file.path == "drinks/bell-rope.md") page = file.content;
    auto report = costing::cost_report(input, {}, {});
    cost_text = costing::cost_text(report, input);
    cost_json = nlohmann::json::parse(costing::cost_json(report, input));
    cost_csv = costing::cost_csv(report, input);
  }

  std::unique_ptr<driver::Compilation> house;
  std::string facts_text, facts_csv, page, cost_text, cost_csv;
  nlohmann::json facts_json, cost_json;
};

}  // namespace

TEST_CASE("the book, the facts and the cost report tell one cost and one pour cost of a drink", "[money]") {
  Outputs said(house_in("JPY", "included", "1760 JPY", "1980 JPY"));
  const auto& drink = test::drink(*said.house, "Bell Rope");
  REQUIRE(drink.cost);
  CHECK(drink.cost->amount == Exact(360));
  CHECK(drink.cost->currency == "JPY");
  CHECK(said.facts_json["drinks"][0]["cost"]["amount"] == 360);
  CHECK(said.cost_json["drinks"][0]["cost"] == 360);
  CHECK(said.cost_json["drinks"][0]["menu"] == "Summer");
  CHECK(said.cost_json["drinks"][0]["price"] == 1980);
  CHECK(said.cost_json["drinks"][0]["price_without_tax"] == 1800);
  CHECK(said.cost_json["drinks"][0]["pour_cost_percent"] == 20);
  CHECK(said.cost_json["drinks"][0]["price_for_target"] == 1800);
  CHECK_THAT(said.page, Contains("1980 JPY (pour cost 20.0 %, gross profit 80.0 %)"));
  CHECK_THAT(said.page, Contains("1760 JPY (pour cost 22.5 %, gross profit 77.5 %)"));
  CHECK_THAT(said.page, Contains("**Cost:** 360 JPY"));
  CHECK_THAT(said.facts_text, Contains("360 JPY"));
  CHECK_THAT(said.cost_text, Contains("20.0 %") && Contains("1980") && Contains("1800"));
  CHECK_THAT(said.cost_csv, Contains("Bell Rope,Summer,JPY,360,"));
  for (const auto* text : {&said.page, &said.facts_text, &said.cost_text})
    CHECK_THAT(*text, !Contains("360.00"));
}

TEST_CASE("a tax that comes on top is read alike in every output", "[money]") {
  Outputs said(house_in("JPY", "added", "1600 JPY", "1800 JPY"));
  CHECK(said.cost_json["drinks"][0]["price"] == 1800);
  CHECK(said.cost_json["drinks"][0]["price_with_tax"] == 1980);
  CHECK(said.cost_json["drinks"][0]["pour_cost_percent"] == 20);
  // 1636.36 without tax is what the menu shows: the next step of 50.
  CHECK(said.cost_json["drinks"][0]["price_for_target"] == 1650);
  CHECK_THAT(said.page, Contains("1800 JPY (pour cost 20.0 %") && Contains("1600 JPY (pour cost 22.5 %"));
}

TEST_CASE("of two rates for one currency the first counts, in every output", "[money]") {
  std::string text = house_in("JPY", "included", "1760 JPY", "11 EUR");
  text.insert(text.find("  round prices"), "  rate 1 EUR = 180 JPY\n  rate 1 EUR = 90 JPY\n");
  Outputs said(text);
  CHECK(said.cost_json["drinks"][0]["price"] == 1980);
  CHECK(said.cost_json["drinks"][0]["pour_cost_percent"] == 20);
  CHECK_THAT(said.page, Contains("11.00 EUR (pour cost 20.0 %"));
}

TEST_CASE("dinars have three decimals and pounds two", "[money]") {
  CHECK_THAT(Outputs(house_in("KWD", "included", "1760 KWD", "1980 KWD")).page, Contains("360.000 KWD"));
  CHECK_THAT(Outputs(house_in("GBP", "included", "1760 GBP", "1980 GBP")).page, Contains("360.00 GBP"));
}

// What `gill cost` prints, row by row, of a house whose every figure is worked out by hand (EUR):
//   gin      700 ml for 21.00             50 ml  1.5000
//   juice    0.36 a lemon, 45 ml each     25 ml  0.2000
//   syrup    1 kg sugar at 1.00 in 1.6 l  20 ml  0.0125
//   Sour     1.7125; 12.00 on the menu is 10.00 without 20 % tax: 17.125 %, 8.2875 stay;
//            for 22 %: 1.7125 / 0.22 = 7.784, 9.34 with tax, in halves 9.50
//   Long     gin 50 ml and syrup 32 ml: 1.5000 + 0.0200 = 1.5200; at 6.00, 5.00 without tax: 30.4 %, 3.48
//   stay;
//            for 22 %: 6.909, 8.29 with tax, in halves 8.50
// A week is 70 Sours (10 a day) and 14 Longs (2 a day): 119.875 + 21.28 = 141.155 of 700 + 70 = 770:
// 18.33 %, 628.845 stay, 7.4862 a portion of 84. Gin 105 + 21 = 126, lemon 14, sugar 0.875 + 0.28 = 1.155.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "costing/cost_report.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::EvaluatedHouse;
using gill::testing::has_row;
using gill::testing::rows_of;

namespace {

const std::string desk = R"(house The Weir
  currency EUR
  tax 20 % included
  pour cost ..22 %
  round prices to 0.50

ingredient weir gin like London dry gin
  buy 700 ml for 21 EUR

ingredient lemon
  kind fruit
  each 120 g
  gives 45 ml lemon juice
  buy 100 for 36 EUR

ingredient weir sugar like white sugar
  buy 1 kg for 1 EUR

ingredient far bitters like aromatic bitters
  buy 100 ml for 9 USD

ingredient unpriced amaro like London dry gin

prep weir syrup
  1 kg weir sugar
  1 kg water
  dissolve
  makes 1.6 l
  keeps 3 wk chilled

prep sugar cubes
  1 kg weir sugar
  makes 250 cubes
  keeps 90 d

drink Sour
  glass coupe
  50 ml weir gin
  25 ml lemon juice
  20 ml weir syrup
  shake 12 s
  double strain
  garnish none

drink Long
  glass highball
  ice cubed
  build
  50 ml weir gin
  32 ml weir syrup
  garnish none

drink Bitter End
  glass coupe
  50 ml unpriced amaro
  5 ml far bitters
  stir 30 s
  strain
  garnish none

drink Old Hat
  status retired
  glass coupe
  50 ml weir gin
  stir 30 s
  strain
  garnish none

menu Week
  section All
    Sour at 12 EUR, sells 10
    Long at 6 EUR, sells 2
    Bitter End at 9 EUR, sells 1
    Old Hat at 9 EUR, sells 9
)";

costing::CostReport report_of(const EvaluatedHouse& house, std::vector<std::string> rises = {},
                              analysis::MenuId menu = {}) {
  std::vector<costing::PriceRise> read;
  for (const auto& rise : rises)
    read.push_back(std::get<costing::PriceRise>(costing::read_price_rise(house.house, rise)));
  return costing::cost_report(house.house, menu, read);
}

}  // namespace

TEST_CASE("the page of costs tells each drink as worked out by hand", "[cost]") {
  EvaluatedHouse house(desk);
  auto text = costing::cost_text(report_of(house), house.house);
  INFO(text);
  CHECK(rows_of(text).front() == "The Weir: costs in EUR, a serve");
  CHECK(has_row(text, "drink cost ± price without tax pour cost margin for target dearest part"));
  CHECK(has_row(text, "Sour 1.71 0.00 12.00 10.00 17.1 % 8.29 9.50 weir gin 88 %"));
  CHECK(has_row(text, "Long 1.52 0.00 6.00 5.00 30.4 % over 3.48 8.50 weir gin 99 %"));
  CHECK(has_row(text, "Bitter End — — 9.00 7.50 — — —"));
  CHECK_THAT(text, !Catch::Contains("Old Hat"));
  CHECK(has_row(text, "weir syrup 1.00 0.63 a litre"));
  CHECK(has_row(text, "sugar cubes 1.00 0.004 each"));
}

TEST_CASE("the page of costs weighs a menu by what it sells in a week", "[cost]") {
  EvaluatedHouse house(desk);
  auto text = costing::cost_text(report_of(house), house.house);
  INFO(text);
  CHECK(has_row(text, "Week: a week of 84 portions as expected"));
  CHECK(has_row(text,
                "Costs 141.16 EUR of 770.00 EUR without tax: pour cost 18.3 %, margin 628.85 EUR, 7.49 EUR a "
                "portion."));
  CHECK(has_row(text, "what carries the cost a week share"));
  CHECK(has_row(text, "weir gin 126.00 89.3 %"));
  CHECK(has_row(text, "lemon juice 14.00 9.9 %"));
  CHECK(has_row(text, "weir sugar 1.16 0.8 %"));
  CHECK_THAT(text, Catch::Contains("Not counted, for want of a cost or a price: `Bitter End`."));
}

TEST_CASE("the page of costs tells what has no price and which rate is missing", "[cost]") {
  EvaluatedHouse house(desk);
  auto report = report_of(house);
  REQUIRE(report.notes.size() == 2);
  CHECK_THAT(report.notes[0], Catch::Contains("No rate from USD to EUR") && Catch::Contains("`far bitters`"));
  CHECK_THAT(report.notes[1], Catch::Contains("No price (or no weight) is known of `unpriced amaro`") &&
                                  !Catch::Contains("far bitters"));
}

TEST_CASE("the page of costs sets a rise beside what it was before", "[cost]") {
  // Gin a tenth dearer: 0.15 a drink, 12.60 a week of 84; 141.155 before, 153.755 now, 19.97 %.
  EvaluatedHouse house(desk);
  auto report = report_of(house, {"weir gin +10%"});
  auto text = costing::cost_text(report, house.house);
  INFO(text);
  CHECK(has_row(text, "If weir gin +10 %:"));
  CHECK(has_row(text, "drink cost ± before price without tax pour cost margin for target dearest part"));
  CHECK(has_row(text, "Sour 1.86 0.00 1.71 12.00 10.00 18.6 % 8.14 10.50 weir gin 89 %"));
  CHECK(has_row(text, "Before: 141.16 EUR, pour cost 18.3 %; the change is 12.60 EUR a week."));
  auto down = costing::cost_text(report_of(house, {"weir gin -10%"}), house.house);
  CHECK(has_row(down, "If weir gin −10 %:"));
  auto json = nlohmann::json::parse(costing::cost_json(report, house.house));
  CHECK(json["if"] == nlohmann::json::array({{{"name", "weir gin"}, {"change_percent", 10}}}));
  CHECK(json["menus"][0]["cost_before"] == Approx(141.155));
  CHECK(json["menus"][0]["pour_cost_percent_before"] == Approx(18.3318).margin(1e-4));
}

TEST_CASE("a rise of what no drink is made of is told, with what is declared like it", "[cost]") {
  EvaluatedHouse house(desk);
  CHECK(report_of(house, {"weir gin +10%"}).notes.size() == 2);
  CHECK(report_of(house, {"lemon +10%"}).notes.size() == 2);
  auto report = report_of(house, {"London dry gin +10%"});
  REQUIRE(report.notes.size() == 3);
  CHECK(report.notes[0] ==
        "No drink here is made of `London dry gin`, so its price moves nothing; `weir gin` and `unpriced "
        "amaro` are declared like it.");
  CHECK(report_of(house, {"white sugar +10%"}).notes[0] ==
        "No drink here is made of `white sugar`, so its price moves nothing; `weir sugar` is declared like "
        "it.");
  CHECK(report_of(house, {"caraway seed +10%"}).notes[0] ==
        "No drink here is made of `caraway seed`, so its price moves nothing.");
}

TEST_CASE("costs as a spreadsheet have a row a drink, money to a hundredth of a cent", "[cost]") {
  EvaluatedHouse house(desk);
  auto rows = rows_of(costing::cost_csv(report_of(house), house.house));
  REQUIRE(rows.size() == 4);
  CHECK(rows[0] ==
        "drink,menu,currency,cost,cost tolerance,price with tax,price without tax,pour cost "
        "%,margin,price for target,dearest part,dearest part %,cost before");
  CHECK(rows[1] == "Bitter End,Week,EUR,,,9,7.5,,,,,,");
  CHECK(rows[2] == "Long,Week,EUR,1.52,0,6,5,30.4,3.48,8.5,weir gin,98.7,");
  CHECK(rows[3] == "Sour,Week,EUR,1.7125,0,12,10,17.13,8.2875,9.5,weir gin,87.6,");
  auto dearer = rows_of(costing::cost_csv(report_of(house, {"weir gin +10%"}), house.house));
  CHECK(dearer[3] == "Sour,Week,EUR,1.8625,0,12,10,18.63,8.1375,10.5,weir gin,88.6,1.7125");
}

TEST_CASE("costs as JSON tell preps, menus and what is missing", "[cost]") {
  EvaluatedHouse house(desk);
  auto json = nlohmann::json::parse(costing::cost_json(report_of(house), house.house));
  CHECK(json["drinks"].size() == 3);
  const auto& bitter = json["drinks"][0];
  CHECK(bitter["name"] == "Bitter End");
  CHECK(bitter["cost"].is_null());
  CHECK(bitter["without_price"] == nlohmann::json::array({"far bitters", "unpriced amaro"}));
  CHECK(json["drinks"][2]["ingredients"][0]["share_percent"] == Approx(100 * 1.5 / 1.7125));
  CHECK_FALSE(json["drinks"][2].contains("cost_before"));
  CHECK_FALSE(json.contains("if"));
  CHECK(json["preps"][0]["name"] == "sugar cubes");
  CHECK(json["preps"][0]["cost_each"] == Approx(0.004));
  CHECK(json["preps"][0]["cost_per_kg"] == Approx(1));
  CHECK(json["preps"][1]["name"] == "weir syrup");
  CHECK(json["preps"][1]["cost"] == Approx(1));
  CHECK(json["preps"][1]["cost_per_l"] == Approx(0.625));
  CHECK(json["preps"][1]["cost_each"].is_null());
  const auto& menu = json["menus"][0];
  CHECK(menu["weighted_by_sales"] == true);
  CHECK(menu["portions_a_week"] == 84);
  CHECK(menu["cost"] == Approx(141.155));
  CHECK(menu["sales_without_tax"] == Approx(770));
  CHECK(menu["margin"] == Approx(628.845));
  CHECK(menu["margin_per_portion"] == Approx(628.845 / 84));
  CHECK(menu["left_out"] == nlohmann::json::array({"Bitter End"}));
}

TEST_CASE("costs as JSON keep the letters of a name as they are", "[cost]") {
  EvaluatedHouse house("drink Été\n  glass coupe\n  50 ml vodka\n  stir 30 s\n  strain\n");
  CHECK_THAT(costing::cost_json(report_of(house), house.house), Catch::Contains("\"name\": \"Été\""));
}

TEST_CASE("a menu that expects no sales counts each drink once, and one drink of a menu is asked by its menu",
          "[cost]") {
  std::string quiet = desk;
  for (const char* sales : {", sells 10", ", sells 2", ", sells 1", ", sells 9"})
    quiet.erase(quiet.find(sales), std::string_view(sales).size());
  EvaluatedHouse house(quiet);
  auto text = costing::cost_text(report_of(house), house.house);
  CHECK(has_row(text, "Week: no sales are expected on it, so each drink counts once"));
  CHECK(has_row(text,
                "Costs 3.23 EUR of 15.00 EUR without tax: pour cost 21.6 %, margin 11.77 EUR, 5.88 EUR a "
                "portion."));
  // In the menu's order.
  auto report = report_of(house, {}, house.menu("Week"));
  REQUIRE(report.drinks.size() == 3);
  CHECK(report.drinks[0].drink == house.drink("Sour"));
  CHECK(report.drinks[2].drink == house.drink("Bitter End"));
}

// The month's close, added up on paper: revenue, pour cost as it should be and as it was, staff and waste,
// preps.
#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "costing/words.h"
#include "model/house_bottle.h"
#include "render/terminal/page_text.h"
#include "stock/counts.h"
#include "stock/stock_report.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::EvaluatedHouse;

namespace {

constexpr std::string_view bar_of_a_month = R"(house Test
  currency EUR

ingredient test gin like London dry gin
  buy 700 ml for 20 EUR

ingredient lemon
  kind fruit
  each 120 g
  gives 45 ml lemon juice
  buy 100 for 36 EUR

ingredient test sugar like white sugar
  buy 1 kg for 1 EUR

prep test syrup
  1 kg test sugar
  1 kg water
  dissolve
  makes 1.6 l
  keeps 3 wk chilled
  bottle 500 ml

drink Sour
  glass coupe
  50 ml test gin
  22.5 ml lemon juice
  20 ml test syrup
  shake 12 s
  double strain

drink Unpriced
  glass coupe
  50 ml test gin
  stir 20 s
  strain

menu M
  section All
    Sour at 12 EUR
)";

const EvaluatedHouse& house() {
  static const EvaluatedHouse evaluated(bar_of_a_month);
  return evaluated;
}

stock::Counts counts_of(std::string_view csv) {
  auto read = stock::read_counts(csv, house().house);
  CHECK(read.problems.empty());
  return read;
}

/// 100 Sours. By hand: gin 5000 ml, at 20 EUR for 700 ml 142.86; half a lemon each, 50 at 0.36: 18.00; syrup
/// 2000 ml, 1.25 kg of sugar at 1 EUR: 1.25. Together 162.11; sold for 1200.
struct Month {
  stock::Counts opening = counts_of("name,amount,unit\ntest gin,10,bottles\ntest syrup,1,bottles\n");
  stock::Counts count = counts_of("name,amount,unit\ntest gin,2,bottles\ntest syrup,2,bottles\n");
  stock::Sales sales = stock::read_sales("drink,sold\nSour,100\n", house().house);
};

const stock::UsageLine& usage_of(const stock::StockReport& report, std::string_view name) {
  for (const auto& line : report.usage)
    if (line.stock == house().stock(name)) return line;
  FAIL("it is not used");
  return report.usage.front();
}

double number(const base::Exact& amount) { return base::to_double(amount); }

}  // namespace

TEST_CASE("a month is closed as it adds up on paper", "[stock]") {
  Month month;
  auto report = stock::stock_report(house().house, {&month.count, &month.opening, nullptr, &month.sales});
  REQUIRE(report.close);
  const auto& close = *report.close;
  CHECK(number(close.revenue) == Approx(1200));
  CHECK(number(close.should_cost) == Approx(142.857 + 18 + 1.25).epsilon(0.002));
  CHECK(number(*close.should_pour_cost_percent) == Approx(100 * 162.107 / 1200).epsilon(0.002));
  // 8 bottles of gin went, 160.00 where 142.86 should have: 17.14 are missing of what was counted twice.
  const auto& gin = usage_of(report, "test gin");
  CHECK(number(*gin.went_value) == Approx(160));
  CHECK(number(*gin.difference_value) == Approx(17.143).epsilon(0.002));
  CHECK(number(close.went_cost) == Approx(160).epsilon(0.002));
  CHECK(number(*close.actual_pour_cost_percent) == Approx(100 * (162.107 + 17.143) / 1200).epsilon(0.002));
  auto text = render::terminal::page_text(stock::stock_page(report, house().house),
                                          costing::desk_frame(house().house));
  CHECK(testing::has_row(text, "Revenue, without tax 1200.00 EUR"));
  CHECK(testing::has_row(text, "What was sold should have cost 162.11 EUR 13.5 %"));
  CHECK(testing::has_row(text, "What it did cost 179.25 EUR 14.9 %"));
}

TEST_CASE("what the staff drank and what was thrown away is not missing", "[stock]") {
  Month month;
  auto staff = stock::read_sales("drink,portions\nSour,4\n", house().house);
  auto waste = stock::read_waste("name,amount,unit\ntest gin,1,bottle\nSour,2,\n", house().house);
  CHECK(waste.problems.empty());
  CHECK(waste.drinks.portions.at(house().drink("Sour")) == 2);
  auto report = stock::stock_report(
      house().house, {&month.count, &month.opening, nullptr, &month.sales, nullptr, &waste, &staff});
  // 5600 ml went: 5000 sold, 200 to the staff, a bottle and two drinks thrown away. 400 ml more is accounted
  // for.
  const auto& gin = usage_of(report, "test gin");
  CHECK(*gin.staff.ml == Approx(200).epsilon(0.001));
  CHECK(*gin.waste.ml == Approx(700 + 100).epsilon(0.001));
  CHECK(*gin.difference_g / gin.went->grams == Approx((5600.0 - 5000 - 200 - 800) / 5600).epsilon(0.002));
  // 4 drinks of 1.62107, and 20.00 with two of them.
  CHECK(number(report.close->staff_cost) == Approx(4 * 1.62107).epsilon(0.002));
  CHECK(number(report.close->waste_cost) == Approx(20 + 2 * 1.62107).epsilon(0.002));
}

TEST_CASE("what is missing of a bottle has the width of two counts and the pours", "[stock]") {
  Month month;
  auto report = stock::stock_report(house().house, {&month.count, &month.opening, nullptr, &month.sales});
  // 5 % of a bottle of 700 ml, twice, and 2 % of 5000 ml: as squares, 111.6 ml. Common practice, no source.
  const auto& gin = usage_of(report, "test gin");
  double ml_per_g = *gin.should.ml / gin.should.grams;
  CHECK(*gin.difference_tolerance_g * ml_per_g ==
        Approx(std::hypot(0.05 * 700 * std::sqrt(2), 100)).epsilon(0.001));
}

TEST_CASE("a prep is what was there and was made, less what was used and is left", "[stock]") {
  Month month;
  auto ml_of = [](const stock::StockAmount& amount) { return *amount.ml; };
  auto reckoned = stock::stock_report(house().house, {&month.count, &month.opening, nullptr, &month.sales});
  REQUIRE(reckoned.close->preps.size() == 1);
  // 100 × 20 ml used, 1000 left, 500 before: 2500 were made, as far as that tells.
  const auto& line = reckoned.close->preps[0];
  CHECK(ml_of(line.used) == Approx(2000).epsilon(0.001));
  CHECK(ml_of(line.made) == Approx(2500).epsilon(0.001));
  CHECK_FALSE(line.is_made_stated);
  CHECK_FALSE(line.difference);
  auto made = counts_of("name,amount,unit\ntest syrup,3,l\n");
  auto stated = stock::stock_report(
      house().house, {&month.count, &month.opening, nullptr, &month.sales, &made, nullptr, nullptr});
  const auto& known = stated.close->preps[0];
  CHECK(known.is_made_stated);
  REQUIRE(known.difference);
  CHECK(known.difference->grams / known.used.grams == Approx(500.0 / 2000).epsilon(0.001));
  auto json = nlohmann::json::parse(stock::stock_json(stated, house().house));
  CHECK(json["close"]["preps"][0]["made_stated"] == true);
}

TEST_CASE("of a prep that nobody made what was there before can be missing", "[stock]") {
  Month month;
  month.opening = counts_of("name,amount,unit\ntest gin,10,bottles\ntest syrup,8,bottles\n");
  auto report = stock::stock_report(house().house, {&month.count, &month.opening, nullptr, &month.sales});
  // 4000 ml there, 2000 used, 1000 left: 1000 are missing.
  const auto& line = report.close->preps[0];
  CHECK(line.made.grams == Approx(0).margin(1e-6));
  REQUIRE(line.difference);
  CHECK(line.difference->grams / line.used.grams == Approx(0.5).epsilon(0.001));
}

TEST_CASE("what is gone of a prep of which nothing was sold is missing in its own measure", "[stock]") {
  Month month;
  month.opening = counts_of("name,amount,unit\ntest gin,10,bottles\ntest syrup,700,ml\n");
  month.count = counts_of("name,amount,unit\ntest gin,2,bottles\ntest syrup,300,ml\n");
  month.sales = stock::read_sales("drink,sold\nUnpriced,5\n", house().house);
  auto report = stock::stock_report(house().house, {&month.count, &month.opening, nullptr, &month.sales});
  const auto& line = report.close->preps[0];
  REQUIRE(line.difference);
  CHECK(*line.difference->ml == Approx(400).epsilon(0.001));
  auto text = render::terminal::page_text(stock::stock_page(report, house().house),
                                          costing::desk_frame(house().house));
  INFO(text);
  CHECK(text.find("400 ml") != std::string::npos);
  CHECK(text.find("0 ml") != std::string::npos);
  CHECK(text.find(" 0 g") == std::string::npos);
}

TEST_CASE("a house bottle is what was there and was made, less what was poured and is left", "[stock]") {
  EvaluatedHouse bar(R"(house H
  currency EUR
ingredient test gin like London dry gin
  buy 700 ml for 20 EUR
drink Slack
  glass rocks
  80 ml test gin
  20 ml dry vermouth
  stir 20 s
  strain
  batched test gin, dry vermouth, bottle 700 ml
)");
  auto counts = [&](const char* csv) {
    auto read = stock::read_counts(csv, bar.house);
    CHECK(read.problems.empty());
    return read;
  };
  auto before = counts("name,amount,unit\nSlack,3,bottles\n"),
       made = counts("name,amount,unit\nSlack,2,bottles\n"),
       left = counts("name,amount,unit\nSlack,1,bottles\n");
  auto sales = stock::read_sales("drink,sold\nSlack,30\n", bar.house);
  auto report = stock::stock_report(bar.house, {&left, &before, nullptr, &sales, &made, nullptr, nullptr});
  REQUIRE(report.close->preps.size() == 1);
  const auto& line = report.close->preps[0];
  CHECK(stock::name_of(line, bar.house) == "Slack, house bottle");
  // 2100 + 1400 ml were there, 700 are left: 2800 went. 30 pours of what one takes are the rest.
  const double poured_ml = *line.used.ml;
  CHECK(poured_ml / 30 == Approx(100).epsilon(0.03));
  REQUIRE(line.difference);
  CHECK(*line.difference->ml == Approx(2800 - poured_ml).margin(0.5));
  CHECK(line.is_made_stated);
}

TEST_CASE("what came in house bottles uses nothing of this bar's preps, what is left in them does",
          "[stock]") {
  EvaluatedHouse bar(std::string(bar_of_a_month) + R"(
drink Ferry
  glass rocks
  80 ml test gin
  20 ml test syrup
  stir 20 s
  strain
  batched test gin, test syrup, bottle 700 ml
)");
  auto counts = [&](const char* csv) {
    auto read = stock::read_counts(csv, bar.house);
    CHECK(read.problems.empty());
    return read;
  };
  auto before = counts("name,amount,unit\nFerry,1,bottles\ntest syrup,2,bottles\n"),
       came = counts("name,amount,unit\nFerry,2,bottles\n"),
       left = counts("name,amount,unit\nFerry,5,bottles\ntest syrup,1,bottles\n");
  auto sales = stock::read_sales("drink,sold\nFerry,14\n", bar.house);
  auto report = stock::stock_report(bar.house, {&left, &before, &came, &sales});
  auto syrup = std::find_if(report.close->preps.begin(), report.close->preps.end(),
                            [&](const auto& line) { return line.stock == bar.stock("test syrup"); });
  REQUIRE(syrup != report.close->preps.end());
  // One bottle was there, two came, five are left: two were filled here, beside fourteen that were poured. A
  // bottle holds what its drink does, by weight.
  const auto& drink = bar.facts[bar.drink("Ferry")];
  const auto bottle = model::house_bottle_of(bar.compiled.specs[bar.drink("Ferry")], drink, bar.facts);
  const double syrup_g = *drink.entries[bottle.entries.back()].mass_g;
  const double bottle_g = left.bottled_g.begin()->second / 5;
  CHECK(syrup->used.grams ==
        Approx(14 * syrup_g + 2 * bottle_g * syrup_g / bottle.masses.total()).epsilon(1e-6));
}

TEST_CASE("a drink without a price is told beside the revenue", "[stock]") {
  Month month;
  month.sales = stock::read_sales("drink,sold\nSour,10\nUnpriced,5\n", house().house);
  auto report = stock::stock_report(house().house, {&month.count, &month.opening, nullptr, &month.sales});
  CHECK(number(report.close->revenue) == Approx(120));
  CHECK(std::any_of(report.notes.begin(), report.notes.end(), [](const std::string& note) {
    return note == "On no menu with a price, so the revenue is told without them: `Unpriced`.";
  }));
}

TEST_CASE("the count before stands beside the count", "[stock]") {
  Month month;
  auto report = stock::stock_report(house().house, {&month.count, &month.opening, nullptr, &month.sales});
  for (const auto& line : report.lines) {
    if (line.stock != house().stock("test gin")) continue;
    REQUIRE(line.before);
    CHECK(*line.before->ml == Approx(7000));
    CHECK(*line.counted->ml == Approx(1400));
  }
}

TEST_CASE("each of a thing is one of it, however many a pack holds", "[stock]") {
  for (const char* unit : {"", "each", "pcs", "pieces", "lemons", "whole"}) {
    CAPTURE(unit);
    auto read = counts_of(std::string("name,amount,unit\nlemon,50,") + unit + "\n");
    CHECK(read.grams.at(house().stock("lemon")) == Approx(50 * 120));
  }
  CHECK(counts_of("name,amount,unit\nlemon,2,cases\n").grams.at(house().stock("lemon")) == Approx(200 * 120));
}

TEST_CASE("goods that nobody prices are named beside what was sold should have cost", "[stock]") {
  EvaluatedHouse evaluated(std::string(bar_of_a_month) +
                           "drink Foam\n  glass coupe\n  50 ml test gin\n  1 egg white\n  dry shake 10 s\n"
                           "  shake 12 s\n  strain\nmenu N\n  section All\n    Foam at 12 EUR\n");
  auto sales = stock::read_sales("drink,sold\nFoam,10\n", evaluated.house);
  auto report = stock::stock_report(evaluated.house, {nullptr, nullptr, nullptr, &sales});
  bool is_told = std::any_of(report.notes.begin(), report.notes.end(), [](const std::string& note) {
    return note.find("Nobody says what these cost") != std::string::npos &&
           note.find("`whole egg`") != std::string::npos;
  });
  CHECK(is_told);
}

TEST_CASE("a drink on two menus of the same days at two prices is told with the one that counts", "[stock]") {
  EvaluatedHouse evaluated(std::string(bar_of_a_month) + "menu Late\n  section All\n    Sour at 11 EUR\n");
  auto sales = stock::read_sales("drink,sold\nSour,10\n", evaluated.house);
  auto report = stock::stock_report(evaluated.house, {nullptr, nullptr, nullptr, &sales});
  std::string notes;
  for (const auto& note : report.notes) notes += note + "\n";
  CHECK_THAT(notes,
             Catch::Contains("two prices") && Catch::Contains("12.00 EUR") && Catch::Contains("11.00 EUR"));
}

TEST_CASE("where a till names the menu, the price of that menu counts", "[stock]") {
  EvaluatedHouse evaluated(std::string(bar_of_a_month) + "menu Late\n  section All\n    Sour at 11 EUR\n");
  auto close = [&](const std::string& csv) {
    auto sales = stock::read_sales(csv, evaluated.house);
    return stock::stock_report(evaluated.house, {nullptr, nullptr, nullptr, &sales});
  };
  // 10 at 12, 4 at 11; 2 of which nobody says it, at the first.
  auto report = close("drink,sold,menu\nSour,10,M\nSour,4,late\nSour,2,\n");
  REQUIRE(report.close);
  CHECK(report.close->revenue == 188);
  CHECK(close("drink,sold,menu\nSour,10,M\nSour,4,late\n").notes.size() + 1 == report.notes.size());
  auto wrong = stock::read_sales("drink,sold,menu\nSour,10,M\nSour,4,Noon\n", evaluated.house);
  REQUIRE(wrong.problems.size() == 1);
  CHECK_THAT(wrong.problems[0].message, Catch::Contains("No menu is called `Noon`"));
  // A till's own groups are no menus.
  CHECK(stock::read_sales("drink,sold,menu\nSour,10,Cocktails\n", evaluated.house).problems.empty());
}

TEST_CASE("more portions than any bar sells are a slip of the file, and a return is none", "[stock]") {
  auto sales = stock::read_sales("drink,sold\nSour,99999999999999999999\nSour,-3\nSour,10\n", house().house);
  REQUIRE(sales.problems.size() == 1);
  CHECK(sales.problems[0].line == 2);
  CHECK_THAT(sales.problems[0].message, Catch::Contains("`Sour`"));
  CHECK(sales.portions.begin()->second == 7);
}

TEST_CASE("a house bottle is counted with what is in it, and nothing of it is missing", "[stock]") {
  EvaluatedHouse bar(
      "house X\n  currency EUR\nprices p\n  from 2026-01-01\n  London dry gin 700 ml for 14 EUR\n"
      "  dry vermouth 750 ml for 7.50 EUR\n"
      "drink Cone\n  glass nick and nora\n  60 ml London dry gin\n  15 ml dry vermouth\n"
      "  batched London dry gin, dry vermouth, bottle 750 ml\n  stir 30 s\n  strain\n  garnish none\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section A\n    Cone at 10 EUR, sells 10\n");
  auto read = [&](const char* rows) {
    return stock::read_counts(std::string("name,amount,unit,made\n") + rows, bar.house);
  };
  // Twenty serves are bottled, none is sold: 1.2 l of gin and 0.3 l of vermouth, which measure a little less.
  auto opening = read("London dry gin,5,bottles,\ndry vermouth,2,bottles,\n");
  double pour_ml =
      model::house_bottle_of(bar.compiled.specs[bar.drink("Cone")], bar.facts[bar.drink("Cone")], bar.facts)
          .pour_ml;
  auto left =
      read(fmt::format("London dry gin,2300,ml,\ndry vermouth,1.2,l,\n\"Cone, house bottle\",{},ml,\n",
                       20 * pour_ml)
               .c_str());
  REQUIRE(left.problems.empty());
  stock::Sales none;
  stock::StockInput input;
  input.opening = &opening;
  input.count = &left;
  input.sales = &none;
  auto report = stock::stock_report(bar.house, input);
  for (const auto& line : report.usage) CHECK(std::abs(line.went->grams) < 0.01);
  auto bottled = std::find_if(report.lines.begin(), report.lines.end(),
                              [](const auto& line) { return line.drink.valid(); });
  REQUIRE(bottled != report.lines.end());
  CHECK(stock::name_of(*bottled, bar.house) == "Cone, house bottle");
  CHECK(bottled->pack == "750 ml");
  CHECK(bottled->counted->pieces == 0);
  // 1200/700 of 14 EUR and 300/750 of 7.50 EUR.
  CHECK(base::to_double(*bottled->value) == Approx(24 + 3).epsilon(1e-6));
  CHECK(read("Cone,2,\n").bottled_g.begin()->second ==
        Approx(read("Cone,1500,ml\n").bottled_g.begin()->second));
  CHECK(read("Cone,2,kg\n").problems.size() == 1);
  CHECK(read("Sour,2,\n").problems.size() == 1);
}

TEST_CASE("what a month did cost is what its lines add up to, counted twice or not", "[stock]") {
  Month month;
  auto staff = stock::read_sales("drink,portions\nSour,4\n", house().house);
  // Sugar stands in no count.
  auto waste = stock::read_waste("name,amount,unit\ntest gin,1,bottle\ntest sugar,3,kg\n", house().house);
  auto report = stock::stock_report(
      house().house, {&month.count, &month.opening, nullptr, &month.sales, nullptr, &waste, &staff});
  const auto& close = *report.close;
  CHECK(number(close.waste_cost) == Approx(20 + 3).epsilon(0.002));
  CHECK(close.actual_cost ==
        close.should_cost + close.staff_cost + close.waste_cost + report.difference_value);
  auto text = render::terminal::page_text(stock::stock_page(report, house().house),
                                          costing::desk_frame(house().house));
  CHECK(text.find("What it did cost") > text.find("Missing and not accounted for"));
}

TEST_CASE("a count sheet that was written as CSV is read back as what it was", "[stock]") {
  auto counts =
      counts_of("name,amount,unit\ntest gin,3.5,bottles\nlemon,40,\ntest sugar,2,kg\ntest syrup,750,ml\n");
  auto report = stock::stock_report(house().house, {&counts});
  auto again = counts_of(stock::stock_csv(report, house().house));
  CHECK(again.problems.empty());
  for (const auto& [stock, grams] : counts.grams) CHECK(again.grams.at(stock) == Approx(grams).epsilon(1e-4));
  CHECK(number(stock::stock_report(house().house, {&again}).value) ==
        Approx(number(report.value)).epsilon(1e-4));
}

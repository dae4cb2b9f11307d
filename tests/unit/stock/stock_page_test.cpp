// What `gill stock` prints, row by row, of a house whose every figure is worked out by hand (EUR). The spirit
// has a density of 1 g/ml, so that millilitres and grams are one number.
//   plain spirit  1000 ml for 20.00                     0.02 a gram
//   lime          120 g, 30 ml of juice; 10 for 3.00    0.30 each
//   root          1 kg for 8.00, a fifth is trimmed     0.008 a gram as bought
//   house cordial 1000 ml of plain spirit               20.00 a litre
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <regex>

#include "costing/words.h"
#include "render/html/page.h"
#include "render/terminal/page_text.h"
#include "stock/price_list.h"
#include "stock/stock_report.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::EvaluatedHouse;
using gill::testing::has_row;
using gill::testing::rows_of;

namespace {

constexpr std::string_view cellar = R"(house Cellar
  currency EUR

ingredient plain spirit
  kind mixer
  density 1 g/ml
  allergen none
  keeps 5 y ambient
  buy 1 l for 20 EUR

ingredient lime
  kind fruit
  each 120 g
  gives 30 ml lime juice
  allergen none
  keeps 3 wk chilled
  buy 10 for 3 EUR

ingredient root
  kind spice
  form solid
  waste 20 %
  allergen none
  buy 1 kg for 8 EUR

ingredient paper flower
  kind garnish
  allergen none

prep house cordial
  1 l plain spirit
  makes 1 l
  keeps 3 wk frozen
  bottle 250 ml

drink One
  glass coupe
  50 ml plain spirit
  30 ml lime juice
  10 g root
  stir 30 s
  strain
  garnish paper flower
)";

struct Books {
  EvaluatedHouse house{cellar};
  stock::Counts opening, received, count;
  stock::Sales sales;
  stock::StockReport report;

  Books() {
    opening = stock::read_counts("name,amount\nplain spirit,10 l\nlime,200\nroot,5 kg\n", house.house);
    received = stock::read_counts("name,amount\nplain spirit,2 l\n", house.house);
    count = stock::read_counts(
        "name,amount,place\nplain spirit,6.5 l,back bar\nlime,90,\nroot,3 kg,\nhouse cordial,250 ml,\npaper "
        "flower,12 pieces,\n",
        house.house);
    // 100 of One: 5 l of spirit, 100 limes, 1 kg of root trimmed out of 1.25 kg.
    sales = stock::read_sales("drink,sold\nOne,100\n", house.house);
    report = stock::stock_report(house.house, {&count, &opening, &received, &sales});
  }
};

const Books& books() {
  static const Books one;
  return one;
}

std::string page_of(const stock::StockReport& report, const EvaluatedHouse& house) {
  return render::terminal::page_text(stock::stock_page(report, house.house),
                                     costing::desk_frame(house.house));
}

}  // namespace

TEST_CASE("the page of stock tells where each thing stands, what it is counted by and what it is worth",
          "[stock]") {
  auto text = page_of(books().report, books().house);
  INFO(text);
  for (const auto* reading : {&books().opening, &books().received, &books().count})
    CHECK(reading->problems.empty());
  // 6.5 l at 20.00: 130.00. 90 limes: 27.00. 3 kg of root: 24.00. A bottle of 250 ml of cordial: 5.00.
  CHECK(has_row(text, "☐ plain spirit 1 l 6.5 l 10 l 130.00 EUR"));
  CHECK(has_row(text, "☐ lime each 90 200 27.00 EUR"));
  CHECK(has_row(text, "☐ root 1 kg 3 kg 5 kg 24.00 EUR"));
  CHECK(has_row(text, "together 24.00 EUR"));
  CHECK(has_row(text, "☐ house cordial 250 ml 250 ml — 5.00 EUR"));
  CHECK(has_row(text, "☐ paper flower 12 —"));
  CHECK_THAT(base::collapse_space(text), Catch::Contains("Worth 186.00 EUR, without tax"));
  CHECK_THAT(base::collapse_space(text),
             Catch::Contains("Not in the value, for want of a price or a weight: paper flower."));
  for (const char* place : {"back bar", "fridge", "freezer", "no place stated"}) CHECK(has_row(text, place));
}

TEST_CASE("the page of stock holds what went against what the sales should have used", "[stock]") {
  auto text = page_of(books().report, books().house);
  INFO(text);
  // The ±: 5 % of a litre, twice, and 2 % of 5 l, as squares: 122 ml; of what is no bottle 2 % alone.
  // Spirit: 12 l less 6.5 l less 250 ml in the cordial left: 5250 ml went, 250 more than 5000: 5.00.
  // Limes: 110 went, ten more than 100: 3.00. Root: 2 kg went, of 1.25: 750 g, 6.00.
  CHECK(has_row(text, "what sold went missing ± % worth"));
  CHECK(has_row(text, "plain spirit 5 l 5.25 l 250 ml 122 ml 5.0 5.00 EUR"));
  CHECK(has_row(text, "lime 100 110 10 2 10.0 3.00 EUR"));
  CHECK(has_row(text, "root 1.25 kg 2 kg 750 g 25 g 60.0 6.00 EUR"));
  // The dearest difference first.
  REQUIRE(books().report.usage.size() == 3);
  CHECK(books().report.usage[0].stock == books().house.stock("root"));
  CHECK(books().report.usage[1].stock == books().house.stock("plain spirit"));
  CHECK(books().report.usage[2].stock == books().house.stock("lime"));
  CHECK(books().report.difference_value == base::Exact(14));
}

TEST_CASE("each row of the page of stock is headed by the name of its thing", "[stock]") {
  const auto page = stock::stock_page(books().report, books().house.house);
  const auto html = render::html::to_html(page, costing::desk_frame(books().house.house));
  // Once where it is counted, once where its use is told.
  for (const char* name : {"plain spirit", "lime", "root"}) {
    const std::regex heading(std::string("<th scope=\"?row\"?[^>]*>") + name + "</th>");
    CHECK(std::distance(std::sregex_iterator(html.begin(), html.end(), heading), {}) == 2);
  }
}

TEST_CASE("stock as a spreadsheet has a row a count and a row a use", "[stock]") {
  auto rows = rows_of(stock::stock_csv(books().report, books().house.house));
  REQUIRE(rows.size() >= 9);
  CHECK(rows[0] ==
        "list,name,place,counted by,ml,g,count,value,should g,went g,difference g,difference %,difference "
        "value,currency");
  auto has = [&](const char* row) { return std::find(rows.begin(), rows.end(), row) != rows.end(); };
  CHECK(has("count,plain spirit,back bar,1 l,6500,6500,,130,,,,,,EUR"));
  CHECK(has("count,lime,fridge,each,,10800,90,27,,,,,,EUR"));
  CHECK(has("usage,plain spirit,,,,,,,5000,5250,250,5,5,EUR"));
  CHECK(has("usage,lime,,,,,,,12000,13200,1200,10,3,EUR"));
}

TEST_CASE("stock as JSON has its amounts in every measure that is known", "[stock]") {
  auto json = nlohmann::json::parse(stock::stock_json(books().report, books().house.house));
  CHECK(json["currency"] == "EUR");
  CHECK(json["value"] == Approx(186));
  CHECK(json["difference_value"] == Approx(14));
  auto named = [](const nlohmann::json& list, const char* name) {
    for (const auto& one : list)
      if (one["name"] == name) return one;
    return nlohmann::json();
  };
  auto spirit = named(json["lines"], "plain spirit"), lime = named(json["lines"], "lime"),
       flower = named(json["lines"], "paper flower");
  CHECK(spirit["place"] == "back bar");
  CHECK(spirit["counted_by"] == "1 l");
  CHECK(spirit["counted"]["ml"] == Approx(6500));
  CHECK(spirit["counted"]["count"].is_null());
  CHECK(lime["counted"]["count"] == Approx(90));
  CHECK(lime["counted"]["ml"].is_null());
  CHECK(flower["counted"]["count"] == 12);
  CHECK(flower["counted"]["g"].is_null());
  CHECK(flower["value"].is_null());
  auto used = named(json["usage"], "lime");
  CHECK(used["should"]["count"] == Approx(100));
  CHECK(used["went"]["count"] == Approx(110));
  CHECK(used["difference_g"] == Approx(1200));
}

TEST_CASE("stock as JSON keeps the letters of a name as they are", "[stock]") {
  EvaluatedHouse house("house H\n  currency EUR\ningredient crème\n  kind mixer\n  buy 1 l for 2 EUR\n");
  auto count = stock::read_counts("name,amount\ncrème,2 l\n", house.house);
  CHECK_THAT(
      stock::stock_json(stock::stock_report(house.house, {&count, nullptr, nullptr, nullptr}), house.house),
      Catch::Contains("\"name\": \"crème\""));
}

TEST_CASE("a drop that is left is told as it is, and what came back with a minus", "[stock]") {
  EvaluatedHouse house(cellar);
  auto opening = stock::read_counts("name,amount\nplain spirit,1 l\n", house.house);
  auto count = stock::read_counts("name,amount\nplain spirit,2 l\n", house.house);
  stock::Sales sales;
  sales.portions[house.drink("One")] = 0.01;
  auto text = page_of(stock::stock_report(house.house, {&count, &opening, nullptr, &sales}), house);
  INFO(text);
  // A hundredth of 50 ml should have gone; a litre more is there than was.
  CHECK_THAT(text, Catch::Contains(" 0.5 ml") && Catch::Contains("−1 l"));
}

TEST_CASE("a sheet to count on has a line for each thing and no worth", "[stock]") {
  EvaluatedHouse house(cellar);
  auto text = page_of(stock::stock_report(house.house, {}), house);
  INFO(text);
  CHECK(has_row(text, "☐ plain spirit 1 l ________"));
  CHECK_THAT(base::collapse_space(text),
             !Catch::Contains("Worth") && !Catch::Contains("together") && !Catch::Contains("should"));
  // Juice pressed on the day is counted as the fruit, and water from the tap not at all.
  CHECK_THAT(base::collapse_space(text), !Catch::Contains("lime juice"));
}

TEST_CASE("without an opening count what went is not told, and why is", "[stock]") {
  EvaluatedHouse house(cellar);
  auto count = stock::read_counts("name,amount\nplain spirit,6.5 l\n", house.house);
  auto sales = stock::read_sales("drink,sold\nOne,100\n", house.house);
  auto report = stock::stock_report(house.house, {&count, nullptr, nullptr, &sales});
  auto text = page_of(report, house);
  INFO(text);
  CHECK(has_row(text, "plain spirit 5 l — — — — —"));
  CHECK_THAT(base::collapse_space(text),
             Catch::Contains("What went is known only from an opening and a closing count"));
}

TEST_CASE("an amount is counted in the unit beside it, else in its column's, else as it is sold", "[stock]") {
  EvaluatedHouse house(cellar);
  double cordial_g_per_ml = house.facts[house.stock("house cordial")].yield_g / 1000;
  auto spirit = house.stock("plain spirit"), lime = house.stock("lime"),
       cordial = house.stock("house cordial");
  struct Row {
    const char* row;
    costing::StockId stock;
    double grams;
  };
  for (const Row& row :
       {Row{"plain spirit,2,l,", spirit, 2000}, Row{"plain spirit,2,,", spirit, 2000},
        Row{"plain spirit,2,Bottles,", spirit, 2000}, Row{"plain spirit,2,btls.,", spirit, 2000},
        Row{"plain spirit,2,ea,", spirit, 2000}, Row{"plain spirit,2,bottles,70cl", spirit, 1400},
        Row{"plain spirit,2,,70cl", spirit, 1400}, Row{"plain spirit,1.5 l,bottles,", spirit, 1500},
        Row{"plain spirit,\"1,5 l\",,", spirit, 1500}, Row{"plain spirit,0,,", spirit, 0},
        Row{"plain spirit,2,boxes,", spirit, 2000}, Row{"plain spirit,250,g,", spirit, 250},
        Row{"lime,5,,", lime, 600}, Row{"lime,600,g,", lime, 600},
        Row{"house cordial,3,,", cordial, 750 * cordial_g_per_ml},
        Row{"house cordial,3,bottles,", cordial, 750 * cordial_g_per_ml}}) {
    INFO(row.row);
    auto counts = stock::read_counts(std::string("name,amount,unit,size\n") + row.row + "\n", house.house);
    for (const auto& problem : counts.problems) UNSCOPED_INFO(problem.message);
    CHECK(counts.problems.empty());
    REQUIRE(counts.grams.contains(row.stock));
    CHECK(counts.grams.at(row.stock) == Approx(row.grams));
  }
}

TEST_CASE("an amount that cannot be turned into a weight is told, and an empty one is no zero", "[stock]") {
  EvaluatedHouse house(cellar);
  auto counts = stock::read_counts(
      "name,amount,unit\nroot,2,\nroot,2,l\npaper flower,1,case\nplain spirit,1,jeroboams\nlime,,\nhouse "
      "cordial,2,cases\n",
      house.house);
  CHECK_FALSE(counts.grams.contains(house.stock("lime")));
  for (const auto& problem : counts.problems) UNSCOPED_INFO(problem.line << ": " << problem.message);
  auto told = [&](std::size_t line) {
    std::string words;
    for (const auto& problem : counts.problems)
      if (problem.line == line) words += problem.message;
    return words;
  };
  CHECK(counts.grams.at(house.stock("root")) == Approx(2000));
  CHECK_THAT(told(3), Catch::Contains("2 l of `root` cannot be turned into a weight"));
  CHECK_THAT(told(4), Catch::Contains("How much a case of `paper flower` holds is not known"));
  CHECK_THAT(told(5), Catch::Contains("`jeroboams` is no unit that the house knows"));
  CHECK_THAT(told(7), Catch::Contains("How much a case of `house cordial` holds is not known"));
}

TEST_CASE(
    "a supplier's cell tells its currency by a sign or a code of its own, else by the column, else by the "
    "house",
    "[stock]") {
  EvaluatedHouse house(cellar);
  auto offer = [&](const std::string& header, const std::string& price, const std::string& money) {
    auto list =
        stock::read_price_list(header + "\nroot,1 kg," + price + "," + money + "\n", house.house, "EUR");
    return list.prices.empty() ? std::string() : list.prices[0].offer;
  };
  const std::string plain = "name,size,price,currency";
  CHECK(offer(plain, "8", "") == "1 kg for 8 EUR");
  CHECK(offer(plain, "8 GBP", "") == "1 kg for 8 GBP");
  CHECK(offer(plain, "£8", "") == "1 kg for 8 GBP");
  CHECK(offer(plain, "8", "USD") == "1 kg for 8 USD");
  CHECK(offer(plain, "8 GBP", "USD") == "1 kg for 8 GBP");
  CHECK(offer("name,size,price CHF,x", "8", "") == "1 kg for 8 CHF");
  CHECK(offer(plain, "-8", "").empty());
  CHECK(offer(plain, "0", "").empty());
  CHECK(stock::read_price_list("name,size,price\nroot,1 kg,8\n", house.house, "").prices.empty());
}

TEST_CASE("a supplier's size is read with its packs, wherever they stand", "[stock]") {
  EvaluatedHouse house(cellar);
  auto offer = [&](const std::string& size, const std::string& packs) {
    auto list = stock::read_price_list(
        "name,size,price,case qty\nplain spirit," + size + ",9," + packs + "\n", house.house, "EUR");
    return list.prices.empty() ? "nothing: " + list.problems.at(0).message : list.prices[0].offer;
  };
  CHECK(offer("70cl", "") == "70 cl for 9 EUR");
  CHECK(offer("6 x 70cl", "") == "6 x 70 cl for 9 EUR");
  CHECK(offer("6×700 ml", "") == "6 x 700 ml for 9 EUR");
  CHECK(offer("700 ml", "12") == "12 x 700 ml for 9 EUR");
  CHECK(offer("2 x 700 ml", "3") == "6 x 700 ml for 9 EUR");
  // So many of what is poured: how much does one hold?
  CHECK_THAT(offer("100", ""), Catch::Contains("how much one holds"));
  CHECK_THAT(offer("700 ml", "0"), Catch::Contains("`0` below `case qty` does not say how many packs"));
  CHECK_THAT(offer("75 C", ""), Catch::Contains("`75 C` is no size"));
  CHECK_THAT(offer("0 ml", ""), Catch::Contains("is no size"));
}

TEST_CASE("a price list is written in columns, with what could not be used told as comments", "[stock]") {
  EvaluatedHouse house(cellar);
  auto list = stock::read_price_list("name,size,price\nroot,1 kg,8\nplain spirit,1 l,19\nroof,1 kg,1\n",
                                     house.house, "EUR");
  auto text = stock::price_list_text(list, house.house, "autumn 2026", std::chrono::year(2026) / 9 / 14);
  CHECK_THAT(text, Catch::StartsWith("prices autumn 2026\n"
                                     "  from 2026-09-14\n"
                                     "  root          1 kg for 8 EUR\n"
                                     "  plain spirit  1 l for 19 EUR\n"
                                     "  # line 4: No ingredient is called `roof`; near it `root`"));
  CHECK(stock::price_list_text({}, house.house, "7th", std::chrono::year(2026) / 9 / 14) ==
        "prices \"7th\"\n  from 2026-09-14\n");
}

TEST_CASE("sales are read with returns taken off, and what is no drink or no number is told", "[stock]") {
  EvaluatedHouse house(cellar);
  auto sales = stock::read_sales("item,qty\nOne,12\none,-2\nTwo,3\nOne,lots\n,4\n", house.house);
  CHECK(sales.portions.at(house.drink("One")) == 10);
  CHECK(sales.portions.size() == 1);
  REQUIRE(sales.problems.size() == 3);
  CHECK_THAT(sales.problems[0].message, Catch::Contains("No drink is called `Two`"));
  CHECK_THAT(sales.problems[1].message, Catch::Contains("`lots` is no number of portions"));
  CHECK_THAT(sales.problems[2].message, Catch::Contains("names no drink"));
  CHECK_THAT(stock::read_sales("a,b\n1,2\n", house.house).problems.at(0).message,
             Catch::Contains("the titles are a and b"));
}

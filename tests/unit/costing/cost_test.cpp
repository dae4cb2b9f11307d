#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <nlohmann/json.hpp>

#include "costing/cost_report.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::base::Exact;
using gill::testing::EvaluatedHouse;

namespace {

// Worked by hand, in EUR:
//   gin      700 ml for 21.00             0.03 a ml      50 ml      1.5000
//   juice    0.36 a lemon, 45 ml each     0.008 a ml     25 ml      0.2000
//   syrup    1 kg sugar at 1.00 in 1.6 l  0.000625 a ml  20 ml      0.0125
//   twist    comes with the lemons that the juice pays for          0.0000
//                                                                   1.7125
//   12.00 with 20 % tax in it is 10.00 without; 1.7125 of it is 17.125 %, and 8.2875 stay.
//   1.7125 / 0.22 = 7.784 without tax, 9.34 with it; the house prices in halves: 9.50.
constexpr std::string_view house_of_one_sour = R"(house Test
  currency EUR
  tax 20 % included
  pour cost ..22 %
  round prices to 0.50

ingredient test gin like London dry gin
  buy 700 ml for 21 EUR

ingredient lemon
  kind fruit
  each 120 g
  each twist 3 g
  gives 45 ml lemon juice, 9 g lemon peel
  buy 100 for 36 EUR

ingredient test sugar like white sugar
  buy 1 kg for 1 EUR

prep test syrup
  1 kg test sugar
  1 kg water
  dissolve
  makes 1.6 l
  keeps 3 wk chilled

drink Sour
  glass coupe
  50 ml test gin
  25 ml lemon juice
  20 ml test syrup
  shake 12 s
  double strain
  garnish lemon twist

menu Only
  runs 2026-01-01 ..
  section All
    Sour at 12 EUR, sells 10, Sat 40
)";

costing::DrinkCost line_of(const costing::CostReport& report, costing::DrinkId drink) {
  for (const auto& line : report.drinks)
    if (line.drink == drink) return line;
  FAIL("the drink is not in the report");
  return {};
}

}  // namespace

TEST_CASE("a double is read as the decimal that prints it", "[cost]") {
  CHECK(model::decimal_of(0.1) == Exact(1, 10));
  CHECK(model::decimal_of(-22.5) == Exact(-45, 2));
  CHECK(model::decimal_of(0) == Exact(0));
  CHECK(model::decimal_of(42.654149999999994) == Exact(4265415, 100000));
  CHECK(model::decimal_of(1e21) == Exact::from_digits("1000000000000000000000"));
}

TEST_CASE("money rounds half up, away from nothing", "[cost]") {
  CHECK(model::rounded(Exact(5, 1000), 2) == Exact(1, 100));
  CHECK(model::rounded(Exact(-5, 1000), 2) == Exact(-1, 100));
  CHECK(model::rounded(Exact(4999, 1000000), 2) == Exact(0));
}

TEST_CASE("a sour costs what the hand calculation says", "[cost]") {
  EvaluatedHouse house(house_of_one_sour);
  auto report = costing::cost_report(house.house, {}, {});
  REQUIRE(report.currency == "EUR");
  auto sour = line_of(report, house.drink("Sour"));
  REQUIRE(sour.cost);
  CHECK(*sour.cost == Exact(17125, 10000));
  REQUIRE(sour.price);
  CHECK(sour.price->with_tax.amount == Exact(12));
  CHECK(sour.price->without_tax.amount == Exact(10));
  CHECK(*sour.pour_cost_percent == Exact(17125, 1000));
  CHECK(*sour.margin == Exact(82875, 10000));
  CHECK(*sour.price_for_target == Exact(19, 2));
  REQUIRE(sour.carriers.size() >= 3);
  CHECK(house.compiled.specs[sour.carriers[0].stock].head.name == "test gin");
  CHECK(sour.carriers[0].share == Approx(1.5 / 1.7125));
  CHECK(sour.without_price.empty());
}

TEST_CASE("the facts and the cost report say one thing", "[cost]") {
  EvaluatedHouse house(house_of_one_sour);
  auto drink = house.drink("Sour");
  REQUIRE(house.facts[drink].cost);
  CHECK(house.facts[drink].cost->amount == Exact(17125, 10000));
  CHECK(house.facts[drink].cost->currency == "EUR");
}

TEST_CASE("a menu is weighted by what it sells in a week", "[cost]") {
  EvaluatedHouse house(house_of_one_sour);
  auto report = costing::cost_report(house.house, {}, {});
  REQUIRE(report.menus.size() == 1);
  const auto& menu = report.menus[0];
  CHECK(menu.has_sales);
  CHECK(menu.portions == Exact(100));  // six days of 10 and a Saturday of 40
  CHECK(menu.cost == Exact(17125, 100));
  CHECK(menu.margin == Exact(82875, 100));
  CHECK(*menu.margin_per_portion == Exact(82875, 10000));
}

TEST_CASE("a menu that sells one drink a week has that drink's margin a portion", "[cost]") {
  auto margin = [](std::string_view sells) {
    std::string text(house_of_one_sour);
    const std::string all = "sells 10, Sat 40";
    text.replace(text.find(all), all.size(), sells);
    EvaluatedHouse house(text);
    return costing::cost_report(house.house, {}, {}).menus.at(0).margin_per_portion;
  };
  CHECK(margin("sells 0, Sat 1") == Exact(82875, 10000));
}

TEST_CASE("a price rise of one ingredient moves its share and nothing else", "[cost]") {
  EvaluatedHouse house(house_of_one_sour);
  auto rise = costing::read_price_rise(house.house, "test gin +15%");
  REQUIRE(std::holds_alternative<costing::PriceRise>(rise));
  auto report = costing::cost_report(house.house, {}, {std::get<costing::PriceRise>(rise)});
  auto sour = line_of(report, house.drink("Sour"));
  CHECK(*sour.cost == Exact(17125, 10000) + Exact(225, 1000));
  CHECK(*sour.cost_before == Exact(17125, 10000));
  CHECK(report.menus[0].cost - report.menus[0].cost_before == Exact(225, 10));
}

TEST_CASE("a fruit's rise reaches its juice", "[cost]") {
  EvaluatedHouse house(house_of_one_sour);
  auto rise = std::get<costing::PriceRise>(costing::read_price_rise(house.house, "lemon +100 %"));
  auto report = costing::cost_report(house.house, {}, {rise});
  CHECK(*line_of(report, house.drink("Sour")).cost == Exact(17125, 10000) + Exact(2000, 10000));
}

TEST_CASE("what is no price rise is refused with a sentence", "[cost]") {
  EvaluatedHouse house(house_of_one_sour);
  for (const char* text : {"test gin", "test gin 15", "+15%", "nothing known +15%", "test syrup +10%",
                           "test gin -120%", "", "%", "+%"}) {
    INFO(text);
    auto rise = costing::read_price_rise(house.house, text);
    REQUIRE(std::holds_alternative<std::string>(rise));
    CHECK(std::get<std::string>(rise).ends_with("."));
  }
  CHECK(std::get<costing::PriceRise>(costing::read_price_rise(house.house, "test gin -5 %")).factor ==
        Exact(95, 100));
  CHECK(std::get<costing::PriceRise>(costing::read_price_rise(house.house, "test gin −5%")).factor ==
        Exact(95, 100));
}

TEST_CASE("the price for the target is no step too high when the target is met exactly", "[cost]") {
  // 70 ml of 700 ml at 22.00 is 2.20; 2.20 / 0.22 = 10.00, 12.00 with tax. Binary rounding would make
  // it 12.50.
  EvaluatedHouse house(R"(house Test
  currency EUR
  tax 20 % included
  pour cost ..22 %
  round prices to 0.50
ingredient dear gin like London dry gin
  buy 700 ml for 22 EUR
drink Neat
  glass rocks
  70 ml dear gin
  stir 20 s
  strain
)");
  auto neat = line_of(costing::cost_report(house.house, {}, {}), house.drink("Neat"));
  REQUIRE(neat.cost);
  CHECK(*neat.cost == Exact(22, 10));
  CHECK(*neat.price_for_target == Exact(12));
}

// Worked by hand: a lemon is 0.36; of its 120 g a twist of 3 g is 0.009; of its 9 g of peel 18 g are two
// lemons, 0.72.
TEST_CASE("one fruit is paid for once in a recipe, by what takes most of it", "[cost]") {
  std::string text(house_of_one_sour);
  text += R"(
prep zest syrup
  1 kg test sugar
  18 g lemon peel
  45 ml lemon juice
  1 kg water
  dissolve
  strain
  makes 1.6 l
  keeps 7 d chilled
drink Twist only
  50 ml test gin
  stir 30 s
  strain
  garnish lemon twist
drink Zesty
  16 ml zest syrup
  45 ml lemon juice
  shake 12 s
  strain
)";
  EvaluatedHouse house(text);
  costing::Costing costing(house.house);
  // 1.50 of gin, and a third of the peel of a lemon of 0.36.
  CHECK(*costing.cost(house.drink("Twist only")) == Exact(162, 100));
  // Two lemons give the 18 g of peel, and more juice than goes in: 1.00 of sugar and 0.72 for 1.6 l.
  CHECK(model::rounded(*costing.cost_of_a_gram(house.stock("zest syrup")) *
                           model::decimal_of(house.facts[house.stock("zest syrup")].yield_g),
                       9) == Exact(172, 100));
  // Lemons pressed at the bar are others than those in a prep: 0.0172 and 0.36.
  CHECK(base::to_double(*costing.cost(house.drink("Zesty"))) == Approx(0.3772));
  CHECK(base::to_double(house.facts[house.drink("Zesty")].cost->amount) == Approx(0.3772));
}

TEST_CASE("a garnish that nobody weighs leaves the cost known, and is told", "[cost]") {
  EvaluatedHouse house(std::string(house_of_one_sour) + R"(
ingredient paper flower
  kind garnish
  allergen none
ingredient pansy
  kind garnish
  allergen none
  buy 50 for 9 EUR
drink Flowery like Sour
  garnish paper flower
drink Pansied like Sour
  garnish 2 pansy
)");
  auto report = costing::cost_report(house.house, {}, {});
  auto flowery = line_of(report, house.drink("Flowery")), pansied = line_of(report, house.drink("Pansied"));
  REQUIRE(flowery.cost);
  CHECK(*flowery.cost == Exact(17125, 10000));
  REQUIRE(flowery.without_weight.size() == 1);
  CHECK(flowery.without_weight[0] == house.stock("paper flower"));
  CHECK(std::any_of(report.notes.begin(), report.notes.end(), [](const std::string& note) {
    return note.find("`paper flower`") != std::string::npos;
  }));
  // Sold by the piece: 9.00 for 50 is 0.18 each.
  REQUIRE(pansied.cost);
  CHECK(*pansied.cost == Exact(17125, 10000) + Exact(36, 100));
  CHECK(pansied.without_weight.empty());
  CHECK(base::to_double(house.facts[house.drink("Pansied")].cost->amount) == Approx(2.0725));
}

TEST_CASE("tax that is added stays off the menu's price", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency USD
  tax 8 % added
  pour cost ..20 %
ingredient dear gin like London dry gin
  buy 750 ml for 30 USD
drink Neat
  glass rocks
  60 ml dear gin
  stir 20 s
  strain
menu Only
  section All
    Neat at 12 USD
)");
  auto neat = line_of(costing::cost_report(house.house, {}, {}), house.drink("Neat"));
  CHECK(*neat.cost == Exact(24, 10));
  CHECK(neat.price->without_tax.amount == Exact(12));
  CHECK(neat.price->with_tax.amount == Exact(1296, 100));
  CHECK(*neat.pour_cost_percent == Exact(20));
  CHECK(*neat.price_for_target == Exact(12));
}

TEST_CASE("currencies mix only by a stated rate", "[cost]") {
  std::string text = R"(house Test
  currency EUR
RATE
ingredient far gin like London dry gin
  buy 1 l for 20 USD
drink Neat
  glass rocks
  50 ml far gin
  stir 20 s
  strain
)";
  auto with = text, without = text;
  with.replace(with.find("RATE"), 4, "  rate 1 USD = 0.92 EUR");
  without.replace(without.find("RATE\n"), 5, "");
  {
    EvaluatedHouse house(with);
    // 50 ml of 20 USD a litre is 1.00 USD: 0.92 EUR.
    CHECK(*line_of(costing::cost_report(house.house, {}, {}), house.drink("Neat")).cost == Exact(92, 100));
  }
  {
    EvaluatedHouse house(without);
    auto report = costing::cost_report(house.house, {}, {});
    CHECK_FALSE(line_of(report, house.drink("Neat")).cost);
    REQUIRE(report.notes.size() == 1);
    CHECK_THAT(report.notes[0], Catch::Contains("No rate from USD to EUR") && Catch::Contains("far gin"));
  }
}

TEST_CASE("the price is that of the menu asked for, else of the one that runs last", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient dear gin like London dry gin
  buy 1 l for 30 EUR
drink Neat
  glass rocks
  50 ml dear gin
  stir 20 s
  strain
menu Early
  runs 2026-01-01 .. 2026-03-01
  section All
    Neat at 9 EUR
menu Late
  runs 2026-03-02 .. 2026-06-01
  section All
    Neat at 10 EUR
)");
  CHECK(line_of(costing::cost_report(house.house, {}, {}), house.drink("Neat")).price->with_tax.amount ==
        Exact(10));
  CHECK(line_of(costing::cost_report(house.house, house.menu("Early"), {}), house.drink("Neat"))
            .price->with_tax.amount == Exact(9));
}

TEST_CASE("waste makes what is left dearer", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient trimmed root
  kind spice
  form solid
  waste 20 %
  buy 1 kg for 8 EUR
drink Root
  glass rocks
  50 g trimmed root
  60 ml vodka
  stir 20 s
  strain
ingredient vodka
  kind spirit
  strength 40 % abv
  buy 1 l for 10 EUR
)");
  // 50 g of a kilogram at 8.00 of which 800 g are left: 0.50; 60 ml at 10.00 a litre: 0.60.
  CHECK(*line_of(costing::cost_report(house.house, {}, {}), house.drink("Root")).cost == Exact(11, 10));
}

TEST_CASE("cost is linear in price", "[cost][property]") {
  EvaluatedHouse house(house_of_one_sour);
  costing::Costing plain(house.house);
  auto before = *plain.cost(house.drink("Sour"));
  for (int percent = 1; percent < 400; percent += 37) {
    costing::Costing dearer(house.house);
    for (const char* name : {"test gin", "lemon", "test sugar"})
      dearer.raise(house.stock(name), Exact(percent, 100));
    INFO(percent);
    CHECK(*dearer.cost(house.drink("Sour")) == model::settled(before * Exact(percent, 100)));
  }
}

TEST_CASE("each price is told with the list that it comes from, since when and how old it is", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient old gin like London dry gin
  buy 1 l for 20 EUR
ingredient new gin like London dry gin
  buy 1 l for 20 EUR
ingredient shelf gin like London dry gin
  buy 1 l for 22 EUR
prices January 2026
  old gin 1 l for 21 EUR
  new gin 1 l for 21 EUR
prices April 2026
  from 2026-04-06
  new gin 1 l for 23 EUR
drink Three
  glass rocks
  20 ml old gin
  20 ml new gin
  20 ml shelf gin
  stir 20 s
  strain
)");
  // Days by the calendar: 31 + 28 + 31 + 30 + 1 from 1 January to 2 May, 26 from 6 April.
  auto report = costing::cost_report(house.house, {}, {}, std::chrono::year(2026) / 5 / 2);
  REQUIRE(report.price_sources.size() == 3);
  auto is = [&](std::size_t i, const char* list, const char* from, std::optional<int> age,
                const char* stock) {
    const auto& source = report.price_sources[i];
    CHECK((source.list ? source.list->head.name : std::string()) == list);
    CHECK(source.from == from);
    CHECK(source.age_days == age);
    CHECK(source.stock == std::vector<analysis::StockId>{house.stock(stock)});
  };
  is(0, "April 2026", "2026-04-06", 26, "new gin");
  is(1, "January 2026", "2026-01", 121, "old gin");
  is(2, "", "", std::nullopt, "shelf gin");
  // On a day of February April's list says nothing yet, and of what nobody listed before it says all there
  // is.
  auto cost_on = [&](const std::string& day) {
    return base::to_double(
        *line_of(costing::cost_report(house.house, {}, {}, std::nullopt, day), house.drink("Three")).cost);
  };
  CHECK(base::to_double(*line_of(report, house.drink("Three")).cost) - cost_on("2026-02-10") ==
        Approx(0.02 * (23 - 21)));
  CHECK(cost_on("2026-04-06") == Approx(base::to_double(*line_of(report, house.drink("Three")).cost)));
  CHECK(cost_on("2025-01-01") == Approx(cost_on("2026-02-10")));
  auto text = costing::cost_text(report, house.house);
  CHECK(text.find("Prices of `April 2026` (since 2026-04-06, 26 days): new gin.") != std::string::npos);
}

TEST_CASE("cost as JSON has the fixed keys", "[cost]") {
  EvaluatedHouse house(house_of_one_sour);
  auto json =
      nlohmann::json::parse(costing::cost_json(costing::cost_report(house.house, {}, {}), house.house));
  CHECK(json["format"] == "gill-cost");
  CHECK(json["version"] == 1);
  const auto& drink = json["drinks"][0];
  CHECK(drink["name"] == "Sour");
  CHECK(drink["cost"] == 1.7125);
  CHECK(drink["price"] == 12);
  CHECK(drink["price_without_tax"] == 10);
  CHECK(drink["pour_cost_percent"] == 17.125);
  CHECK(drink["margin"] == 8.2875);
  CHECK(drink["price_for_target"] == 9.5);
}

TEST_CASE("a loose measure widens the cost", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient dear bitters like aromatic bitters
  buy 100 ml for 10 EUR
ingredient dear gin like London dry gin
  buy 1 l for 30 EUR
drink Dashed
  glass rocks
  50 ml dear gin
  10 ml ± 10 % dear bitters
  stir 20 s
  strain
)");
  // 10 ml of bitters cost 1.00; a tenth of it is 0.10.
  CHECK(line_of(costing::cost_report(house.house, {}, {}), house.drink("Dashed")).tolerance == Approx(0.10));
}

TEST_CASE("preps that go into each other have no cost, nor has what they go into", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient test gin like London dry gin
  buy 700 ml for 21 EUR
prep first
  100 ml test gin
  100 ml second
  makes 200 ml
prep second
  100 ml first
  makes 100 ml
drink A
  50 ml test gin
  50 ml first
  stir 20 s
  strain
)");
  costing::Costing costing(house.house);
  CHECK_FALSE(costing.cost_of_a_gram(house.stock("first")));
  CHECK_FALSE(costing.cost_of_a_gram(house.stock("second")));
  CHECK_FALSE(costing.cost(costing.parts(house.drink("A"))));
}

TEST_CASE("a fruit that gives less than a gram costs as much a gram as any other", "[cost]") {
  // A berry at 0.10 gives half a millilitre of juice or 0.4 g of peel. Ten of them are pressed for 5
  // ml: 1.00. The two that give 0.8 g of peel are among them.
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient test gin like London dry gin
  buy 1 l for 20 EUR
ingredient lemon
  kind fruit
  each 2 g
  gives 0.5 ml lemon juice, 0.4 g lemon peel
  buy 100 for 10 EUR
drink Peel
  50 ml test gin
  0.8 g lemon peel
  stir 30 s
  strain
drink Both
  50 ml test gin
  5 ml lemon juice
  0.8 g lemon peel
  shake 12 s
  strain
)");
  costing::Costing costing(house.house);
  CHECK(base::to_double(*costing.cost(house.drink("Peel"))) == Approx(1.2));
  CHECK(base::to_double(*costing.cost(house.drink("Both"))) == Approx(2));
}

TEST_CASE(
    "what a fruit gives has no price where the fruit has none or weighs nothing known, or where it cannot be "
    "weighed",
    "[cost]") {
  auto has_price = [](const char* fruit) {
    EvaluatedHouse house(std::string("house Test\n  currency EUR\n"
                                     "ingredient odd pulp\n  kind spice\n  form solid\n  allergen none\n"
                                     "ingredient bog berry\n  kind fruit\n") +
                         fruit);
    return costing::Costing(house.house).prices().exact_per_gram(house.stock("odd pulp")).has_value();
  };
  CHECK(has_price("  each 20 g\n  gives 4 g odd pulp\n  buy 1 kg for 5 EUR\n"));
  CHECK_FALSE(has_price("  each 20 g\n  gives 4 g odd pulp\n"));
  CHECK_FALSE(has_price("  gives 4 g odd pulp\n  buy 1 kg for 5 EUR\n"));
  CHECK_FALSE(has_price("  each 20 g\n  gives 4 ml odd pulp\n  buy 1 kg for 5 EUR\n"));
}

TEST_CASE(
    "a drink on no menu has a cost and a price that would meet the target, and neither margin nor pour cost",
    "[cost]") {
  EvaluatedHouse house(std::string(house_of_one_sour) + "drink Off like Sour\n");
  auto report = costing::cost_report(house.house, {}, {});
  auto off = line_of(report, house.drink("Off"));
  CHECK(*off.cost == Exact(17125, 10000));
  CHECK(*off.price_for_target == Exact(19, 2));
  CHECK_FALSE(off.price);
  CHECK_FALSE(off.margin);
  CHECK_FALSE(off.pour_cost_percent);
}

TEST_CASE("of two price lists without dates the later year counts, then the later season", "[cost]") {
  auto cost = [](std::string first, std::string second) {
    EvaluatedHouse house(fmt::format(R"(ingredient test gin like London dry gin
prices {}
  test gin 1 l for 20 EUR
prices {}
  test gin 1 l for 40 EUR
drink Neat
  50 ml test gin
  stir 30 s
  strain
)",
                                     first, second));
    return base::to_double(costing::Costing(house.house).cost(house.drink("Neat")).value_or(0));
  };
  for (auto [older, newer] :
       {std::pair("summer 2025", "winter 2026"), std::pair("spring 2026", "summer 2026"),
        std::pair("winter 2026", "spring 2026"), std::pair("summer 2026", "autumn 2026"),
        std::pair("\"2025 summer\"", "\"2026 winter\""), std::pair("list a", "list b"),
        std::pair("spring 2026", "list b")}) {
    INFO(older << " before " << newer);
    bool second_is_later = std::string(newer) != "list b" || std::string(older) == "list a";
    CHECK(cost(older, newer) == Approx(second_is_later ? 2 : 1));
    CHECK(cost(newer, older) == Approx(second_is_later ? 1 : 2));
  }
}

TEST_CASE(
    "a pack that cannot be weighed is no offer by weight, and one of no price in the house's money none at "
    "all",
    "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient paper flower
  kind garnish
  allergen none
  buy 50 for 9 EUR
ingredient far gin like London dry gin
  buy 700 ml for 20 USD
  buy 1 l for 30 EUR
  buy 700 ml for 20 EUR
)");
  costing::Costing costing(house.house);
  CHECK(costing.prices().offers(house.stock("paper flower")).empty());
  auto pieces = costing.prices().piece_offers({house.stock("paper flower"), {}, {}});
  REQUIRE(pieces.size() == 1);
  CHECK(pieces[0].pieces == 50);
  // By weight the cheapest comes first: 28.57 a litre before 30.
  auto offers = costing.prices().offers(house.stock("far gin"));
  REQUIRE(offers.size() == 2);
  CHECK(offers[0].price == 20);
  CHECK(offers[1].price == 30);
  CHECK(costing.prices().without_rate(house.stock("far gin")).size() == 1);
}

TEST_CASE("tap water costs nothing, bottled and fizzy water what they cost", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient spring like water
  buy 1 l for 2 EUR
)");
  costing::Costing costing(house.house);
  const auto& prices = costing.prices();
  CHECK(prices.is_free(house.stock("water")));
  CHECK_FALSE(prices.is_free(house.stock("spring")));
  CHECK_FALSE(prices.is_free(house.stock("soda water")));
  CHECK_FALSE(prices.is_free(house.stock("vodka")));
}

TEST_CASE("what is all wasted has no price, by weight or by the piece", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient husk
  kind spice
  form solid
  waste 100 %
  each 10 g
  buy 1 kg for 8 EUR
  buy 10 for 8 EUR
)");
  costing::Costing costing(house.house);
  CHECK_FALSE(costing.prices().exact_per_gram(house.stock("husk")));
  CHECK_FALSE(costing.prices().exact_per_piece({house.stock("husk"), {}, {}}));
}

TEST_CASE("a price list leaves the supplier and his code to the pack that they stand with", "[cost]") {
  EvaluatedHouse house(R"(house Test
  currency EUR
ingredient test gin like London dry gin
  buy 700 ml for 21 EUR from Harbour Wines
  buy 1 l for 28 EUR from Quay Drinks
prices spring 2026
  test gin 1 l for 30 EUR
)");
  costing::Costing costing(house.house);
  auto offers = costing.prices().offers(house.stock("test gin"));
  REQUIRE(offers.size() == 1);
  CHECK(offers[0].price == 30);
  CHECK(offers[0].supplier == "Quay Drinks");
}

TEST_CASE("a price list counts from its own date, else from the year and month, season or date in its name") {
  auto date = [](std::string_view head, std::string_view lines = "") {
    EvaluatedHouse house(fmt::format("prices {}\n{}  lemon 100 for 20 EUR\n", head, lines));
    return model::date_of(house.compiled.specs.price_lists.front(), house.compiled.specs);
  };
  CHECK(date("January 2026") == "2026-01");
  CHECK(date("April 2026") == "2026-04");
  CHECK(date("2026 sept") == "2026-09");
  CHECK(date("winter 2026") == "2026-01");
  CHECK(date("fall 2026") == "2026-09");
  CHECK(date("of 2026-04-12") == "2026-04-12");
  CHECK(date("2026") == "2026");
  CHECK(date("3 April 2026") == "2026-04-03");
  CHECK(date("17 April 2026") == "2026-04-17");
  CHECK(date("April 3 2026") == "2026-04-03");
  for (const char* december :
       {"Dezember 2026", "décembre 2026", "diciembre 2026", "dicembre 2026", "Dez 2026"})
    CHECK(date(december) == "2026-12");
  for (const char* march :
       {"März 2026", "mars 2026", "marzo 2026", "Mrz 2026", "Frühjahr 2026", "primavera 2026"})
    CHECK(date(march) == "2026-03");
  CHECK(date("estate 2026") == "2026");
  CHECK(date("\"winter 2025/26\"") == "2026-01");
  CHECK(date("\"autumn 2025/26\"") == "2025");
  CHECK(date("2026-Q1") == "2026-01");
  CHECK(date("list 99 of 2026-13") == "2026");
  CHECK(date("Mayfair 2026") == "2026");
  CHECK(date("x 9") == "");
  CHECK(date("January 2026", "  from 2026-05-01\n") == "2026-05-01");
}

TEST_CASE("a winter may begin its year or end it, so against the year's last months its list needs a day") {
  auto is_known = [](std::string_view first, std::string_view second) {
    EvaluatedHouse house(
        fmt::format("prices {}\n  lemon 100 for 20 EUR\nprices {}\n  lemon 100 for 21 EUR\n", first, second));
    const auto& specs = house.compiled.specs;
    bool known = model::is_order_known(specs.price_lists[0], specs.price_lists[1], specs);
    CHECK(model::is_order_known(specs.price_lists[1], specs.price_lists[0], specs) == known);
    return known;
  };
  CHECK_FALSE(is_known("autumn 2026", "winter 2026"));
  CHECK_FALSE(is_known("October 2026", "winter 2026"));
  CHECK(is_known("spring 2026", "winter 2026"));
  CHECK(is_known("autumn 2025", "winter 2026"));
  CHECK(is_known("autumn 2026", "\"winter 2026/27\""));
  CHECK(is_known("autumn 2026\n  from 2026-09-01", "winter 2027"));
}

TEST_CASE("a year alone, or a month, gives no order within it") {
  auto is_known = [](std::string_view first, std::string_view second) {
    EvaluatedHouse house(
        fmt::format("prices {}\n  lemon 100 for 20 EUR\nprices {}\n  lemon 100 for 21 EUR\n", first, second));
    const auto& specs = house.compiled.specs;
    return model::is_order_known(specs.price_lists[0], specs.price_lists[1], specs);
  };
  CHECK_FALSE(is_known("list 2026", "March 2026"));
  CHECK_FALSE(is_known("March 2026", "3 March 2026"));
  CHECK(is_known("list 2025", "March 2026"));
  CHECK(is_known("November 2026", "Dezember 2026"));
  CHECK(is_known("September 2026", "Oktober 2026"));
  CHECK_FALSE(is_known("Herbst 2026", "hiver 2026"));
  CHECK(is_known("first\n  from 2026-03-01", "second like first"));
}

TEST_CASE("a list that is like another brings its prices and not its day") {
  EvaluatedHouse house(
      "prices first\n  from 2026-03-01\n  lemon 100 for 20 EUR\n\n"
      "prices second like first\n  lemon 100 for 30 EUR\n\n"
      "prices April 2026 like first\n  lemon 100 for 40 EUR\n");
  const auto& lists = house.compiled.specs.price_lists;
  std::map<std::string, std::string> dates;
  for (const auto& list : lists) dates[list.head.name] = model::date_of(list, house.compiled.specs);
  CHECK(dates["first"] == "2026-03-01");
  CHECK(dates["second"] > dates["first"]);
  CHECK(dates["second"] < dates["April 2026"]);
}

TEST_CASE("what a prep in a circle weighs is known to nobody, whatever else is in it and beside it",
          "[cost]") {
  EvaluatedHouse house(
      "prep a\n  100 ml b\n  50 ml vodka\n  keeps 2 d chilled\n"
      "prep b\n  100 ml a\n  50 ml vodka\n  keeps 2 d chilled\n"
      "drink D\n  glass coupe\n  50 ml London dry gin\n  20 ml a\n  stir 20 s\n  strain\n");
  auto parts = costing::Costing(house.house).parts(house.drink("D"));
  CHECK(parts.unweighed == std::vector<costing::StockId>{house.stock("a")});
  REQUIRE(parts.bought.size() == 1);
  CHECK(parts.bought.front().stock == house.stock("London dry gin"));
}

TEST_CASE("drinks of the same lines are made of the same parts, in whatever order they are poured",
          "[cost]") {
  EvaluatedHouse house(
      "prep mix\n  300 ml dry vermouth\n  300 ml London dry gin\n  keeps 2 wk chilled\n"
      "drink One\n  glass coupe\n  40 ml London dry gin\n  20 ml dry vermouth\n  30 ml mix\n  stir 20 s\n"
      "  strain\n"
      "drink Other\n  glass coupe\n  30 ml mix\n  20 ml dry vermouth\n  40 ml London dry gin\n  stir 20 s\n"
      "  strain\n");
  costing::Costing costing(house.house);
  auto one = costing.parts(house.drink("One")), other = costing.parts(house.drink("Other"));
  REQUIRE(one.bought.size() == 2);
  REQUIRE(other.bought.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(one.bought[i].stock == other.bought[i].stock);
    CHECK(one.bought[i].grams == Approx(other.bought[i].grams));
  }
}

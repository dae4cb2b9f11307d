// Batches: worked examples by hand, what is left out, and that nothing is lost between the batch and its
// serves.
#include "batch/batch.h"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "batch/batch_output.h"
#include "batch/bottle_label.h"
#include "model/house_bottle.h"
#include "unit/driver/house_fixture.h"

using namespace gill;
using model::Component;
using test::compile;
using test::drink;

namespace {

batch::Batch batch_of(const driver::Compilation& house, const std::string& name,
                      const batch::BatchRequest& request) {
  auto id = house.names.find(symbols::NameSpace::drink, name);
  auto made = id.valid() ? batch::make_batch(house.book_input(), test::drink_id(house, name), request)
                         : batch::make_batch(house.book_input(), test::stock_id(house, name), request);
  if (auto* failure = std::get_if<std::string>(&made)) throw std::runtime_error(*failure);
  return std::get<batch::Batch>(made);
}

batch::BatchRequest serves(double n, bool diluted = false) {
  batch::BatchRequest request;
  request.serves = n;
  request.diluted = diluted;
  return request;
}

const batch::BatchIngredient& of(const batch::Batch& made, const std::string& name) {
  for (const auto& what : made.ingredients)
    if (what.name == name) return what;
  throw std::runtime_error("not in the batch: " + name);
}

std::string why_left_out(const batch::Batch& made, const std::string& name) {
  for (const auto& out : made.left_out)
    if (out.what.name == name) return out.why;
  return "";
}

}  // namespace

TEST_CASE("twenty serves are twenty times each amount, and their strength is that of the mix") {
  auto house = compile("drink A\n  50 ml vodka\n  25 ml water\n  stir 30 s\n  strain\n");
  auto made = batch_of(*house, "A", serves(20));
  CHECK(*of(made, "vodka").volume_ml == Approx(1000));
  CHECK(*of(made, "water").volume_ml == Approx(500));
  CHECK(made.water_ml == 0);
  // 1 l of vodka at 40 % weighs 948.05 g (OIML R 22) and holds 0.4 · 789.24 = 315.70 g of ethanol; with
  // 499.10 g of water that is 1447.15 g at 21.815 % by mass, of 0.96636 g/ml: 1497.5 ml, 400 / 1497.5 = 26.71
  // % abv. (Volumes do not add up: 2.5 ml are gone.)
  CHECK(made.volume_ml == Approx(1497.5).margin(0.5));
  CHECK(made.abv_percent == Approx(26.71).margin(0.02));
  CHECK(made.abv_percent == Approx(drink(*house, "A").mixed.abv_percent));
}

TEST_CASE("diluted, a batch has the strength at which the drink is served") {
  auto house = compile(
      "drink A\n  50 ml London dry gin\n  25 ml sweet vermouth\n  1 dash orange bitters\n  stir 30 s\n  "
      "strain\n");
  const auto& facts = drink(*house, "A");
  auto made = batch_of(*house, "A", serves(12, true));
  // The same water as the melt: dilution times mixed volume a serve, twelve times.
  CHECK(made.water_ml == Approx(12 * facts.dilution_percent / 100 * facts.mixed.volume_ml));
  CHECK(made.abv_percent == Approx(facts.served.abv_percent));
  CHECK(made.sugar_g_per_100ml == Approx(facts.served.sugar_g_per_100ml));
  // A strain leaves one hundredth behind, which a bottle does not.
  CHECK(made.volume_ml == Approx(12 * facts.served.volume_ml / 0.99));
}

TEST_CASE("freezing is told by the table: 24.55 % abv begins at -10.9 C") {
  // CRC Handbook of Chemistry and Physics, 102nd edition: 20 % ethanol by mass, 24.55 % by volume, −10.92 °C.
  auto house = compile(
      "drink A\n  100 ml vodka\n  until strength 24.55 % abv water\n  build\nhouse H\n  freezer -18 C\n");
  auto made = batch_of(*house, "A", serves(5));
  CHECK(made.freezes_at_c == Approx(-10.92).margin(0.03));
  auto json = nlohmann::json::parse(batch::batch_json(made, house->book_input()));
  CHECK(json["freezes_in_freezer"] == true);
  CHECK(batch::batch_text(made, house->book_input()).find("turns to slush") != std::string::npos);
}

TEST_CASE("a volume and a bottle decide the serves") {
  auto house = compile("drink A\n  50 ml London dry gin\n  25 ml dry vermouth\n  stir 30 s\n  strain\n");
  batch::BatchRequest request;
  request.volume_ml = 2000;
  request.bottle_ml = 700;
  auto made = batch_of(*house, "A", request);
  CHECK(made.volume_ml == Approx(2000));
  CHECK(*made.serves * drink(*house, "A").mixed.volume_ml == Approx(2000));
  REQUIRE(made.bottles.size() == 1);
  CHECK(made.bottles[0].count == 3);  // 700 + 700 + 600
  CHECK(made.bottles[0].last_ml == Approx(600));
  request.volume_ml.reset();
  made = batch_of(*house, "A", request);
  CHECK(made.volume_ml == Approx(700));
  CHECK(made.bottles[0].count == 1);
}

TEST_CASE("what is dashed or dropped at service is told as the spec says it") {
  auto house = compile(
      "drink A\n  glass rocks\n  60 ml aged rum\n  20 ml lime juice\n  shake 12 s\n  strain\n"
      "  garnish 3 drops aromatic bitters\n");
  auto text = batch::batch_text(batch_of(*house, "A", serves(8)), house->book_input());
  CHECK(text.find("3 drops  aromatic bitters") != std::string::npos);
}

TEST_CASE("egg, fizz, fresh juice, floats, rims and garnish are left out, each with its reason") {
  auto house = compile(
      "drink A\n  45 ml rye whiskey\n  20 ml lemon juice\n  15 ml honey syrup\n  1 egg white\n  4 leaves "
      "mint\n  rim white sugar\n"
      "  dry shake 10 s\n  shake 12 s\n  strain\n  top 60 ml soda water\n  float 10 ml aged rum\n  garnish "
      "lemon twist\n");
  auto made = batch_of(*house, "A", serves(10));
  CHECK(made.ingredients.size() == 2);
  CHECK(*of(made, "rye whiskey").volume_ml == Approx(450));
  CHECK(why_left_out(made, "egg white").find("egg") != std::string::npos);
  CHECK(why_left_out(made, "lemon juice").find("fresh juice") != std::string::npos);
  CHECK(why_left_out(made, "soda water").find("fizz") != std::string::npos);
  CHECK(why_left_out(made, "aged rum").find("floated") != std::string::npos);
  CHECK(why_left_out(made, "white sugar").find("rim") != std::string::npos);
  CHECK(why_left_out(made, "mint leaf").find("fresh") != std::string::npos);
  CHECK(why_left_out(made, "lemon twist").find("garnish") != std::string::npos);
  // Lemon juice keeps two days: a batch that is used up in six hours takes it.
  auto request = serves(10);
  request.within_h = 6;
  made = batch_of(*house, "A", request);
  CHECK(*of(made, "lemon juice").volume_ml == Approx(200));
  CHECK(*made.keeps_days <= 2);
  request.within_h = 72;
  CHECK_FALSE(why_left_out(batch_of(*house, "A", request), "lemon juice").empty());
}

TEST_CASE("what is hot on top, raw egg in a prep, and what goes on after the strain are left out") {
  auto house = compile(
      "prep sour base\n  200 ml lemon juice\n  200 ml simple syrup\n  100 ml egg white\n  stir 10 s\n  keeps "
      "1 d "
      "chilled\nprep cooked base\n  200 ml lemon juice\n  200 ml simple syrup\n  100 ml egg white\n  heat to "
      "70 C, 60 "
      "s\n  keeps 1 d chilled\nprep kegged\n  1 l vodka\n  2 l water\n  carbonate to 3 vol\n  keeps 7 d "
      "chilled\n  "
      "keg\n"
      "drink Hot\n  glass mug\n  build\n  50 ml dark rum\n  20 ml honey syrup\n  top 120 ml water, hot\n  "
      "garnish "
      "none\ndrink Sour\n  50 ml London dry gin\n  50 ml sour base\n  20 ml cooked base\n  shake 12 s\n  "
      "strain\n  15 ml "
      "simple syrup\n  garnish none\ndrink Keg\n  150 ml kegged\n  build\n  garnish none\n");
  auto hot = batch_of(*house, "Hot", serves(10));
  CHECK(why_left_out(hot, "water").find("it is hot") != std::string::npos);
  CHECK(*of(hot, "dark rum").volume_ml == Approx(500));
  auto sour = batch_of(*house, "Sour", serves(10, true));
  CHECK(why_left_out(sour, "sour base").find("raw egg") != std::string::npos);
  CHECK(why_left_out(sour, "simple syrup").find("after the strain") != std::string::npos);
  CHECK(*of(sour, "cooked base").volume_ml == Approx(200));
  auto keg = batch_of(*house, "Keg", serves(10));
  CHECK(std::any_of(keg.notes.begin(), keg.notes.end(),
                    [](const std::string& note) { return note.find("goes flat") != std::string::npos; }));
}

TEST_CASE("what nobody weighs, what is optional and what the bottle's own line does not name are left out") {
  auto house = compile(
      "ingredient fizz tablet\n  kind additive\n  allergen none\n"
      "drink A\n  60 ml aged rum\n  20 ml dry vermouth\n  2 fizz tablet\n  10 ml water, optional\n  stir 30 "
      "s\n  strain\n"
      "drink B\n  60 ml aged rum\n  20 ml dry vermouth\n  stir 30 s\n  strain\n  batched aged rum\n");
  auto made = batch_of(*house, "A", serves(4));
  CHECK(why_left_out(made, "fizz tablet") == "nobody knows what it weighs");
  CHECK(why_left_out(made, "water") == "it is optional: add it when it is asked for");
  CHECK(made.ingredients.size() == 2);
  auto named = batch_of(*house, "B", serves(4));
  CHECK(why_left_out(named, "dry vermouth") == "the drink's `batched` line does not name it");
  CHECK(*of(named, "aged rum").volume_ml == Approx(240));
}

TEST_CASE("fresh juice is left out unless the batch is used up before it is past its best") {
  auto house = compile("drink A\n  60 ml aged rum\n  20 ml lime juice\n  shake 12 s\n  strain\n");
  auto keeps_h = 24 * test::stock(*house, "lime juice").keeps_days.value();
  auto request = serves(4);
  CHECK_THAT(why_left_out(batch_of(*house, "A", request), "lime juice"),
             Catch::Contains("or say with `--within`"));
  request.within_h = keeps_h;
  CHECK(why_left_out(batch_of(*house, "A", request), "lime juice").empty());
  request.within_h = keeps_h + 1;
  CHECK_THAT(why_left_out(batch_of(*house, "A", request), "lime juice"),
             Catch::Contains(fmt::format("within {:g} h: add it at service", keeps_h)));
}

TEST_CASE("a batch of many serves is told to hold back some of its bitters, from twenty on") {
  // Common practice, no source.
  auto house = compile("drink A\n  60 ml rye whiskey\n  2 dashes aromatic bitters\n  stir 30 s\n  strain\n");
  auto told = [&](double n) {
    auto made = batch_of(*house, "A", serves(n));
    return std::any_of(made.notes.begin(), made.notes.end(), [](const std::string& note) {
      return note.find("three quarters of the bitters") != note.npos;
    });
  };
  CHECK(told(20));
  CHECK_FALSE(told(19));
}

TEST_CASE("more than the kitchen makes at once is made in as many goes as it takes, by volume or by weight") {
  auto goes = [](const char* most, double ml) {
    auto house = compile(std::string("prep p\n  1 l water\n  makes 1 l\n  batch ..") + most +
                         "\n  keeps 1 d chilled\n");
    batch::BatchRequest request;
    request.volume_ml = ml;
    return batch_of(*house, "p", request).goes;
  };
  int one = goes("2 l", 2000);
  CHECK(goes("2 l", 2001) == 2);
  CHECK(goes("2 l", 4000) == 2);
  CHECK(goes("2 l", 4001) == 3);
  CHECK(goes("1 kg", 1000) == one);  // 998 g
  CHECK(goes("1 kg", 1003) == 2);
}

TEST_CASE("nothing is lost between a batch, what is left out of it and the drink") {
  std::mt19937 random(31);
  const std::vector<std::string> liquids = {"rye whiskey",    "London dry gin", "aged rum",
                                            "lemon juice",    "lime juice",     "simple syrup",
                                            "sweet vermouth", "orange liqueur", "soda water"};
  std::string text;
  constexpr int drinks = 40;
  for (int i = 0; i < drinks; ++i) {
    text += fmt::format("drink D{}\n  30 ml vodka\n", i);
    for (int n = std::uniform_int_distribution<int>(1, 5)(random); n > 0; --n)
      text += fmt::format("  {} ml {}\n", 0.5 * std::uniform_int_distribution<int>(5, 120)(random),
                          liquids[std::uniform_int_distribution<std::size_t>(0, liquids.size() - 1)(random)]);
    text += "  stir 20 s\n  strain\n";
  }
  auto house = compile(text);
  for (int i = 0; i < drinks; ++i) {
    const auto& facts = drink(*house, fmt::format("D{}", i));
    REQUIRE(facts.valid);
    double n = 1 + i;
    auto made = batch_of(*house, fmt::format("D{}", i), serves(n, i % 2 == 1));
    model::Masses all = made.masses;
    for (const auto& out : made.left_out)
      all += house->facts[out.what.use.stock].composition.per_gram * (*out.what.mass_g * n);
    for (auto component : {Component::ethanol, Component::sugar, Component::citric}) {
      double mixed = 0;
      for (const auto& entry : facts.entries)
        mixed += house->facts[entry.use.stock].composition.per_gram[component] * *entry.mass_g;
      CHECK(all[component] == Approx(n * mixed).epsilon(1e-9).margin(1e-12));
    }
    double grams = made.water_ml * 0.99820123;
    for (const auto& what : made.ingredients) grams += *what.mass_g;
    CHECK(made.mass_g == Approx(grams).epsilon(1e-9));
  }
}

TEST_CASE("a prep is scaled by what it makes") {
  auto house = compile(
      "prep P\n  700 ml vodka\n  100 g white sugar\n  makes 750 ml\n  keeps 30 d chilled\n  batch ..2 l\n");
  batch::BatchRequest request;
  request.volume_ml = 3000;
  auto made = batch_of(*house, "P", request);
  CHECK(*of(made, "vodka").volume_ml == Approx(2800));
  CHECK(*of(made, "white sugar").mass_g == Approx(400));
  CHECK(made.goes == 2);
  CHECK(*made.keeps_days == 30);
  CHECK_FALSE(made.serves);
  CHECK_THROWS(batch_of(*house, "P", serves(3)));
}

TEST_CASE("a prep is bottled in the bottles asked for, else in its own, else in none") {
  auto house = compile(
      "prep P\n  700 ml vodka\n  makes 700 ml\n  keeps 30 d chilled\n  bottle 350 ml\n"
      "prep Q\n  700 ml vodka\n  makes 700 ml\n  keeps 30 d chilled\n");
  batch::BatchRequest request;
  request.volume_ml = 2000;
  auto own = batch_of(*house, "P", request);
  REQUIRE(own.bottles.size() == 1);
  CHECK(own.bottles[0].size_ml == 350);
  CHECK(own.bottles[0].count == 6);
  CHECK(batch_of(*house, "Q", request).bottles.empty());
  request.bottle_ml = 500;
  auto asked = batch_of(*house, "P", request);
  REQUIRE(asked.bottles.size() == 1);
  CHECK(asked.bottles[0].size_ml == 500);
  CHECK(asked.bottles[0].count == 4);
}

TEST_CASE("the keys of a batch are the fixed ones") {
  auto house = compile(
      "drink A\n  50 ml London dry gin\n  2 dashes orange bitters\n  stir 30 s\n  strain\n  garnish lemon "
      "twist\n");
  auto json =
      nlohmann::json::parse(batch::batch_json(batch_of(*house, "A", serves(20, true)), house->book_input()));
  CHECK(json["format"] == "gill-batch");
  CHECK(json["version"] == 1);
  CHECK(json["drink"] == "A");
  CHECK(json["serves"] == 20);
  for (const char* key : {"volume_ml", "abv_percent", "water_ml", "ingredients", "bottles", "freezes_at_c",
                          "keeps_days", "storage", "left_out"})
    CHECK(json.contains(key));
  for (const char* key : {"name", "volume_ml", "mass_g", "count"})
    CHECK(json["ingredients"][0].contains(key));
  CHECK(json["left_out"][0]["name"] == "lemon twist");
  CHECK(json["left_out"][0].contains("why"));
}

TEST_CASE("a batch is measured in steps that a jug has") {
  CHECK(batch::batch_measurable(1497.6) == 1500);
  CHECK(batch::batch_measurable(12344) == 12340);
  CHECK(batch::batch_measurable(512.3) == 512.3);  // below a litre as every measure
}

TEST_CASE("a mix keeps by its strength, and with milk or cream two days whatever else it holds") {
  // Common practice, no source: 60 days from 25 %, 14 from 15 %, else 3, and 2 with fresh dairy.
  auto house = compile(
      "drink Strong\n  50 ml vodka\n  10 ml water\n  build\ndrink Wine\n  50 ml vodka\n  50 ml water\n  "
      "build\n"
      "drink Weak\n  50 ml vodka\n  150 ml water\n  build\ndrink Creamy\n  50 ml vodka\n  50 ml cream\n  "
      "build\n");
  CHECK(batch_of(*house, "Strong", serves(10)).keeps_days == 60);
  CHECK(batch_of(*house, "Wine", serves(10)).keeps_days == 14);
  // With water in it, no more than two weeks however strong.
  CHECK(batch::max_days_of_mix(40, true, false) == 14);
  CHECK(batch::max_days_of_mix(25, false, false) == 60);
  CHECK(batch::max_days_of_mix(24.9, false, false) == 14);
  CHECK(batch::max_days_of_mix(15, false, false) == 14);
  CHECK(batch::max_days_of_mix(14.9, true, false) == 3);
  CHECK(batch::max_days_of_mix(40, true, true) == 2);
  CHECK(batch_of(*house, "Weak", serves(10)).keeps_days == 3);
  CHECK(batch_of(*house, "Creamy", serves(10)).keeps_days == 2);
}

TEST_CASE("one pour from the house bottle is as much as the batch says a serve is") {
  // A strong spirit and water shrink on mixing: poured one by one they would be more.
  auto house = compile(
      "ingredient cask rum\n  kind spirit\n  strength 63 % abv\n  allergen none\n"
      "drink A\n  60 ml cask rum\n  10 ml sweet vermouth\n  batched cask rum, sweet vermouth, with water\n"
      "  stir 30 s\n  strain\n  garnish lemon twist\n");
  const auto id = test::drink_id(*house, "A");
  const auto bottle = model::house_bottle_of(house->specs[id], house->facts[id], house->facts);
  CHECK(bottle.pour_ml == Approx(batch_of(*house, "A", serves(1, true)).ml_a_serve));
  CHECK(bottle.pour_ml < 70 + bottle.water_ml - 1);
  CHECK(bottle.water_ml == Approx(house->facts[id].bottle_water_ml));
  CHECK(bottle.entries == std::vector<std::size_t>{0, 1});
}

TEST_CASE("a drink that is not batched has no bottle, and what the line does not name is in none") {
  auto house = compile(
      "drink A\n  60 ml vodka\n  stir 30 s\n  strain\n"
      "drink B\n  60 ml vodka\n  20 ml dry vermouth\n  batched vodka\n  stir 30 s\n  strain\n");
  auto bottle = [&](const char* name) {
    const auto id = test::drink_id(*house, name);
    return model::house_bottle_of(house->specs[id], house->facts[id], house->facts);
  };
  CHECK(bottle("A").entries.empty());
  CHECK(bottle("A").pour_ml == 0);
  CHECK(bottle("B").pour_ml == Approx(60));
  CHECK(bottle("B").water_ml == 0);
}

TEST_CASE("a bottle's label declares what is in it, and by itself what the drink adds") {
  auto house = compile(
      "prep hs\n  600 g honey\n  300 g water\n  dissolve\n  keeps 14 d chilled\n"
      "drink Pre\n  glass coupe\n  40 ml vodka\n  20 ml hs\n  25 ml lemon juice\n  1 egg white\n"
      "  batched vodka, hs, bottle 750 ml\n  dry shake 10 s\n  shake 12 s\n  double strain\n  garnish "
      "almond\n");
  auto input = house->book_input();
  render::document::BookIndex index(input, true);
  auto label = batch::bottle_label(index, test::drink_id(*house, "Pre"));
  CHECK(label.allergens.present.empty());
  CHECK(label.also_in_drink == std::vector<std::string>{"egg", "almond (nut)"});
  CHECK(label.take_care == "Honey.");
  auto made = batch_of(*house, "Pre", serves(17));
  CHECK(made.allergens.present().empty());
}

TEST_CASE("how many goes it takes is told only of more than the kitchen makes at once") {
  auto told = [](double ml) {
    auto house = compile("prep p\n  1 l water\n  makes 1 l\n  batch ..2 l\n  keeps 1 d chilled\n");
    batch::BatchRequest request;
    request.volume_ml = ml;
    const auto made = batch_of(*house, "p", request);
    return std::any_of(made.notes.begin(), made.notes.end(),
                       [](const std::string& note) { return note.find(" at once") != std::string::npos; });
  };
  CHECK_FALSE(told(1000));
  CHECK_FALSE(told(2000));
  CHECK(told(2100));
}

// What every entry of the standard library must say of itself, and what bars rely on in some of them.
#include <catch2/catch.hpp>
#include <map>
#include <string>
#include <vector>

#include "model/allergens.h"
#include "model/physics/volume.h"
#include "unit/model/model_house.h"

using gill::analysis::Form;
using gill::model::Component;
using gill::testing::evaluate;
using gill::testing::library;

namespace {

std::vector<std::string> allergens_of(const char* name) {
  std::vector<std::string> words;
  for (const auto& route : library().stock(name).allergens.routes)
    words.push_back((route.may ? "may " : "") + route.code);
  return words;
}

double per_cent_of_water(const char* name) {
  return 100 * library().stock(name).composition.per_gram[Component::water];
}

}  // namespace

TEST_CASE("every ingredient of the library says where it comes from", "[library]") {
  for (const auto& stock : library().front.specs.stock) {
    if (stock.is_prep) continue;
    INFO(stock.head.name);
    CHECK(stock.origin_stated);
  }
}

TEST_CASE("every solid and powder of the library declares its water", "[library]") {
  for (const auto& stock : library().front.specs.stock) {
    if (stock.is_prep || stock.effective_form() == Form::liquid) continue;
    INFO(stock.head.name);
    CHECK(stock.water);
  }
}

TEST_CASE("every entry can be made of what it declares", "[library]") {
  for (const auto& stock : library().front.specs.stock) {
    INFO(stock.head.name);
    CHECK(library()
              .facts[gill::analysis::StockId::at(
                  static_cast<std::size_t>(&stock - library().front.specs.stock.data()))]
              .valid);
  }
}

// Common practice and general knowledge of the recipes, no source; the groups are those of Regulation (EU) No
// 1169/2011, Annex II.
TEST_CASE("the allergens of what bars get wrong", "[library]") {
  using Words = std::vector<std::string>;
  const std::map<const char*, Words> expected = {
      {"walnut liqueur", {"nuts:walnut", "may sulphites"}},
      {"egg liqueur", {"egg", "milk", "may nuts:almond"}},
      {"gose", {"cereals:barley", "cereals:wheat"}},
      {"caramel sauce", {"milk", "may soybeans"}},
      {"orange aperitivo", {"may sulphites"}},
      {"pickle brine", {"may celery", "may mustard", "may sulphites"}},
      {"stout", {"cereals:barley", "may cereals:oats", "may cereals:wheat", "may milk"}},
      {"porter", {"cereals:barley", "may cereals:oats", "may cereals:wheat", "may milk"}},
      {"pale ale", {"cereals:barley", "may cereals:oats", "may cereals:wheat"}},
      {"witbier", {"cereals:barley", "cereals:wheat", "may cereals:oats"}},
      {"hazelnut liqueur", {"nuts:hazelnut"}},
      {"biscuit crumb",
       {"cereals:wheat", "may cereals:barley", "may cereals:oats", "may egg", "may soybeans", "may milk",
        "may nuts:almond", "may nuts:hazelnut", "may sesame"}},
      {"sloe gin", {"may sulphites"}},
      {"cherry liqueur", {"may sulphites"}},
      {"crème de cassis", {"may sulphites"}},
      {"white miso", {"soybeans", "may cereals:barley", "may cereals:wheat"}},
      {"Worcestershire sauce", {"fish", "may cereals:barley", "may soybeans", "may celery", "may sulphites"}},
      {"glucose syrup", {"may cereals:wheat", "may sulphites"}},
      {"isinglass", {"fish"}},
      {"casein", {"milk"}},
      {"lysozyme", {"egg"}},
      {"lupin flour", {"lupin"}},
      {"coconut cream", {"coconut", "may sulphites"}},
  };
  for (const auto& [name, words] : expected) {
    INFO(name);
    CHECK(allergens_of(name) == words);
  }
}

TEST_CASE("a cherry laid on a drink is a cocktail cherry, and a fresh one where it says so", "[library]") {
  auto house = evaluate(
      "drink A\n  60 ml rye whiskey\n  stir 30 s\n  strain\n  garnish cherry\n\n"
      "drink B\n  60 ml rye whiskey\n  stir 30 s\n  strain\n  garnish fresh cherry\n\n"
      "prep C\n  700 ml rye whiskey\n  200 g cherry\n  macerate 2 d\n  strain\n");
  auto last = [&](const char* name) {
    return house.front.specs[house.drink(name).entries.back().use.stock].head.name;
  };
  CHECK(last("A") == "cocktail cherry");
  CHECK(last("B") == "cherry");
  CHECK(house.front.specs[house.stock("C").entries.back().use.stock].head.name == "cherry");
}

TEST_CASE("a house that has its own cherry lays that on", "[library]") {
  auto house = evaluate(
      "ingredient cherry\n  kind garnish\n  each 6 g\n  allergen none\n\n"
      "drink A\n  60 ml rye whiskey\n  stir 30 s\n  strain\n  garnish cherry\n");
  const auto& laid = house.front.specs[house.drink("A").entries.back().use.stock];
  CHECK_FALSE(laid.head.from_library);
}

// USDA National Nutrient Database, release 27, US Dept of Agriculture (from memory): water in 100 g.
TEST_CASE("foods hold the water that tables give them", "[library]") {
  const std::map<const char*, double> expected = {
      {"green olive", 75.3}, {"horseradish", 85.1}, {"oyster", 89.0},     {"tomato paste", 73.5},
      {"butter", 17.9},      {"watermelon", 91.5},  {"strawberry", 90.9}, {"mint", 85.6},
      {"lemon", 88.0},       {"cherry", 82.3},      {"celery", 95.4},
  };
  for (const auto& [name, water] : expected) {
    INFO(name);
    CHECK(per_cent_of_water(name) == Approx(water).margin(1));
  }
}

TEST_CASE("dried flowers and leaves are dry", "[library]") {
  for (const char* name : {"hibiscus flower", "lavender", "chamomile flower", "dried rosebud",
                           "butterfly pea flower", "black tea leaves", "rooibos leaves", "dried mint"}) {
    INFO(name);
    CHECK(per_cent_of_water(name) >= 5);
    CHECK(per_cent_of_water(name) <= 12);
  }
}

TEST_CASE("a fruit weighs about what water does, and a marshmallow is mostly air", "[library]") {
  for (const char* name : {"watermelon", "lemon", "lime", "cucumber", "strawberry", "peach"}) {
    INFO(name);
    CHECK(library().stock(name).density_g_per_ml == Approx(1.03).margin(0.05));
  }
  CHECK(library().stock("marshmallow").sugar_g_per_100ml == Approx(12).margin(3));
}

// Worked out by hand from the water, fat and sugar of each (USDA National Nutrient Database, release 27, from
// memory) and from what the fat and the solids keep back, which is common practice without a source.
TEST_CASE("wet and dry foods in a spirit: volume and strength of what comes off", "[library]") {
  auto house = evaluate(
      "ingredient gin 43 like London dry gin\n  strength 43 % abv\n\n"
      "ingredient rye 45 like rye whiskey\n  strength 45 % abv\n\n"
      "prep olive gin\n  700 ml gin 43\n  200 g green olive\n  macerate 24 h\n  strain\n\n"
      "prep hibiscus gin\n  700 ml gin 43\n  60 g hibiscus flower\n  macerate 2 h\n  strain\n\n"
      "prep butter rye\n  700 ml rye 45\n  140 g butter\n  rest 2 h\n  freeze 12 h\n  remove butter\n"
      "  fine strain\n");
  const auto& olives = house.stock("olive gin");
  CHECK(olives.yield_ml == Approx(820).margin(15));
  CHECK(olives.abv_percent == Approx(35.5).margin(0.4));
  const auto& hibiscus = house.stock("hibiscus gin");
  CHECK(hibiscus.yield_ml < 660);
  const auto& butter = house.stock("butter rye");
  CHECK(butter.yield_ml == Approx(650).margin(10));
  CHECK(butter.abv_percent == Approx(43.5).margin(0.2));
}

// What each entry's own source line says.
TEST_CASE("figures of the library lie where their sources put them", "[library]") {
  auto acid_as_lactic = [](const char* name) {
    return 100 * library().stock(name).composition.of_ml(1)[Component::lactic];
  };
  CHECK(100 * library().stock("sherry vinegar").composition.of_ml(1)[Component::acetic] >= 7);
  for (const char* name : {"milk", "semi-skimmed milk", "skimmed milk", "half and half", "light cream",
                           "cream", "double cream"}) {
    INFO(name);
    CHECK(acid_as_lactic(name) >= 0.1299);
    CHECK(acid_as_lactic(name) <= 0.18);
  }
  CHECK(library().stock("blackstrap molasses").sugar_g_per_100ml <
        0.75 * library().stock("molasses").sugar_g_per_100ml);
  CHECK(library().stock("raki").abv_percent == Approx(45));
  CHECK(library().stock("arak").abv_percent == Approx(50));
  for (const char* name : {"raki", "arak"}) CHECK(library().stock(name).sugar_g_per_100ml == 0);
  auto navy = evaluate("drink A\n  60 ml navy rum\n");
  CHECK(navy.errors().size() == 1);
}

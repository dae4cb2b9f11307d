// Where things come from, and what follows for guests who eat nothing of animals.
#include "model/origin.h"

#include <catch2/catch.hpp>

#include "unit/model/model_house.h"

using gill::analysis::Origin;
using gill::model::Answer;
using gill::model::vegan;
using gill::model::vegetarian;
using gill::testing::evaluate;
using gill::testing::library;

namespace {

Answer vegan_in_library(const char* name) { return vegan(library().stock(name).origins); }
Answer vegetarian_in_library(const char* name) { return vegetarian(library().stock(name).origins); }

}  // namespace

TEST_CASE("meat, its fat and its stock are of an animal, whatever allergens they hold", "[origin]") {
  for (const char* name : {"bacon", "duck fat", "lard", "bacon fat", "goose fat", "beef fat", "chicken stock",
                           "beef consommé", "ham", "gelatin", "isinglass", "marshmallow", "fish sauce",
                           "anchovy", "oyster", "prawn", "Worcestershire sauce"}) {
    INFO(name);
    CHECK(vegan_in_library(name) == Answer::no);
    CHECK(vegetarian_in_library(name) == Answer::no);
  }
}

TEST_CASE("milk, egg and honey are of a living animal: vegetarian and not vegan", "[origin]") {
  for (const char* name : {"milk", "butter", "cream", "egg white", "whole egg", "honey", "honey syrup",
                           "cream liqueur", "casein", "lysozyme"}) {
    INFO(name);
    CHECK(vegan_in_library(name) == Answer::no);
    CHECK(vegetarian_in_library(name) == Answer::yes);
  }
}

TEST_CASE("a honeydew is a melon", "[origin]") {
  CHECK(vegan_in_library("honeydew") == Answer::yes);
  CHECK(vegan_in_library("honeydew juice") == Answer::yes);
}

TEST_CASE("what may be fined, coloured or gathered by an animal is not known", "[origin]") {
  for (const char* name :
       {"dry white wine", "sparkling wine", "sweet vermouth", "lager", "stout", "dry cider",
        "bitter aperitivo", "bee pollen", "food colouring", "clarified lime juice"}) {
    INFO(name);
    CHECK(vegan_in_library(name) == Answer::not_known);
  }
}

TEST_CASE("a secret recipe is not known", "[origin]") {
  CHECK(vegan_in_library("green herbal liqueur") == Answer::not_known);
  CHECK_FALSE(library().stock("green herbal liqueur").origins.known);
}

TEST_CASE("plants and minerals are vegan", "[origin]") {
  for (const char* name : {"London dry gin", "lime juice", "white sugar", "simple syrup", "salt", "water",
                           "oat drink", "coconut cream", "aquafaba", "orgeat"}) {
    INFO(name);
    CHECK(vegan_in_library(name) == Answer::yes);
  }
}

TEST_CASE("a prep and a drink are what goes in, through preps to any depth", "[origin]") {
  auto house = evaluate(
      "prep duck rye\n  700 ml rye whiskey\n  100 g duck fat\n  rest 4 h at 20 C\n  freeze 12 h\n"
      "  remove duck fat\n  fine strain\n\n"
      "drink A\n  60 ml duck rye\n  stir 30 s\n  strain\n  garnish none\n\n"
      "drink B\n  60 ml rye whiskey\n  stir 30 s\n  strain\n  garnish none\n\n"
      "drink C\n  60 ml rye whiskey\n  15 ml simple syrup, or honey syrup\n  stir 30 s\n  strain\n"
      "  garnish none\n\n"
      "drink D\n  60 ml rye whiskey\n  stir 30 s\n  strain\n  garnish candied bacon\n");
  CHECK(vegan(house.drink("A").origins) == Answer::no);
  CHECK(vegetarian(house.drink("A").origins) == Answer::no);
  CHECK(vegan(house.drink("B").origins) == Answer::yes);
  CHECK(vegan(house.drink("C").origins) == Answer::not_known);
  CHECK(vegetarian(house.drink("C").origins) == Answer::yes);
  CHECK(vegan(house.drink("D").origins) == Answer::no);
}

TEST_CASE("a house says where its own things come from, and takes the library's word else", "[origin]") {
  auto house = evaluate(
      "ingredient unfined white like dry white wine\n  origin plant\n\n"
      "ingredient house bottle\n  kind liqueur\n  strength 20 % abv\n  allergen none\n\n"
      "ingredient Quay gin\n  kind spirit\n  strength 42 % abv\n  allergen none\n\n"
      "ingredient lecithin foam\n  kind additive\n  origin plant\n  allergen may milk\n\n"
      "ingredient shrug\n  kind syrup\n  sugar 60 % w/v\n  origin not known\n");
  CHECK(vegan(house.stock("unfined white").origins) == Answer::yes);
  CHECK(vegan(house.stock("house bottle").origins) == Answer::not_known);
  CHECK(vegan(house.stock("Quay gin").origins) == Answer::yes);
  CHECK(vegan(house.stock("lecithin foam").origins) == Answer::not_known);
  CHECK(vegan(house.stock("shrug").origins) == Answer::not_known);
}

TEST_CASE("a garnish that nothing declares is not known", "[origin]") {
  auto house = evaluate("drink A\n  60 ml rye whiskey\n  stir 30 s\n  strain\n  garnish lacquered wing\n");
  CHECK(vegan(house.drink("A").origins) == Answer::not_known);
}

#include "costing/words.h"

#include <catch2/catch.hpp>

#include "unit/plan/plan_fixture.h"

using namespace gill;
using namespace gill::costing;
using gill::testing::EvaluatedHouse;

TEST_CASE("an amount is told in the measure that suits it: volume before pieces before weight") {
  CHECK(amount_text(540, 560, 3) == "540 ml");
  CHECK(amount_text(std::nullopt, 560, 3) == "3");
  CHECK(amount_text(0, 560, 0) == "560 g");
  CHECK(amount_text(0, 560, 48) == "48");
}

TEST_CASE("an amount goes over to litres and kilograms where a rounded thousand would stand") {
  CHECK(amount_text(999.4, 0, 0) == "999 ml");
  CHECK(amount_text(999.5, 0, 0) == "1 l");
  CHECK(amount_text(1084, 0, 0) == "1.08 l");
  CHECK(amount_text(std::nullopt, 999.4, 0) == "999 g");
  CHECK(amount_text(std::nullopt, 999.5, 0) == "1 kg");
  CHECK(amount_text(std::nullopt, 2456, 0) == "2.46 kg");
}

TEST_CASE("below ten an amount keeps a tenth, from ten on none") {
  CHECK(amount_text(9.94, 0, 0) == "9.9 ml");
  CHECK(amount_text(10.4, 0, 0) == "10 ml");
  CHECK(amount_text(std::nullopt, 9.94, 0) == "9.9 g");
  CHECK(amount_text(std::nullopt, 10.4, 0) == "10 g");
  CHECK(amount_text(std::nullopt, 0, 0) == "0 g");
}

TEST_CASE("a part of a piece is a whole one, and rounding makes no piece more") {
  CHECK(amount_text(std::nullopt, 5, 2.1) == "3");
  CHECK(amount_text(std::nullopt, 5, 2 + 1e-9) == "2");
  CHECK(amount_text(std::nullopt, 5, 0.2) == "1");
}

TEST_CASE("a name is quoted exactly where Gill would read it as something else") {
  for (const char* plain : {"rye whiskey", "Père's", "crème de cassis", "gin (dry)", "A & B", "B/52",
                            "St. Croix", "likely", "Père’s 2 sœurs", "ゆず"}) {
    INFO(plain);
    CHECK(gill_name(plain) == plain);
  }
  for (const char* odd : {"tea for two", "rum or gin", "syrup of figs", "gin like no other", "out to lunch",
                          "five at noon", "For Two of us", "a, b", "a # b", "50 ml", "7-up",
                          "Warm Deck — hot", "Gull – Two", "½ Tank", "Night → Day", "Salt “n” Smoke"}) {
    INFO(odd);
    CHECK(gill_name(odd) == "\"" + std::string(odd) + "\"");
  }
  CHECK(gill_name("") == "\"\"");
  CHECK(gill_name("the \"best\" gin") == "the 'best' gin");
}

TEST_CASE("text is brought onto one line, without what a Gill file refuses") {
  CHECK(one_line("two\n\tlines\r\nhere") == "two lines here");
  CHECK(one_line("a\x7F"
                 "b") == "a b");
  CHECK(one_line("caf\xC3\xA9") == "caf\xC3\xA9");
  CHECK(one_line("bad \xFF byte") == "bad ? byte");
}

TEST_CASE("a week begins on Monday") {
  CHECK(weekday_name(0) == "Monday");
  CHECK(weekday_name(6) == "Sunday");
  CHECK(weekday_name(7) == "Monday");
}

TEST_CASE("a menu line sells what it says of a day, and on other days what it says of all") {
  analysis::MenuEntry entry;
  CHECK(sells_in_a_week(entry) == 0);
  entry.sells = 10;
  entry.sells_on[5] = 40;
  CHECK(sells_on(entry, 0) == 10);
  CHECK(sells_on(entry, 5) == 40);
  CHECK(sells_on(entry, 6) == 10);
  CHECK(sells_in_a_week(entry) == 100);
}

TEST_CASE("a menu is found by its name, and one that is not there is told with those that are") {
  const std::string drinks = "drink Neat\n  glass rocks\n  50 ml vodka\n  stir 20 s\n  strain\n";
  EvaluatedHouse house(
      drinks + "menu Early\n  section All\n    Neat at 9 EUR\nmenu Late\n  section All\n    Neat at 9 EUR\n");
  CHECK(std::get<analysis::MenuId>(find_menu(house.house, "Late")) == house.menu("Late"));
  CHECK_FALSE(std::get<analysis::MenuId>(find_menu(house.house, " ")).valid());
  CHECK(std::get<std::string>(find_menu(house.house, "Noon")) ==
        "There is no menu called `Noon`; the house has `Early` and `Late`.");
  EvaluatedHouse bare(drinks);
  CHECK(std::get<std::string>(find_menu(bare.house, "Noon")) ==
        "There is no menu called `Noon`: the house declares none.");
}

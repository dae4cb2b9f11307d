// What cannot be read is said at its exact words, with what to write instead; the rest of the file stands.
#include <catch2/catch.hpp>

#include "support/fixture.h"

using gill::testing::compile;
using gill::testing::expect_findings;
using gill::testing::findings;
using gill::testing::in_drink;
using gill::testing::in_prep;

namespace {

void in_ingredient(const std::string& expected, const std::string& line) {
  expect_findings("ingredient X\n  kind syrup\n  # error: " + expected + "\n  " + line + "\n");
}

void in_house(const std::string& expected, const std::string& line) {
  expect_findings("house H\n  # error: " + expected + "\n  " + line + "\n");
}

}  // namespace

TEST_CASE("an unknown name is met with the nearest known one", "[errors]") {
  in_drink("9-12 [unknown-name] `lemon juice`", "30 ml lemmon juice");
  in_drink("9-10 [unknown-name] Declare it", "30 ml xylophones");
  in_drink("9-5 [unknown-name] `coupe`", "glass coupé");
  in_drink("10-4 [unknown-name] `sour`", "family soar");
  in_drink("19-8 [unknown-name] `crushed`", "shake 10 s with crusheed");
  in_drink("7-9 [unknown-name] Declare it", "ice xylophone");
  in_drink("7-9 [unknown-name]", "cup xylophone");
  in_drink("9-9 [unknown-name] `absinthe`", "rinse absynthe2");
  in_drink("25-9 [unknown-name]", "60 ml rye whiskey, or xylophone");
  in_drink("11-9 [unknown-name]", "batched xylophone");
  in_prep("10-9 [unknown-name]", "remove xylophone");
  in_ingredient("15-9 [unknown-name]", "gives 45 ml xylophone");
  expect_findings(
      "prices P\n"
      "  # error: 3-9 [unknown-name]\n"
      "  xylophone 1 l for 20 EUR\n"
      "menu M\n"
      "  # error: 3-9 [unknown-name]\n"
      "  xylophone at 14 EUR\n");
}

TEST_CASE("an unknown word is met with the nearest known one", "[errors]") {
  in_drink("3-5 [unknown-word] `glass`", "galss coupe");
  in_drink("3-5 [unknown-word] `shake`", "shaek 12 s");
  in_drink("3-6 [unknown-word] `double strain`", "dobule strain");
  in_drink("10-9 [unknown-word] `strength`", "expect strenghth 12..14 % abv");
  in_drink("10-5 [unknown-word] `draft`", "status drafd");
  in_prep("3-5 [unknown-word] `makes`", "maeks 600 ml");
  in_prep("14-6 [unknown-word] `chilled`", "keeps 30 d chiled");
  in_ingredient("3-8 [unknown-word] `strength`", "strenght 40 % abv");
  in_ingredient("8-6 [unknown-word] `spirit`", "kind spirti");
  in_ingredient("8-5 [unknown-word] `solid`", "form soled");
  in_ingredient("9-4 [unknown-word] yes", "foams yeah");
  in_ingredient("16-7 [unknown-word] `citric`", "acid 6 % w/v citrick");
  in_house("3-6 [unknown-word] `fridge`", "frigde 4 C");
  in_house("12-6 [unknown-word] included", "tax 20 % inside");
  expect_findings(
      "glass G\n"
      "  # error: 3-4 [unknown-word] `holds`\n"
      "  hold 200 ml\n"
      "ice I\n"
      "  # error: 3-5 [unknown-word] `melt`\n"
      "  melts 100 %\n"
      "family F\n"
      "  # error: 3-8 [unknown-word] `balance`\n"
      "  ballance 4..9\n"
      "drink X\n"
      "menu M\n"
      "  # error: 16-7 [unknown-word] sells 40\n"
      "  X at 14 EUR, sels 40\n");
}

TEST_CASE("a quantity of another kind says what is taken, what it is, and an example", "[errors]") {
  in_drink("9-5 [wrong-kind] a shake takes a time, and 30 ml is a volume", "shake 30 ml");
  in_drink("9-4 [wrong-kind] a stir takes a time", "stir  30 g");
  in_drink("11-4 [wrong-kind] a heat takes a temperature", "heat to 30 s");
  in_drink("16-5 [wrong-kind]", "carbonate to 2 bar");
  in_drink("3-4 [wrong-kind] an amount is a volume, a mass or a count", "30 s rye whiskey");
  in_drink("3-6 [wrong-kind]", "14 EUR rye whiskey");
  in_drink("3-4 [wrong-kind]", "20 C water");
  in_drink("18-4 [wrong-kind] `at` takes a temperature", "60 ml milk, at 20 s");
  in_drink("8-4 [wrong-kind] `size` takes a volume", "size 90 g");
  in_drink("19-9 [wrong-kind] `strength` takes a strength", "expect strength 12..14 ml");
  in_drink("10-4 [wrong-kind]", "serves 4 ml");
  in_drink("9-4 [wrong-kind] a throw takes a count", "throw 30 s");
  in_drink("19-4 [wrong-kind] counted, weighed or scooped", "shake 12 s with 30 s cubed");
  in_drink("10-5 [wrong-kind]", "strain 30 ml");
  in_prep("9-4 [wrong-kind] `makes` takes a volume, a mass or a count", "makes 30 s");
  in_prep("9-4 [wrong-kind] `keeps` takes a time", "keeps 30 g chilled");
  in_prep("9-4 [wrong-kind]", "takes 30 g");
  in_prep("13-5 [wrong-kind]", "reduce by 30 ml");
  in_prep("13-4 [wrong-kind]", "reduce to 30 %");
  in_prep("25-4 [wrong-kind]", "remove water, keeping 30 g");
  in_prep("14-4 [wrong-kind]", "until acid 6 ml water");
  in_ingredient("12-5 [wrong-kind] `strength` takes a strength, and 40 ml is a volume", "strength 40 ml");
  in_ingredient("11-4 [wrong-kind]", "density 40 g");
  in_ingredient("8-3 [wrong-kind] `each` takes a mass or a volume", "each 3 s");
  in_ingredient("8-5 [wrong-kind]", "fizz 3 bar");
  in_ingredient("9-4 [wrong-kind]", "waste 3 ml");
  in_house("10-5 [wrong-kind] `fridge` takes a temperature", "fridge 4 bar");
  in_house("12-4 [wrong-kind]", "measures 30 s");
  in_house("13-5 [wrong-kind]", "strongest 40 ml");
  expect_findings(
      "glass G\n"
      "  # error: 9-5 [wrong-kind] `holds` takes a volume\n"
      "  holds 200 g\n"
      "ice I\n"
      "  # error: 8-5 [wrong-kind]\n"
      "  each 30 ml\n"
      "family F\n"
      "  # error: 10-9 [wrong-kind]\n"
      "  volume 90..120 g\n");
}

TEST_CASE("a bare per cent after sugar or acid asks of what", "[errors]") {
  in_ingredient("9-4 [wrong-kind] `% w/v`", "sugar 50 %");
  in_ingredient("8-3 [wrong-kind] `% w/w`", "acid 6 %");
}

TEST_CASE("a bare number where a unit is needed is of the wrong kind", "[errors]") {
  in_ingredient("12-2 [wrong-kind] `40 % abv`", "strength 40");
  in_drink("9-2 [wrong-kind] `12 s`", "shake 12");
  in_house("10-1 [wrong-kind] `4 C`", "fridge 4");
}

TEST_CASE("an unknown unit is met with the nearest known one", "[errors]") {
  in_ingredient("15-4 [unknown-unit] `g/ml`", "density 1.4 g/mi");
  in_prep("13-3 [unknown-unit] `ml`", "makes 600 mlx");
  in_prep("11-4 [unknown-unit] several things", "makes 2 cups");
  in_drink("21-5 [unknown-unit] `proof us`", "alcohol ..0.5     proof");
}

TEST_CASE("a bad number is said at it", "[errors]") {
  in_drink("3-39 [bad-number] 38 digits", std::string(39, '6') + " ml rye whiskey");
  in_drink("3-3 [bad-number] zero", "1/0 oz rye whiskey");
  in_drink("3-6 [bad-number] `15..20`", "20..15 ml rye whiskey");
  in_drink("3-3 [bad-number] sign", "-60 ml rye whiskey");
  in_drink("11-3 [bad-number]", "60 ml ± rye whiskey");
  in_drink("10-1 [bad-number]", "serves 0");
  in_prep("9-4 [bad-number]", "makes 0 ml");
  in_ingredient("7-15 [bad-number]", "buy 0 ml for 10 EUR");
}

TEST_CASE("an amount says of what", "[errors]") {
  in_drink("3-5 [bad-line] of what?", "60 ml");
  in_drink("3-5 [bad-line] of what?", "60 ml, chilled");
  in_drink("9-1 [bad-line] second measure", "60 ml = rye whiskey");
  in_drink("3-18 [bad-line] nothing is named", "until acid 6 % w/v");
  in_drink("9-5 [unknown-word] acid, sugar or strength", "until fizzy 3 vol water");
  in_drink("22-3 [wrong-kind] parts", "until acid 6 % w/v 2 g citric acid, 1 part malic acid");
  in_drink("15-2 [bad-line] name", "60 ml milk, or");
}

TEST_CASE("what is more than a line takes is said at it", "[errors]") {
  in_drink("19-5 [bad-line] more than this line takes", "size 90 ml      extra");
  in_drink("20-5 [bad-line]", "since 2026-01-01 again");
  in_drink("10-8 [bad-line] comma", "strain sideways");
  in_drink("15-8 [bad-line] comma", "shake 12 s  sideways");
  in_prep("17-5 [bad-line]", "makes 610 ml  extra");
  in_ingredient("17-5 [bad-line]", "strength 40 % extra");
  in_house("15-5 [bad-line]", "fridge 4 C  extra");
}

TEST_CASE("a line that lacks its argument is said at it", "[errors]") {
  in_drink("3-5 [bad-line] of what", "rinse");
  in_drink("3-3 [bad-line] of what", "top");
  in_drink("3-5 [bad-line]", "float");
  in_drink("3-7 [bad-line]", "garnish");
  in_drink("3-2 [bad-line] words", "do");
  in_drink("3-5 [bad-line]", "serve");
  in_drink("3-5 [bad-line]", "glass");
  in_drink("3-6 [bad-line]", "family");
  in_drink("3-6 [bad-line]", "expect");
  in_drink("3-15 [bad-line]", "expect strength");
  in_drink("3-10 [bad-line]", "right when");
  in_drink("3-5 [bad-line]", "guest");
  in_drink("3-5 [bad-line] 2026-09-15", "since");
  in_drink("3-6 [bad-line]", "tasted");
  in_drink("3-6 [bad-line]", "status");
  in_drink("3-6 [bad-line]", "serves");
  in_drink("3-7 [bad-line]", "alcohol");
  in_prep("3-5 [bad-line]", "makes");
  in_prep("3-6 [bad-line] of what", "remove");
  in_ingredient("3-8 [bad-line]", "allergen");
  in_ingredient("3-12 [bad-line]", "allergen may");
  in_ingredient("3-4 [bad-line]", "kind");
  in_ingredient("3-4 [bad-line]", "each");
  in_ingredient("3-3 [bad-line]", "buy");
  in_house("3-8 [bad-line]", "measures");
  in_house("3-5 [bad-line]", "place");
  in_house("3-4 [bad-line]", "show");
}

TEST_CASE("what a float, a layer or a mist is of has an amount", "[errors]") {
  in_drink("3-5 [bad-line] `float 15 ml cream`", "float cream");
  in_drink("3-5 [bad-line] `layer 15 ml cream`", "layer cream");
  in_drink("3-4 [bad-line] `mist 2 absinthe`", "mist absinthe");
}

TEST_CASE("a step of a prep is no step of a drink, and the other way round", "[errors]") {
  in_drink("3-5 [unknown-word] step of a prep", "steep 5 min");
  in_drink("3-6 [unknown-word]", "bottle 700 ml");
  in_prep("3-5 [unknown-word] step of a drink", "build");
  in_prep("3-7 [unknown-word]", "garnish lemon twist");
}

TEST_CASE("a buy line says a pack and its price", "[errors]") {
  in_ingredient("3-8 [bad-line] for", "buy 1 kg");
  in_ingredient("16-4 [wrong-kind] no currency", "buy 1 kg for 9.50");
  in_ingredient("25-5 [bad-line]", "buy 1 kg for 9.50 EUR extra");
  in_ingredient("7-4 [wrong-kind]", "buy 20 s for 10 EUR");
}

TEST_CASE("a date is a day of the calendar", "[errors]") {
  in_drink("9-10 [bad-line] calendar", "since 2026-13-01");
  in_drink("9-10 [bad-line] calendar", "since 2026-02-30");
  in_drink("9-10 [bad-line] calendar", "since 2025-02-29");
  in_drink("9-9 [bad-line] 2026-09-15", "since yesterday");
  CHECK(findings("drink X\n  since 2024-02-29\n").empty());
  expect_findings(
      "menu M\n"
      "  # error: 3-29 [bad-line] after its first\n"
      "  runs 2026-12-01 .. 2026-09-15\n");
}

TEST_CASE("a colour has six digits", "[errors]") {
  in_ingredient("10-4 [bad-line] six digits", "colour #abc");
  in_ingredient("10-7 [bad-line] six digits", "colour #gggggg");
  in_ingredient("3-6 [bad-line]", "colour # later");
}

TEST_CASE("a code is letters of its length", "[errors]") {
  in_house("9-7 [unknown-word] `place GB`", "place Britain");
  in_house("12-4 [unknown-word] `currency EUR`", "currency euro");
}

TEST_CASE("shown columns are volumes or masses", "[errors]") {
  in_house("8-1 [wrong-kind]", "show s, ml");
  in_house("8-5 [unknown-unit]", "show mills");
}

TEST_CASE("rates, taxes and price steps have their form", "[errors]") {
  in_house("3-10 [bad-line] equals", "rate 1 USD");
  in_house("3-21 [bad-number]", "rate 0 USD = 0.92 EUR");
  in_house("7-4 [wrong-kind]", "tax 20 g included");
}

TEST_CASE("a shape runs from the bottom up", "[errors]") {
  expect_findings(
      "glass G\n"
      "  # error: 33-4 [bad-line] bottom up\n"
      "  shape 60 mm at 0 mm, 80 mm at 0 mm\n"
      "glass H\n"
      "  # error: 3-19 [bad-line] two points\n"
      "  shape 60 mm at 0 mm\n"
      "glass I\n"
      "  # error: 9-5 [bad-line] how wide\n"
      "  shape 60 mm, 80 mm\n");
}

// ---- allow

TEST_CASE("an allow names a rule and gives a reason", "[errors]") {
  in_drink("3-13 [no-reason] because", "allow raw-egg");
  in_drink("3-21 [no-reason]", "allow raw-egg because");
  in_drink("3-24 [no-reason]", "allow raw-egg because \"\"");
  in_drink("9-6 [unknown-word] `raw-egg`", "allow rawegg because \"x\"");
  in_drink("3-5 [unknown-word]", "allow");
  CHECK(findings("drink X\n  allow Raw-Egg because \"the menu says so\"\n").empty());
  CHECK(findings("drink X\n  allow raw-egg because the menu says so\n").empty());
}

TEST_CASE("errors of language and units cannot be allowed, notes of units can", "[errors]") {
  in_drink("9-10 [bad-line] cannot be allowed", "allow wrong-kind because \"x\"");
  in_drink("9-12 [bad-line] cannot be allowed", "allow unknown-name because \"x\"");
  CHECK(findings("drink X\n  allow off-measure because \"x\"\n  allow unlikely-amount because \"y\"\n")
            .empty());
  CHECK(findings("drink X\n  allow unmet-expectation because \"x\"\n").empty());
}

// ---- what stands in spite of errors

TEST_CASE("every bad line of every file is reported in one run, and the rest is read", "[errors]") {
  auto compiled = gill::testing::compile_files(
      {{"a.gill",
        "drink X\n  60 mll rye whiskey\n  30 ml lemon juice\n  shake 30 ml\n  glas coupe\n  strain\n"},
       {"b.gill", "ingredient Y\n  strength 40\n  density 0.9 g/ml\n"}});
  CHECK(findings(compiled) == std::vector<std::string>{"unknown-unit 2:6-3", "wrong-kind 4:9-5",
                                                       "unknown-word 5:3-4", "wrong-kind 2:12-2"});
  CHECK(compiled.drink("X").recipe.amounts.size() == 1);
  CHECK(compiled.drink("X").recipe.steps.size() == 1);
  CHECK(compiled.stock("Y").density);
}

TEST_CASE("a drink knows whether an amount of it is in error", "[errors]") {
  auto broken = [](const std::string& line) {
    return compile("drink X\n  30 ml lemon juice\n  " + line + "\n").drink("X").head;
  };
  for (const char* line : {"60 mll rye whiskey", "60 ml xylophone", "1-1/2 oz rye whiskey", "pinch salt",
                           "a barspoon of xylophone", "juice of 1/2 xylophone", "6\x07 ml gin", "float cream",
                           "top xylophone", "60 quux", "-60 ml rye whiskey"}) {
    INFO(line);
    CHECK(broken(line).has_errors);
    CHECK(broken(line).has_amount_errors);
  }
  for (const char* line : {"glas coupe", "shake 30 ml", "expect strength 12 ml", "hard shake"}) {
    INFO(line);
    CHECK(broken(line).has_errors);
    CHECK_FALSE(broken(line).has_amount_errors);
  }
  CHECK_FALSE(broken("shake 12 s").has_errors);
}

TEST_CASE("a variation is as broken as what it is like", "[errors]") {
  auto compiled = compile("drink A\n  60 mll rye whiskey\ndrink B like A\n");
  CHECK(compiled.drink("B").head.has_amount_errors);
}

TEST_CASE("a bad byte is a bad line at its place, and the drink's other lines stand", "[errors]") {
  auto compiled = compile("drink X\n  60 ml cr\xe8me\n  30 ml lemon juice\n");
  CHECK(findings(compiled) == std::vector<std::string>{"bad-line 2:11-1"});
  CHECK(compiled.drink("X").recipe.amounts.size() == 1);
  CHECK(compiled.drink("X").head.has_amount_errors);
}

TEST_CASE("only allergen lists that somebody wrote down are taken", "[errors]") {
  for (const char* list : {"EU", "UK", "GB", "US", "CA", "AU", "NZ"}) {
    INFO(list);
    CHECK(findings(compile(std::string("house H\n  allergen list ") + list + "\n")).empty());
  }
  in_house("17-2 [unknown-word] EU, UK, US, CA, AU, NZ", "allergen list XY");
  in_house("17-2 [unknown-word] EU, UK, US, CA, AU, NZ", "allergen list BR");
  CHECK(compile("house H\n  allergen list gb\n").specs.house.allergen_list == "UK");
}

TEST_CASE("a place is a country of ISO 3166", "[errors]") {
  for (const char* place : {"GB", "FR", "AU", "US", "ZW", "AD"}) {
    INFO(place);
    CHECK(findings(compile(std::string("house H\n  place ") + place + "\n")).empty());
  }
  in_house("9-2 [unknown-word] `place GB`", "place UK");
  in_house("9-2 [unknown-word] ISO 3166", "place XX");
}

TEST_CASE("an origin is one of the words", "[errors]") {
  in_ingredient("10-5 [unknown-word] `plant`", "origin plnat");
  in_ingredient("10-9 [unknown-word] bees or animal", "origin vegetable");
  for (const char* line :
       {"origin plant", "origin may be animal", "origin milk, may be animal", "origin not known"}) {
    INFO(line);
    CHECK(findings(compile(std::string("ingredient X\n  kind syrup\n  ") + line + "\n")).empty());
  }
}

TEST_CASE("a price that a menu does not understand is answered as a price", "[menu]") {
  expect_findings(
      "drink Bowl\n  serves 10\n"
      "house H\n  currency GBP\n"
      "menu M\n"
      "  # error: 11-1 [bad-number] Write `Bowl at 6 GBP`\n"
      "  Bowl at 6, sells 10\n"
      "  # error: 11-2 [bad-number] Write `Bowl at 6 GBP`\n"
      "  Bowl at £6\n"
      "  Bowl at 95 GBP a bowl\n"
      "drink Short\n  50 ml vodka\n"
      "menu N\n"
      "  # error: 3-5 [bad-number] Add `serves 10` to the drink\n"
      "  Short at 95 GBP a bowl\n"
      "prices p\n"
      "  # error: 3-15 [bad-number] `from 2026-03-01`\n"
      "  from 01.03.2026\n");
}

TEST_CASE("a word with several meanings is asked about in its plural, too, wherever it stands", "[errors]") {
  for (const char* line : {"Syrups", "syrup", "Bitters", "creams"}) {
    INFO(line);
    auto found = findings(std::string("drink A\n  50 ml London dry gin\n  ") + line + "\n");
    CHECK(found.size() == 1);
  }
}

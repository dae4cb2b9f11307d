// What people really write, and what the message offers instead: the finding is at the exact words, and its
// message or help holds the fix.
#include <catch2/catch.hpp>

#include "support/fixture.h"

using gill::testing::compile;
using gill::testing::expect_findings;
using gill::testing::in_drink;
using gill::testing::in_prep;

TEST_CASE("a dash between a whole and a fraction", "[near miss]") {
  in_drink("3-8 [bad-number] `1 1/2 oz`", "1-1/2 oz rye whiskey");
  in_drink("3-8 [bad-number] `2 3/4 oz`", "2-3/4 oz rye whiskey");
}

TEST_CASE("a dash in a range", "[near miss]") {
  in_drink("9-7 [bad-number] `10..12 s`", "shake 10-12 s");
  in_drink("9-9 [bad-number] `10..12 s`", "shake 10 – 12 s");
  in_drink("3-8 [bad-number] `15..20 ml`", "15—20 ml rye whiskey");
  in_drink("19-11 [bad-number] `11..14 % abv`", "expect strength 11-14 % abv");
}

TEST_CASE("a decimal comma", "[near miss]") {
  in_drink("3-7 [bad-number] `22.5 ml`", "22,5 ml lemon juice");
  in_drink("3-6 [bad-number] `7.5 ml`", "7,5 ml lemon juice");
}

TEST_CASE("a comma that parts thousands", "[near miss]") {
  in_prep("3-8 [bad-number] `1000 ml`", "1,000 ml water");
  in_prep("9-8 [bad-number] `1500 ml`", "makes 1,500 ml");
}

TEST_CASE("a second measure in brackets", "[near miss]") {
  in_drink("3-12 [bad-line] `60 ml = 2 oz`", "60 ml (2 oz) rye whiskey");
  in_drink("3-11 [bad-line] `2 oz = 60ml`", "2 oz (60ml) rye whiskey");
  in_drink("3-16 [bad-line] `3/4 oz = 22.5 ml`", "3/4 oz (22.5 ml) rye whiskey");
}

TEST_CASE("juice of a fruit that gives none", "[near miss]") {
  in_drink("3-15 [bad-line] volume", "juice of 1 mint");
}

TEST_CASE("an item word or a loose unit without its number", "[near miss]") {
  in_drink("3-5 [bad-line] `1 pinch salt`", "pinch salt");
}

TEST_CASE("how before what", "[near miss]") {
  in_drink("3-4 [unknown-word] `shake 12 s, hard`", "hard shake");
  in_drink("3-6 [unknown-word] `muddle, gently`", "gently muddle");
}

TEST_CASE("a name turned round", "[near miss]") {
  in_drink("9-7 [unknown-name] `rye whiskey`", "60 ml whiskey, rye");
  in_drink("9-5 [unknown-name] `lemon juice`", "60 ml juice, lemon");
}

TEST_CASE("a stand-in without its comma", "[near miss]") {
  in_drink("9-26 [unknown-name] `honey syrup, or maple syrup`", "15 ml honey syrup or maple syrup");
}

TEST_CASE("a colon after a keyword", "[near miss]") {
  in_drink("8-1 [bad-line] colon", "glass: coupe");
  in_drink("8-1 [bad-line] colon", "shake: 12 s");
  in_drink("10-1 [bad-line] colon", "garnish: lemon twist");
  in_drink("9-1 [bad-line] colon", "family: sour");
  in_drink("13-1 [bad-line] colon", "right when: \"cold\"");
  in_drink("9-1 [bad-line] colon", "expect: strength 11..14 % abv");
  in_drink("8-1 [bad-line] colon", "allow: raw-egg because \"x\"");
  in_drink("8-1 [bad-line] colon", "60 ml: rye whiskey");
  in_drink("5-1 [bad-line] colon", "do: wait");
  in_prep("8-1 [bad-line] colon", "keeps: 3 d chilled");
  expect_findings(
      "house\n"
      "  # error: 15-1 [bad-line] colon\n"
      "  alcohol unit: UK\n"
      "menu M\n"
      "  # error: 7-1 [bad-line] colon\n"
      "  runs: 2026-09-15 .. 2026-12-01\n"
      "  # error: 10-1 [bad-line] colon\n"
      "  section: Short\n"
      "drink A\n"
      "drink B like A\n"
      "  # error: 7-1 [bad-line] colon\n"
      "  swap: a -> b\n");
}

TEST_CASE("typographic quotes", "[near miss]") {
  in_drink("9-13 [bad-line] straight quotes", "60 ml “rye whiskey”");
  in_drink("14-6 [bad-line] straight quotes", "right when “cold”");
  in_drink("9-5 [bad-line] straight quotes", "guest „Rye“");
  in_drink("25-8 [bad-line] straight quotes", "allow raw-egg because “reason”");
  in_drink("3-5 [bad-line] straight quotes", "“Rye”");
}

TEST_CASE("a quote that is not closed", "[near miss]") {
  in_drink("9-12 [bad-line] closing", "60 ml \"rye whiskey");
  in_drink("14-5 [bad-line] closing", "right when \"cold");
  in_drink("6-5 [bad-line] closing", "do \"wait");
  in_drink("9-5 [bad-line] closing", "serve \"warm");
  in_drink("10-5 [bad-line] closing", "shake, \"hard");
}

TEST_CASE("a currency in small letters or as a sign", "[near miss]") {
  expect_findings(
      "drink X\n"
      "menu M\n"
      "  # error: 11-3 [wrong-kind] `EUR`\n"
      "  X at 14 eur\n"
      "prices P\n"
      "  # error: 26-3 [wrong-kind] `EUR`\n"
      "  rye whiskey 1 l for 20 eur\n");
}

TEST_CASE("names of two meanings are never guessed", "[near miss]") {
  in_drink("9-11 [unknown-name] `simple syrup`", "15 ml sugar syrup");
  in_drink("9-7 [unknown-name] `lime cordial`", "15 ml cordial");
  in_drink("9-8 [unknown-name] `sparkling lemonade`", "60 ml lemonade");
  in_drink("9-5 [unknown-name] `dry cider`", "60 ml cider");
  in_drink("9-16 [unknown-name] `coconut cream`", "30 ml cream of coconut");
}

TEST_CASE("an allergen that does not say which is meant", "[near miss]") {
  auto ingredient = [](const std::string& expected, const std::string& line) {
    expect_findings("ingredient X\n  kind syrup\n  # error: " + expected + "\n  " + line + "\n");
  };
  ingredient("12-6 [unknown-word] `cereals: wheat`", "allergen gluten");
  ingredient("12-5 [unknown-word] `milk`", "allergen dairy");
  ingredient("12-9 [unknown-word] `crustaceans` or `molluscs`", "allergen shellfish");
  ingredient("12-4 [unknown-word] `nuts: almond`", "allergen nuts");
  ingredient("16-6 [unknown-word] `cereals: wheat`", "allergen may gluten");
  ingredient("17-6 [unknown-word] `cereals: wheat`", "allergen egg, gluten");
  expect_findings("drink X\n  # error: 20-6 [unknown-word] `cereals: wheat`\n  expect allergens gluten\n");
}

TEST_CASE("an allergen that is misspelt is met with the right word", "[near miss]") {
  auto ingredient = [](const std::string& expected, const std::string& line) {
    expect_findings("ingredient X\n  kind syrup\n  # error: " + expected + "\n  " + line + "\n");
  };
  ingredient("12-4 [unknown-word] `egg`", "allergen eggs");
  ingredient("12-6 [unknown-word] `sesame`", "allergen sesamy");
  ingredient("12-8 [unknown-word] `sulphites`", "allergen sulfites");
  ingredient("12-3 [unknown-word] `soybeans`", "allergen soy");
  ingredient("12-6 [unknown-word] `nuts: almond`", "allergen almond");
  ingredient("12-5 [unknown-word] `cereals: wheat`", "allergen wheat");
  ingredient("12-13 [unknown-word] `nuts: almond`", "allergen nuts: almonds");
  ingredient("12-12 [unknown-word] `cereals: oats`", "allergen cereals: oat");
  for (const char* own : {"coconut", "pine nut", "kiwi", "corn", "celeriac", "peach", "nuts: chestnut",
                          "cereals: spelt", "chickpea", "honey"}) {
    INFO(own);
    CHECK(
        gill::testing::findings("ingredient X\n  kind syrup\n  allergen " + std::string(own) + "\n").empty());
  }
}

TEST_CASE("a misspelt unit before a known name", "[near miss]") {
  in_drink("6-3 [unknown-unit] `ml`", "60 mll rye whiskey");
  in_drink("5-6 [unknown-unit] `dash`", "2 dahses orange bitters");
  in_drink("5-4 [unknown-unit] two things", "1 pint soda water");
  in_drink("12-4 [unknown-unit]", "shake 12 secx");
}

TEST_CASE("a word of the trade is no slip of another word", "[near miss]") {
  for (const char* line :
       {"tin", "1 can soda water", "2 caps soda water", "60 ml cherry sirop de gomme liqueur"}) {
    auto compiled = compile(std::string("drink X\n  60 ml vodka\n  ") + line + "\n");
    INFO(line);
    REQUIRE_FALSE(compiled.sink.all().empty());
    for (const auto& finding : compiled.sink.all()) {
      INFO(finding.help);
      CHECK(finding.help.find("Did you mean") == std::string::npos);
      CHECK_FALSE((finding.fix && finding.fix->safe));
    }
  }
}

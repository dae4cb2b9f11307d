// How bars write their specs down: the habits, the drinks and the bars are made up.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <sstream>
#include <stdexcept>

#include "importer/import_specs.h"
#include "support/sanitized.h"
#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::check_lines;
using gill::testing::errors_in;
using gill::testing::library;
using gill::testing::lost_words;

TEST_CASE("drinks that stand one below the other without a blank line are drinks each", "[new]") {
  Brought brought(
      "Kiln Sour\n60 ml rye whiskey\n25 ml lemon juice\n20 ml honey syrup\nshake, strain, coupe\n"
      "Brick Fizz\n45 ml gin\n20 ml lime juice\nshake, strain\ntop with soda water\n"
      "Slate\n60 ml bourbon\n2 dashes aromatic bitters\nstir 20 s\nstrain\norange twist\n"
      "Reed\n30 ml vodka\n30 ml lime juice\nshake\n");
  check_lines(brought, {"drink Kiln Sour", "drink Brick Fizz", "drink Slate", "drink Reed", "glass coupe",
                        "top with soda water", "garnish orange twist"});
  CHECK(brought.specs.drinks == 4);
  CHECK(brought.specs.text.find("honey syrup") < brought.specs.text.find("drink Brick Fizz"));
}

TEST_CASE("a name that says more, or is a glass's as well, begins its drink", "[new]") {
  Brought brought(
      "Winter list\n\nOld Fashioned\n60 ml bourbon\n1 sugar cube\nstir\n\n86'd: Velvet Rope\n40 ml aged "
      "rum\nshake\n\n"
      "CLAY JAR / nick and nora / lemon twist\n60 ml gin\n10 ml dry vermouth\nstir\n");
  check_lines(brought, {"# Winter list", "drink Old Fashioned", "drink \"86'd: Velvet Rope\"",
                        "drink CLAY JAR", "glass nick and nora", "garnish lemon twist"});
  CHECK(brought.specs.drinks == 3);
}

TEST_CASE("a note between two drinks stays with the one above it, and is told", "[new]") {
  Brought brought(
      "Kiln Sour\n60 ml rye whiskey\n25 ml lemon juice\nshake, strain\nronan pours less on mondays\n"
      "Brick Fizz\n45 ml gin\n20 ml lime juice\nshake\n");
  check_lines(brought, {"drink Kiln Sour", "drink Brick Fizz", "# ronan pours less on mondays"});
  CHECK(brought.tells(5, "ronan pours less"));
}

TEST_CASE("what stands behind the glass is not lost", "[new]") {
  Brought rim(
      "Salt Road\nGlass: double old fashioned, salted rim\n50 ml tequila blanco\n25 ml lime juice\nshake\n");
  check_lines(rim, {"glass double old fashioned, salted rim"});
  Brought unknown("Salt Road\nGlass: coupe, moondust rim\n50 ml tequila blanco\n25 ml lime juice\nshake\n");
  check_lines(unknown, {"glass coupe"});
  INFO(unknown.told);
  CHECK(unknown.holds("moondust rim"));
  CHECK(unknown.tells(2, "moondust"));
  Brought nobody("Salt Road\nGlass: grandmother's teacup\n50 ml gin\nshake\n");
  CHECK(nobody.holds("grandmother's teacup"));
  CHECK(nobody.tells(2, "grandmother's teacup"));
}

TEST_CASE("what is counted stays counted, whatever bare numbers mean", "[new]") {
  const std::string notes =
      "A\n2 gin\n3/4 lemon juice\n2 egg whites\n1 egg white\n6 mint leaves\n3 lime wedges\n2 dashes "
      "aromatic bitters\n2 lemons\n1 sugar cube\n3 olives\nshake\nstrain\n";
  Brought ounces(notes, "oz");
  check_lines(ounces, {"2 oz gin", "3/4 oz lemon juice", "2 egg whites", "1 egg white", "6 mint leaves",
                       "3 lime wedges", "2 dashes aromatic bitters", "2 lemons"});
  INFO(ounces.told);
  CHECK_FALSE(ounces.holds("oz  egg"));
  CHECK_FALSE(ounces.holds("oz  sugar"));
  CHECK_FALSE(ounces.holds("oz  olive"));
  Brought ml("B\n50 gin\n20 lime\n2 egg whites\n12 mint leaves\nshake\n", "ml");
  check_lines(ml, {"50 ml gin", "20 ml lime juice", "2 egg whites", "12 mint leaves"});
}

TEST_CASE("bare numbers are one question, not one a line", "[new]") {
  Brought brought("A\n50 gin\n20 lime\n10 honey syrup\nshake\n");
  INFO(brought.told);
  CHECK(brought.specs.findings.size() == 1);
  CHECK(brought.tells(2, "--numbers"));
  for (const char* words : {"50 gin", "20 lime", "10 honey syrup"}) CHECK(brought.holds(words));
}

TEST_CASE("a bullet or a number comes off every line", "[new]") {
  for (std::string bullet : {"• ", "- ", "* ", "– ", "•", "◦ ", "[ ] ", "☐ "}) {
    CAPTURE(bullet);
    std::string text = "Mint Thing\n";
    for (const char* line : {"8 mint leaves", "20 ml lime juice", "60 ml white rum", "churn with crushed ice",
                             "shake 10 s", "julep cup", "mint sprig"})
      text += bullet + line + "\n";
    Brought brought(text);
    check_lines(brought, {"drink Mint Thing", "8 mint leaves", "20 ml lime juice", "60 ml white rum",
                          "churn with crushed ice", "shake 10 s", "glass julep cup", "garnish mint sprig"});
    CHECK(brought.specs.findings.empty());
  }
  for (std::string behind : {". ", ") "}) {
    std::string text = "Mint Thing\n";
    int number = 0;
    for (const char* line :
         {"60 ml white rum", "1.5 cl lime juice", "shake 10 s", "strain", "coupe", "lime wheel"})
      text += std::to_string(++number) + behind + line + "\n";
    Brought brought(text);
    check_lines(brought, {"60 ml white rum", "1.5 cl lime juice", "shake 10 s", "strain", "glass coupe",
                          "garnish lime wheel"});
    CHECK(brought.specs.findings.empty());
  }
}

TEST_CASE("a drink on one line is a drink", "[new]") {
  Brought brought(
      "Old Clay - 60 ml bourbon, 5 ml rich syrup, 2 dashes aromatic bitters, stir 20 s, strain, orange peel\n"
      "Up Draft: 50 ml gin / 25 ml lemon juice / 20 ml honey syrup / shake / dbl strain / coupe\n"
      "Grey Heron, 45 ml gin, 20 ml lime juice, shake\n"
      "Mill Pond (60 ml rye whiskey, 30 ml sweet vermouth, stir, coupe)\n");
  check_lines(brought,
              {"drink Old Clay", "60 ml bourbon", "5 ml rich syrup", "2 dashes aromatic bitters", "stir 20 s",
               "garnish orange peel", "drink Up Draft", "25 ml lemon juice", "dbl strain", "glass coupe",
               "drink Grey Heron", "20 ml lime juice", "drink Mill Pond", "30 ml sweet vermouth"});
  CHECK(brought.specs.drinks == 4);
  CHECK(brought.specs.findings.empty());
}

TEST_CASE("a name says that it is one", "[new]") {
  check_lines(Brought("Name: Clay Pot\n60 ml bourbon\nstir\nstrain\nName: Brick\n60 ml gin\nstir\n"),
              {"drink Clay Pot", "drink Brick"});
}

TEST_CASE("headings and tables of Markdown are sections, drinks and amounts", "[new]") {
  Brought brought(
      "# Stirred\n\n## Clay Pot\n\n| amount | what |\n|---|---|\n| 60 ml | bourbon |\n| 30 ml | sweet "
      "vermouth |\n\n"
      "### Method\n\n1. stir 20 s\n2. strain\n\n## Brick\n- **60 ml** gin\n- 20 ml lime juice\n\n*shake*\n");
  check_lines(brought, {"# Stirred", "drink Clay Pot", "60 ml bourbon", "30 ml sweet vermouth", "stir 20 s",
                        "strain", "drink Brick", "60 ml gin", "shake"});
  CHECK(brought.specs.drinks == 2);
}

TEST_CASE("headings without a blank line are headings, and what is made ahead is a prep", "[new]") {
  Brought brought(
      "STIRRED\nKiln Lantern\n60 ml rye whiskey\n30 ml sweet vermouth\nstir, strain, coupe\n"
      "SHAKEN\nBrick Fizz\n45 ml gin\n20 ml lime juice\nshake, strain\n"
      "SYRUPS\nHoney syrup 2:1\n500g honey\n250g water\nstir till dissolved, bottle, 2 weeks fridge\n"
      "Oat Milk Wash\n200 g oats\n1 l water\nblend, strain\nbottle\nkeeps 3 days in the fridge\n");
  check_lines(brought, {"# STIRRED", "drink Kiln Lantern", "# SHAKEN", "drink Brick Fizz", "# SYRUPS",
                        "prep \"Honey syrup 2:1\"", "500 g honey", "250 g water", "prep Oat Milk Wash",
                        "bottle", "keeps 3 days in the fridge"});
  CHECK(brought.specs.drinks == 4);
}

TEST_CASE("every doubt carries its own line", "[new]") {
  Brought brought(
      "Kiln\n50 ml gin\n30 ml moon dust\nshake\nwhisper to it\nstrain\nserve with a wink and a nod? yes\n"
      "garnish with moonlight & a feather\n");
  INFO(brought.told);
  CHECK(brought.is_sound());
  CHECK(brought.tells(3, "moon dust"));
  CHECK(brought.tells(5, "whisper to it"));
}

TEST_CASE("common words of the bar are read", "[new]") {
  auto spec = [](const std::string& lines) {
    return Brought("Weir\n60 ml gin\n20 ml lime juice\n" + lines + "\n");
  };
  check_lines(spec("shake, dbl strain\nOrange twist & serve"), {"garnish orange twist", "# serve"});
  check_lines(spec("shake\nstrain\nfrozen coupe"), {"glass frozen coupe"});
  check_lines(spec("Glass: coupe\nshake\nstrain\nfrozen glass"), {"glass coupe, frozen"});
  check_lines(spec("churned"), {"churned"});
  check_lines(spec("shake\nstrain\ndehydrated lime + tajin"), {"dehydrated lime", "garnish tajin"});
  CHECK(spec("shake\nstrain\ndehydrated lime + tajin").holds("tajin"));
  CHECK(spec("shake\nstrain\nfrozen glass").tells(6, "frozen glass"));
  // What was read whole does not stand there a second time.
  for (const char* line :
       {"shake, dbl strain", "top w/ soda water", "dry shake/shake/strain", "stir & strain"}) {
    auto brought = spec(line);
    INFO(brought.told);
    CHECK(brought.is_sound());
    CHECK(brought.specs.findings.empty());
    CHECK_FALSE(brought.holds(std::string("# ") + line));
  }
  // What was read in part does, and is told.
  auto part = spec("shake. Hum 3 tunes. Strain.");
  check_lines(part, {"shake", "strain"});
  CHECK(part.holds("Hum 3 tunes"));
  CHECK(part.tells(4, "Hum 3 tunes"));
}

TEST_CASE("words on which the reading breaks off are kept as a comment, and the others are read", "[new]") {
  auto breaks_off = [](const std::string& text) {
    if (text.find("\n  moonquake") != std::string::npos) throw std::out_of_range("moonquake");
    return errors_in(text);
  };
  auto brought = importer::import_specs("Weir\n60 ml gin\nshake\nmoonquake\nstrain\n", "old.txt",
                                        library().house, breaks_off);
  INFO(brought.text);
  for (const char* line : {"60 ml gin", "shake", "# moonquake", "strain"}) {
    CAPTURE(line);
    CHECK(gill::testing::has_row(brought.text, line));
  }
}

TEST_CASE("a file that a word processor wrote is refused by its name", "[new]") {
  for (auto [bytes, name] : {std::pair<std::string, std::string>{"%PDF-1.4\nKiln\n60 ml gin\n", "PDF"},
                             {"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1 word", ".doc"},
                             {"{\\rtf1\\ansi Kiln\\par 60 ml gin}", "RTF"},
                             {std::string("PK\x03\x04\x14\0\x06\0word/document.xml", 27), ".docx"}}) {
    CAPTURE(name);
    auto refused = importer::import_specs(bytes, "old", library().house, errors_in);
    CHECK(refused.text.empty());
    REQUIRE(refused.findings.size() == 1);
    CHECK_THAT(refused.findings[0].message, Catch::Contains(name) && Catch::Contains("plain text"));
  }
  for (std::string_view empty : {"", " \n\r\n\t", "\xEF\xBB\xBF\n"}) {
    auto refused = importer::import_specs(empty, "old", library().house, errors_in);
    CHECK(refused.text.empty());
    REQUIRE(refused.findings.size() == 1);
    CHECK_THAT(refused.findings[0].message, Catch::Contains("empty"));
  }
}

// schema.org/Recipe, property recipeYield (schema.org vocabulary): a text or a quantity.
TEST_CASE("what a recipe of JSON-LD yields is a volume or serves", "[new]") {
  auto of = [](const std::string& name, const std::string& yield) {
    return Brought(R"({"@type": "Recipe", "name": ")" + name + R"(", "recipeYield": )" + yield +
                   R"(, "recipeIngredient": ["500 g honey", "250 g water"], "recipeInstructions": "Stir."})");
  };
  check_lines(of("Honey syrup", "\"500 ml\""), {"prep Honey syrup", "makes 500 ml"});
  check_lines(of("Honey syrup", "\"1 l\""), {"makes 1 l"});
  check_lines(of("Honey bowl", "\"4\""), {"serves 4"});
  check_lines(of("Honey bowl", "4"), {"serves 4"});
  check_lines(of("Honey bowl", "2"), {"serves 2"});
  CHECK(of("Honey bowl", "\"4 servings\"").holds("serves  4"));
  CHECK(of("Honey bowl", "\"4 servings\"").holds("servings"));
  CHECK_FALSE(of("Honey bowl", "1").holds("serves"));
}

// Words of the trade, separators, bullets and headings at random: whatever comes of them, no word is gone.
TEST_CASE("no word of any spec is lost, and what is written is the language", "[new][property]") {
  static const std::string pieces[] = {"60 ml",
                                       "2 oz",
                                       "3/4",
                                       "25",
                                       "gin",
                                       "rye whiskey",
                                       "lemon juice",
                                       "honey syrup",
                                       "moon dust",
                                       "egg white",
                                       "shake",
                                       "dbl strain",
                                       "stir 20 s",
                                       "strain",
                                       "coupe",
                                       "frozen glass",
                                       "julep cup",
                                       "crushed ice",
                                       "salted rim",
                                       "mint sprig",
                                       "orange twist",
                                       "serve",
                                       "top with soda water",
                                       "Kiln Sour",
                                       "Brick Fizz",
                                       "STIRRED",
                                       "SHAKEN",
                                       "Honey Cordial",
                                       "bottle",
                                       "2 weeks fridge",
                                       "ronan says hello",
                                       "w/",
                                       "then",
                                       "tajin",
                                       "absinthe rinse",
                                       "optional",
                                       "until dissolved",
                                       "500 g",
                                       "(fresh)",
                                       "makes 500 ml",
                                       "no ice",
                                       "half",
                                       "two dashes",
                                       "aromatic bitters",
                                       "rum",
                                       "bitters",
                                       "1 egg",
                                       "2 parts",
                                       "equal parts",
                                       "(serves 10)",
                                       "mint x 8",
                                       "1 Wasabi Pea",
                                       "0.75",
                                       "Syrups",
                                       "~",
                                       "Zitronensaft",
                                       "abseihen",
                                       "keeps 1 month"};
  static const std::string signs[] = {" ",     " ",   " ",  ", ", " / ", " - ", ": ",  " & ",
                                      " and ", " + ", ". ", "; ", "/",   " | ", " – ", " ..... "};
  static const std::string starts[] = {
      "",    "",        "",          "",         "• ",    "- ",    "* ",     "1. ", "2) ", "# ",
      "## ", "Glass: ", "Garnish: ", "Method: ", "Ice: ", "Rim: ", "Name: ", "| ",  "**"};
  for (unsigned seed = 1; seed <= static_cast<unsigned>(testing::rounds(60)); ++seed) {
    unsigned state = seed * 2654435761u;
    auto pick = [&state](std::size_t count) {
      state = state * 1664525u + 1013904223u;
      return (state >> 16) % count;
    };
    std::string text = seed % 4 == 0 ? "" : "Osier Sour\n";
    for (std::size_t line = 0; line < 14; ++line) {
      text += starts[pick(std::size(starts))];
      for (std::size_t i = 0, words = 1 + pick(5); i < words; ++i)
        text += (i == 0 ? "" : signs[pick(std::size(signs))]) + pieces[pick(std::size(pieces))];
      text += pick(6) == 0 ? "\n\n" : "\n";
    }
    Brought brought(text, seed % 3 == 0 ? "ml" : seed % 3 == 1 ? "oz" : "");
    INFO("seed " << seed << "\n" << text << "\n----\n" << brought.told);
    CHECK(brought.is_sound());
    CHECK(lost_words(text, brought.specs.text) == std::vector<std::string>{});
    for (const auto& finding : brought.specs.findings) CHECK(finding.line > 0);
  }
}

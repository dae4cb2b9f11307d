#include "importer/import_specs.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "importer/ingredient_line.h"
#include "support/sanitized.h"
#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::errors_in;
using gill::testing::EvaluatedHouse;
using gill::testing::library;

namespace {

importer::ImportedSpecs bring(std::string_view bytes) {
  return importer::import_specs(bytes, "old.txt", library().house, errors_in);
}

/// The glass of the one drink in a text, wherever it is named.
std::string glass_in(const std::string& text) {
  EvaluatedHouse house(text);
  std::string glass;
  for (const auto& drink : house.compiled.specs.drinks)
    if (!drink.head.from_library && drink.glass.valid()) glass = house.compiled.specs[drink.glass].head.name;
  return glass;
}

}  // namespace

// The shape is that of schema.org/Recipe (schema.org vocabulary, properties recipeIngredient,
// recipeInstructions with HowToStep and HowToSection, recipeYield, author; lists in `@graph`); the recipes
// are made up.
TEST_CASE("a recipe in JSON-LD becomes a drink", "[new]") {
  auto brought = bring(R"({"@context": "https://schema.org", "@graph": [
    {"@type": "WebSite", "name": "Old binder"},
    {"@type": ["Thing", "Recipe"], "name": "Weir Sour", "recipeYield": "1 drink",
     "author": [{"@type": "Person", "name": "A. Nother"}],
     "recipeIngredient": ["2 oz rye whiskey", "¾ oz lemon juice", "15ml simple syrup", "1 egg white", "a pinch of moon dust"],
     "recipeInstructions": [
       {"@type": "HowToStep", "text": "Dry shake everything."},
       {"@type": "HowToSection", "name": "Finish", "itemListElement": [
         {"@type": "HowToStep", "text": "Shake with ice and double strain into a chilled coupe."},
         "Garnish with a lemon twist."]}],
     "cookTime": "PT5M"}]})");
  INFO(brought.text);
  CHECK(brought.drinks == 1);
  CHECK(errors_in(brought.text).empty());
  CHECK(glass_in(brought.text) == "coupe");
  for (const char* line :
       {"drink Weir Sour", "2 oz  rye whiskey", "3/4 oz  lemon juice", "15 ml  simple syrup", "1  egg white",
        "author", "  dry shake", "  shake with ice and double strain", "garnish  lemon twist",
        "| Dry shake everything.", "# a pinch of moon dust", "# cookTime: PT5M"})
    CHECK_THAT(brought.text, Catch::Contains(line));
  // What is not understood is told, the ingredient and the property that has no line.
  REQUIRE(brought.findings.size() >= 2);
  bool told = false;
  for (const auto& finding : brought.findings)
    told = told || finding.message.find("moon dust") != std::string::npos;
  CHECK(told);
}

TEST_CASE("instructions may be one text, and entities of HTML are read", "[new]") {
  auto brought = bring(
      R"([{"@type":"http://schema.org/Recipe","name":"Salt &amp; Lime","recipeIngredient":"1&frac12; oz tequila blanco\n1 oz lime juice","recipeInstructions":"Shake.\nStrain into a rocks glass."}])");
  INFO(brought.text);
  CHECK(brought.drinks == 1);
  CHECK(errors_in(brought.text).empty());
  CHECK(glass_in(brought.text) == "rocks");
  CHECK_THAT(brought.text, Catch::Contains("drink Salt & Lime") &&
                               Catch::Contains("1 1/2 oz  tequila blanco") &&
                               Catch::Contains("1 oz  lime juice"));
}

TEST_CASE("plain lines are read in any order of number, unit and name", "[new]") {
  auto brought = bring(
      "Towpath\n"
      "2 oz rye whiskey\n"
      "Lemon juice: 3/4 oz (fresh)\n"
      "orange liqueur 1-1/2 oz\n"
      "½ oz simple syrup\n"
      "2 dashes aromatic bitters\n"
      "dash of orange bitters\n"
      "juice of 1/2 lime\n"
      "1,5 cl vodka\n"
      "8 mint leaves\n"
      "30ml gin, London dry\n"
      "honey syrup or maple syrup 10 ml\n"
      "soda water to top\n"
      "Shake, strain into a highball.\n");
  INFO(brought.text);
  for (const auto& finding : brought.findings) UNSCOPED_INFO(finding.line << ": " << finding.message);
  CHECK(brought.drinks == 1);
  CHECK(errors_in(brought.text).empty());
  for (const char* line : {"drink Towpath", "2 oz  rye whiskey", "3/4 oz  Lemon juice, fresh",
                           "1 1/2 oz  orange liqueur", "1/2 oz  simple syrup", "2 dashes  aromatic bitters",
                           "1 dash  orange bitters", "ml  lime juice", "1.5 cl  vodka", "8  mint leaves",
                           "30 ml  London dry gin", "10 ml  honey syrup, or maple syrup", "top  soda water"})
    CHECK_THAT(brought.text, Catch::Contains(line));
}

TEST_CASE("a whole spec on one line of commas is parted", "[new]") {
  auto brought = bring("Sluice\n2 oz rye whiskey, 3/4 oz lemon juice, 15 ml honey syrup\nshake and strain\n");
  INFO(brought.text);
  CHECK(errors_in(brought.text).empty());
  CHECK_THAT(brought.text, Catch::Contains("2 oz  rye whiskey\n") &&
                               Catch::Contains("3/4 oz  lemon juice\n") &&
                               Catch::Contains("15 ml  honey syrup\n"));
}

TEST_CASE("several specs in one file part at their names", "[new]") {
  auto brought = bring(
      "# First one\n\n40 ml vodka\n20 ml lime juice\nshake\n\n**Second one:**\n30 ml white rum\nstir and "
      "strain\n");
  INFO(brought.text);
  CHECK(brought.drinks == 2);
  CHECK_THAT(brought.text, Catch::Contains("drink First one\n") && Catch::Contains("drink Second one\n"));
}

TEST_CASE("a name with a year, times and ounces of fruit are read as they are meant", "[new]") {
  auto brought = bring(
      "Weir Water 2019\n2oz gin\n1 oz fresh lime\nshake 10 sec, double strain, coupe\n\n"
      "Dyehouse\nRye - 50 ml\nstir 30s; strain; rocks glass\n");
  INFO(brought.text);
  CHECK(errors_in(brought.text).empty());
  for (const char* line : {"drink Weir Water 2019", "1 oz  lime juice", "shake 10 sec", "double strain",
                           "glass  coupe", "drink Dyehouse", "stir 30s", "glass  rocks"})
    CHECK_THAT(brought.text, Catch::Contains(line));
}

// Notes as bars keep them; the bar and the drinks are made up.
TEST_CASE("a page of notes keeps its steps, its preps and every word", "[new]") {
  const std::string notes =
      "House Cocktails 2025\n\n"
      "Osier Sour\n50ml gin\n25 ml lemon\n15 ml simple syrup\n1 egg white\ndry shake/shake/strain\ncoupe, "
      "lemon twist\n\n"
      "Weir Collins\n50 ml gin\n20 ml lime\ndbl strain\ntop w/ soda water\nhighball\n\n"
      "2. Towpath\n- 40ml mezcal\n- 20ml lime\n- 15ml agave syrup\nShake, strain. Moonlit ice.\n\n"
      "STILL WATER (0%)\n200ml water\n\n"
      "Ginger Syrup\n500g ginger\n500g sugar\n500ml water\nblend, strain\n";
  auto brought = bring(notes);
  INFO(brought.text);
  for (const auto& finding : brought.findings) UNSCOPED_INFO(finding.line << ": " << finding.message);
  CHECK(errors_in(brought.text).empty());
  CHECK_THAT(brought.text, Catch::Contains("# House Cocktails 2025\ndrink Osier Sour\n") &&
                               Catch::Contains("drink Towpath\n") && Catch::Contains("prep Ginger Syrup\n"));
  // Three steps, in their order.
  auto dry = brought.text.find("  dry shake\n"), wet = brought.text.find("  shake\n", dry),
       off = brought.text.find("  strain\n", wet);
  CHECK(dry < wet);
  CHECK(wet < off);
  CHECK(off < brought.text.find("drink Weir Collins"));
  for (const char* line : {"  glass  coupe\n", "  garnish  lemon twist\n", "  dbl strain\n",
                           "  glass  highball\n", "  top w/ soda water\n"})
    CHECK_THAT(brought.text, Catch::Contains(line));
  // What is no step is told, with its line.
  CHECK(std::any_of(brought.findings.begin(), brought.findings.end(), [](const auto& finding) {
    return finding.line == 22 && finding.message.find("Moonlit ice") != std::string::npos;
  }));
  std::istringstream words(notes);
  auto all = base::fold_name(brought.text);
  for (std::string word; words >> word;) {
    std::string letters;
    for (char c : word)
      if (std::isalpha(static_cast<unsigned char>(c))) letters += c;
    if (letters.size() < 3 || std::isdigit(static_cast<unsigned char>(word[0]))) continue;
    CAPTURE(word);
    CHECK((all.find(base::fold_name(letters)) != std::string::npos || word.find('/') != std::string::npos));
  }
}

TEST_CASE("bare numbers are asked for once, and mean what one answer says", "[new]") {
  const std::string notes =
      "Osier Sour\n50 gin\n25 lemon\n15 simple syrup\n1 egg white\n3 mint leaves\nshake\nstrain\n";
  auto asked = bring(notes);
  CHECK(std::count_if(asked.findings.begin(), asked.findings.end(), [](const auto& finding) {
          return finding.message.find("--numbers") != std::string::npos;
        }) == 1);
  auto brought = importer::import_specs(notes, "old.txt", library().house, errors_in, "ml");
  INFO(brought.text);
  CHECK(errors_in(brought.text).empty());
  for (const char* line :
       {"50 ml  gin", "25 ml  lemon juice", "15 ml  simple syrup", "1  egg white", "3  mint leaves"})
    CHECK_THAT(brought.text, Catch::Contains(line));
  auto ounces = importer::import_specs("A\n2 gin\n3/4 lemon juice\nshake\nstrain\n", "old.txt",
                                       library().house, errors_in, "oz");
  CHECK_THAT(ounces.text, Catch::Contains("2 oz  gin") && Catch::Contains("3/4 oz  lemon juice"));
}

TEST_CASE("a file that is no text is refused with what to do", "[new]") {
  auto refused = bring(std::string("PK\x03\x04\x14\0\x06\0word/document.xml", 27));
  CHECK(refused.text.empty());
  REQUIRE(refused.findings.size() == 1);
  CHECK_THAT(refused.findings[0].message, Catch::Contains("save it as plain text"));
}

TEST_CASE("encodings and line ends of old files are read", "[new]") {
  for (std::string bytes : {std::string("\xEF\xBB\xBF"
                                        "Caf\xC3\xA9\r\n30 ml vodka\r\n\xC2\xBD oz lime juice\r\nshake\r\n"),
                            std::string("Caf\xE9\r\n30 ml vodka\r\n\xBD oz lime juice\r\nshake\r\n")}) {
    auto brought = bring(bytes);
    INFO(brought.text);
    CHECK(errors_in(brought.text).empty());
    CHECK_THAT(brought.text, Catch::Contains("drink Café\n") && Catch::Contains("30 ml  vodka\n") &&
                                 Catch::Contains("1/2 oz  lime juice"));
  }
  std::string wide("\xFF\xFE", 2);
  for (char c : std::string("Lock\r\n30 ml vodka\r\nshake\r\n")) wide += {c, '\0'};
  CHECK_THAT(bring(wide).text, Catch::Contains("drink Lock\n") && Catch::Contains("30 ml  vodka\n"));
}

TEST_CASE("an ingredient that nobody knows is kept with the nearest names", "[new]") {
  auto brought = bring("Gate\n45 ml rye whisky blend\n30 ml lemn juice\nshake\n");
  INFO(brought.text);
  CHECK(errors_in(brought.text).empty());
  CHECK_THAT(brought.text, Catch::Contains("# 30 ml lemn juice"));
  bool near = false;
  for (const auto& finding : brought.findings)
    near = near || (finding.line == 3 && finding.message.find("`lemon juice`") != std::string::npos);
  CHECK(near);
}

TEST_CASE("recipes are found in a page of HTML", "[new]") {
  auto brought = bring(
      "<!DOCTYPE html><html><script "
      "type=\"application/ld+json\">[{\"@type\":\"Recipe\",\"name\":\"X\",\"recipeIngredient\":[\"30 ml "
      "gin\"]}]</script></html>");
  CHECK(brought.drinks == 1);
  CHECK_THAT(brought.text, Catch::Contains("drink X"));
}

TEST_CASE("markup within a line of a recipe parts no line, and each finding has its line of the page",
          "[new]") {
  auto brought = bring(
      "<html>\n<script type=\"application/ld+json\">\n[{\"@type\": \"Recipe\",\n\"name\": "
      "\"<strong>Marsh</strong> Light\",\n\"recipeIngredient\": [\n\"<b>60 ml</b> London dry gin\",\n\"30 ml "
      "moon "
      "dust\"],\n\"recipeInstructions\": \"<p>Shake, then <em>double strain</em>.</p><p>Serve.</p>\"},\n"
      "{\"@type\": \"Recipe\",\n\"name\": \"Second\",\n\"recipeIngredient\": [\"30 ml moon "
      "glow\"]}]</script></html>");
  INFO(brought.text);
  CHECK(brought.drinks == 2);
  CHECK_THAT(brought.text, Catch::Contains("drink Marsh Light") && Catch::Contains("60 ml  London dry gin") &&
                               Catch::Contains("| Shake, then double strain."));
  auto line_of = [&](const std::string& words) -> std::size_t {
    for (const auto& finding : brought.findings)
      if (finding.message.find(words) != std::string::npos) return finding.line;
    return 0;
  };
  CHECK(line_of("moon dust") == 7);
  CHECK(line_of("moon glow") == 11);
}

TEST_CASE("a page's scripts that are no JSON-LD are passed over, and one that is broken is told", "[new]") {
  const std::string
      code = "<html><script>let a = {;</script>",
      recipe =
          "<script type=\"application/ld+json\">{\"@type\":\"Recipe\",\"name\":\"X\","
          "\"recipeIngredient\":[\"30 ml gin\"],\"recipeInstructions\":\"Shake 12 s.\"}</script>",
      broken = "<script type=\"application/ld+json\">{\"@type\": </script>";
  auto told = [](const importer::ImportedSpecs& brought) {
    return std::any_of(brought.findings.begin(), brought.findings.end(), [](const auto& finding) {
      return finding.message.find("is no JSON") != std::string::npos;
    });
  };
  auto passed_over = bring(code + recipe + "</html>"), both = bring(code + broken + recipe + "</html>");
  CHECK(passed_over.drinks == 1);
  CHECK_FALSE(told(passed_over));
  CHECK(both.drinks == 1);
  CHECK(told(both));
}

TEST_CASE("names that collide, or say too much, stay apart and sound", "[new]") {
  auto brought = bring(
      "Twin\n30 ml vodka\nshake\n\nTwin\n40 ml vodka\nshake\n\nLike a \"thing\" at 9 #1\n30 ml "
      "vodka\nshake\n");
  INFO(brought.text);
  CHECK(errors_in(brought.text).empty());
  CHECK_THAT(brought.text, Catch::Contains("drink Twin\n") && Catch::Contains("drink Twin (2)\n"));
}

TEST_CASE("nothing that was written is lost, and the result always checks", "[new][property]") {
  const std::string pieces[] = {"2 oz",
                                "rye",
                                "lemon juice",
                                "3/4",
                                "ml",
                                "shake",
                                "stir",
                                "garnish with",
                                "\n",
                                "\n\n",
                                "moon",
                                "½",
                                "(",
                                ")",
                                ",",
                                "#",
                                "|",
                                "\"",
                                "drink",
                                "at 5 EUR",
                                "like",
                                "until",
                                "to 1 l water",
                                "é",
                                "{",
                                "\t",
                                "1-2",
                                "glass:",
                                "coupe",
                                "=",
                                "swap",
                                "menu",
                                "allow raw-egg",
                                "house"};
  for (unsigned seed = 1; seed <= static_cast<unsigned>(testing::rounds(60)); ++seed) {
    unsigned state = seed * 7919u;
    std::string bytes = "Start\n";
    for (int i = 0; i < 50; ++i) {
      state = state * 1664525u + 1013904223u;
      bytes += pieces[(state >> 16) % std::size(pieces)] + ((state >> 8) % 4 == 0 ? "\n" : " ");
    }
    auto brought = bring(bytes);
    INFO("seed " << seed << "\n" << bytes << "\n----\n" << brought.text);
    CHECK(errors_in(brought.text).empty());
    // Every word of letters is still there.
    for (const auto& word : {"moon", "swap", "menu", "until"})
      if (bytes.find(word) != std::string::npos) CHECK(brought.text.find(word) != std::string::npos);
  }
}

TEST_CASE("broken JSON is kept as a comment and told", "[new]") {
  auto brought = bring("{\"@type\": \"Recipe\", \"name\": ");
  CHECK(brought.drinks == 0);
  CHECK_THAT(brought.text, Catch::Contains("# {\"@type\": \"Recipe\", \"name\":"));
  REQUIRE(brought.findings.size() == 1);
  std::string deep(20000, '[');
  CHECK(bring(deep).findings.size() == 1);
  CHECK(bring("").drinks == 0);
  CHECK(bring("\xFF\xFE\x00").drinks <= 1);
}

TEST_CASE("a drink whose header cannot stay becomes a comment whole, and its neighbour stays", "[new]") {
  // Whatever the reason: what reads the text back says which line is in error.
  auto refuses_sluice = [](const std::string& text) {
    std::vector<base::RowProblem> errors;
    std::size_t line = 1;
    for (std::size_t at = 0; at < text.size(); ++line) {
      auto end = std::min(text.find('\n', at), text.size());
      if (text.compare(at, 6, "drink ") == 0 && text.substr(at, end - at).find("Sluice") != std::string::npos)
        errors.push_back({line, "no drink may be called so"});
      at = end + 1;
    }
    return errors;
  };
  auto brought = importer::import_specs(
      "Sluice\n2 oz rye whiskey\n3/4 oz lemon juice\nshake and strain\n\nWeir\n1 oz vodka\n1 oz lime "
      "juice\nshake and "
      "strain\n",
      "old.txt", library().house, refuses_sluice);
  INFO(brought.text);
  CHECK_THAT(brought.text, Catch::Contains("drink Weir"));
  CHECK_THAT(brought.text, !Catch::Contains("\ndrink Sluice"));
  for (const char* kept : {"drink Sluice", "2 oz  rye whiskey", "3/4 oz  lemon juice"}) {
    auto at = brought.text.find(kept);
    REQUIRE(at != std::string::npos);
    auto begin = brought.text.rfind('\n', at) + 1;
    CHECK_THAT(brought.text.substr(begin, at - begin), Catch::Contains("#"));
  }
  // The other drink's lines are lines.
  CHECK_THAT(brought.text, Catch::Contains("\n  1 oz  vodka"));
  bool told = false;
  for (const auto& finding : brought.findings)
    told = told || finding.message.find("no drink may be called so") != std::string::npos;
  CHECK(told);
}

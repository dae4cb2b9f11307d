// Spreadsheets as bars keep them: a row an ingredient, a database's export, measures in two units, a drink a
// column. The bars and the drinks are made up.
#include <catch2/catch.hpp>
#include <set>

#include "base/text.h"
#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::words_in;

namespace {

/// Lines that stand below each other in what came of a text.
bool has_lines(const Brought& brought, const std::vector<std::string>& lines) {
  std::string plain;
  for (std::size_t at = 0; at < brought.specs.text.size();) {
    const auto end = std::min(brought.specs.text.find('\n', at), brought.specs.text.size());
    plain += base::collapse_space(std::string_view(brought.specs.text).substr(at, end - at)) + "\n";
    at = end + 1;
  }
  return ("\n" + plain).find("\n" + base::join(lines, "\n") + "\n") != std::string::npos;
}

/// What each row of a database says again stands once, so a word counts once here.
void check_words_kept(const std::string& source, const std::string& written) {
  const auto words = words_in(written);
  const std::set<std::string> there(words.begin(), words.end());
  for (const auto& word : words_in(source)) {
    CAPTURE(word);
    CHECK(there.contains(word));
  }
}

void check_sheet(const std::string& text, const std::vector<std::vector<std::string>>& drinks) {
  for (char sign : {',', ';', '\t'}) {
    std::string sheet = text;
    std::replace(sheet.begin(), sheet.end(), '^', sign);
    Brought brought(sheet);
    INFO(sheet << "----\n" << brought.told);
    CHECK(brought.is_sound());
    CHECK(brought.specs.drinks == drinks.size());
    for (const auto& lines : drinks) {
      CAPTURE(lines.front());
      CHECK(has_lines(brought, lines));
    }
    check_words_kept(sheet, brought.specs.text);
    for (const auto& finding : brought.specs.findings) CHECK(finding.line > 0);
  }
}

const std::vector<std::string> heron = {"drink Heron",      "glass coupe",         "45 ml cognac",
                                        "20 ml triple sec", "20 ml lemon juice",   "shake",
                                        "double strain",    "garnish orange twist"};
const std::vector<std::string> kiln = {"drink Kiln", "glass rocks", "60 ml gin", "15 ml dry vermouth",
                                       "stir"};

}  // namespace

TEST_CASE("a row an ingredient: what goes in stands before how it is made, wherever a row says it", "[new]") {
  check_sheet(
      "Drink^Glass^Ingredient^Amount^Method^Garnish\n"
      "Heron^coupe^cognac^45 ml^\"shake; double strain\"^orange twist\n"
      "^^triple sec^20 ml^^\n^^lemon juice^20 ml^^\n"
      "Kiln^rocks^gin^60 ml^stir^\n^^dry vermouth^15 ml^^\n",
      {heron, kiln});
  check_sheet(
      "Drink^Amount^Unit^Ingredient^Method^Glass^Garnish\n"
      "Heron^45^ml^cognac^^coupe^\n^20^ml^triple sec^\"shake; double strain\"^^orange twist\n"
      "^20^ml^lemon juice^^^\nKiln^60^ml^gin^^rocks^\n^15^ml^dry vermouth^stir^^\n",
      {heron, kiln});
  check_sheet(
      "Drink^Glass^Ingredients^Method^Garnish\n"
      "Heron^coupe^45 ml cognac^\"shake; double strain\"^orange twist\n"
      "^^20 ml triple sec^^\n^^20 ml lemon juice^^\n"
      "Kiln^rocks^60 ml gin^stir^\n^^15 ml dry vermouth^^\n",
      {heron, kiln});
  check_sheet(
      "Drink^Ingredient^Amount^Method\nKiln^^^\n^gin^60 ml^stir\n^dry vermouth^15 ml^\n"
      "Heron^^^\n^cognac^45 ml^shake\n^lemon juice^20 ml^\n",
      {{"drink Kiln", "60 ml gin", "15 ml dry vermouth", "stir"},
       {"drink Heron", "45 ml cognac", "20 ml lemon juice", "shake"}});
}

TEST_CASE("what a database says beside each ingredient stands once", "[new]") {
  check_sheet(
      "Drink^Glass^Ingredient^Amount^Method^Garnish\n"
      "Heron^coupe^cognac^45 ml^\"shake; double strain\"^orange twist\n"
      "Heron^coupe^triple sec^20 ml^\"shake; double strain\"^orange twist\n"
      "Heron^coupe^lemon juice^20 ml^\"shake; double strain\"^orange twist\n"
      "Kiln^rocks^gin^60 ml^stir^\nKiln^rocks^dry vermouth^15 ml^stir^\n",
      {heron, kiln});
  check_sheet("Drink^Ingredient^Amount^Notes\nKiln^gin^60 ml^cold\nKiln^dry vermouth^15 ml^cold\n",
              {{"drink Kiln", "60 ml gin", "15 ml dry vermouth", "# Notes: cold"}});
}

TEST_CASE("a method beside each ingredient is done row by row", "[new]") {
  check_sheet(
      "Drink^Ingredient^Amount^Method\nHeron^mint^8 leaves^muddle\n^white rum^45 ml^\n"
      "^lime juice^20 ml^\"shake; strain\"\n",
      {{"drink Heron", "8 leaves mint", "muddle", "45 ml white rum", "20 ml lime juice", "shake", "strain"}});
}

TEST_CASE("measures in two columns are two measures of one thing", "[new]") {
  for (std::string_view head :
       {"Name^Ingredient^Oz^Ml^Method", "Name^Ingredient^Amount (oz)^Amount (ml)^Method",
        "Name^Ingredient^Qty oz^Qty ml^Method"})
    check_sheet(
        std::string(head) + "\nLily^gin^2^60^stir\n^dry vermouth^0.5^15^\n^honey syrup^^5^\n",
        {{"drink Lily", "2 oz = 60 ml gin", "0.5 oz = 15 ml dry vermouth", "5 ml honey syrup", "stir"}});
  check_sheet("Name^Ml^Oz^Ingredient^Method\nLily^60^2^gin^stir\n",
              {{"drink Lily", "60 ml = 2 oz gin", "stir"}});
  check_sheet("Name^Ingredient 1^Ml 1^Oz 1^Ingredient 2^Ml 2^Oz 2\nLily^gin^60^2^dry vermouth^15^1/2\n",
              {{"drink Lily", "60 ml = 2 oz gin", "15 ml = 1/2 oz dry vermouth"}});
  // Two that do not agree are told, and the second is not lost.
  Brought brought("Name,Ingredient,Oz,Ml,Method\nLily,gin,2,70,stir\n");
  INFO(brought.told);
  CHECK(brought.tells(2, "70 ml"));
  CHECK(brought.holds("# 2 oz = 70 ml gin"));
}

TEST_CASE("an amount in two units on a line is read as both", "[new]") {
  for (std::string_view line : {"60 ml (2 oz) gin", "60 ml / 2 oz gin", "60 ml = 2 oz gin",
                                "60 ml gin = 2 oz", "60ml (2oz) gin", "60 ml gin (2 oz)"}) {
    Brought brought("Lily\n" + std::string(line) + "\n10 ml dry vermouth\nstir\n");
    INFO(brought.told);
    CHECK(brought.is_sound());
    CHECK((brought.has_line("60 ml = 2 oz gin") || brought.has_line("60 ml / 2 oz gin")));
    CHECK(brought.specs.findings.empty());
  }
}

TEST_CASE("a sheet with a drink a column is turned", "[new]") {
  check_sheet(
      "^Heron^Kiln\nGlass^coupe^rocks\nIngredient 1^45 ml cognac^60 ml gin\n"
      "Ingredient 2^20 ml triple sec^15 ml dry vermouth\nIngredient 3^20 ml lemon juice^\n"
      "Method^\"shake; double strain\"^stir\nGarnish^orange twist^\n",
      {heron, kiln});
  check_sheet(
      "Drink^Heron^Kiln\n^^\nGlass^coupe^rocks\nIngredients^45 ml cognac^60 ml gin\n"
      "^20 ml triple sec^15 ml dry vermouth\n^20 ml lemon juice^\n"
      "Method^\"shake; double strain\"^stir\nGarnish^orange twist^\n",
      {heron, kiln});
  check_sheet(
      "^Heron^Kiln\nGlas^Coupe^rocks\ncognac^45 ml^\ntriple sec^20 ml^\nlemon juice^20 ml^\n"
      "gin^^60 ml\ndry vermouth^^15 ml\nZubereitung^\"shake; double strain\"^stir\n"
      "Garnitur^orange twist^\n",
      {heron, kiln});
  check_sheet(
      "Name^Heron^Kiln\nIngredient 1^cognac^gin\nAmount 1^45 ml^60 ml\nIngredient 2^lemon juice^\n"
      "Amount 2^20 ml^\nMethod^shake^stir\n",
      {{"drink Heron", "45 ml cognac", "20 ml lemon juice", "shake"}, {"drink Kiln", "60 ml gin", "stir"}});
  // The line of the sheet is told, though the cell stands elsewhere now.
  Brought brought(
      "\tHeron\tKiln\nGlass\tcoupe\trocks\nIngredient 1\t45 ml wobble\t60 ml gin\nMethod\tshake\tstir\n");
  INFO(brought.told);
  CHECK(brought.tells(3, "wobble"));
}

TEST_CASE("columns that are lists below a name stand one below the other", "[new]") {
  for (const std::string text :
       {"Lily | Heron\n50 ml gin | 40 ml rye\n20 ml lemon juice | 20 ml lime juice\nshake | stir\ncoupe | "
        "rocks\n",
        "| Lily | Heron |\n|---|---|\n| 50 ml gin | 40 ml rye |\n| 20 ml lemon juice | 20 ml lime juice |\n"
        "| shake | stir |\n| coupe | rocks |\n",
        "Lily,Heron\n50 ml gin,40 ml rye\n20 ml lemon juice,20 ml lime juice\n\"shake\",stir\ncoupe,rocks\n",
        "Lily;Heron\n50 ml gin;40 ml rye\n20 ml lemon juice;20 ml lime juice\nshake;stir\ncoupe;rocks\n"}) {
    Brought brought(text);
    INFO(text << "----\n" << brought.told);
    CHECK(brought.is_sound());
    CHECK(has_lines(brought, {"drink Lily", "glass coupe", "50 ml gin", "20 ml lemon juice", "shake"}));
    CHECK(has_lines(brought, {"drink Heron", "glass rocks", "40 ml rye", "20 ml lime juice", "stir"}));
    check_words_kept(text, brought.specs.text);
  }
  // A name with its glass and amounts two on a line are one drink.
  for (const std::string text :
       {"Lily | coupe\n50 ml gin | 20 ml lemon juice\n10 ml honey syrup | 10 ml water\nshake | strain\n",
        "Lily, coupe\n50 ml gin, 20 ml lemon juice\n10 ml honey syrup, 10 ml water\nshake, strain\n"}) {
    Brought brought(text);
    INFO(text << "----\n" << brought.told);
    CHECK(brought.specs.drinks == 1);
    CHECK(brought.has_line("glass coupe"));
  }
}

TEST_CASE("rows that say nothing part the drinks of a sheet, and its title is a heading", "[new]") {
  check_sheet(
      "Winter list^^^^\n^^^^\nCocktail^Glas^Zutat^Menge^Zubereitung\nKiln^rocks^gin^60 ml^stir\n"
      "^^dry vermouth^15 ml^\n^^^^\nHeron^Coupe^cognac^45 ml^shake\n^^lemon juice^20 ml^\n",
      {{"drink Kiln", "glass rocks", "60 ml gin", "15 ml dry vermouth", "stir"},
       {"drink Heron", "glass coupe", "45 ml cognac", "20 ml lemon juice", "shake"}});
}

TEST_CASE("a table of bars without a rule below its head is a table", "[new]") {
  for (std::string_view edge : {"", "| "}) {
    const std::string end = edge.empty() ? "\n" : " |\n", begin(edge);
    const auto text = begin + "Nombre | Copa | Ingredientes | Elaboración" + end + begin +
                      "Kiln | rocks | 60 ml gin, 15 ml dry vermouth | stir" + end + begin +
                      "Heron | coupe | 45 ml cognac, 20 ml lemon juice | shake" + end;
    Brought brought(text);
    INFO(text << "----\n" << brought.told);
    CHECK(brought.is_sound());
    CHECK(brought.specs.drinks == 2);
    CHECK(has_lines(brought, {"drink Kiln", "glass rocks", "60 ml gin", "15 ml dry vermouth", "stir"}));
    CHECK(has_lines(brought, {"drink Heron", "glass coupe", "45 ml cognac", "20 ml lemon juice", "shake"}));
    check_words_kept(text, brought.specs.text);
  }
}

TEST_CASE("an amount of nothing says so", "[new]") {
  Brought brought("Lily\n50 ml gin\n20 ml\nshake\n");
  INFO(brought.told);
  CHECK(brought.tells(3, "`20 ml NAME`"));
}

// Where one drink ends and the next begins, what is a name and what a step, what is a drink and what a prep,
// in texts as bars keep them: the bars and the drinks are made up.
#include <algorithm>
#include <catch2/catch.hpp>

#include "base/text.h"
#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::check_lines;
using gill::testing::lost_words;

namespace {

const std::string keel = "Keel\n45 ml gin\n20 ml lemon juice\nshake\nstrain\n";

/// A drink's own lines, from its head to the next.
std::string lines_of(const Brought& brought, const std::string& head) {
  auto at = brought.specs.text.find(head + "\n");
  if (at == std::string::npos) return "no " + head;
  auto end = std::min({brought.specs.text.find("\ndrink ", at), brought.specs.text.find("\nprep ", at),
                       brought.specs.text.size()});
  return brought.specs.text.substr(at, end - at);
}

bool holds(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

void check_alone(const std::string& line, const std::string& head, const std::vector<std::string>& words) {
  for (const auto& text :
       {keel + "\n" + line + "\n", line + "\n\n" + keel, keel + "\n" + line + "\n\n" + keel}) {
    Brought brought(text);
    INFO(text << "----\n" << brought.told);
    CHECK(brought.is_sound());
    CHECK(brought.has_line(head));
    for (const auto& one : words) {
      CAPTURE(one);
      CHECK(holds(lines_of(brought, head), one));
    }
    CHECK(lines_of(brought, "drink Keel")
              .starts_with("drink Keel\n  45 ml  gin\n  20 ml  lemon juice\n  shake\n  strain\n"));
    CHECK(lost_words(text, brought.specs.text) == std::vector<std::string>{});
  }
}

}  // namespace

TEST_CASE("a name with its glass and its ice behind it begins its drink", "[new]") {
  for (std::string_view name :
       {"Black Ice - rocks, big cube", "2) Black Ice - rocks, big cube", "Black Ice - rocks",
        "Black Ice, rocks, big cube", "Black Ice (rocks, big cube)", "Black Ice: rocks, big cube",
        "Black Ice – rocks / big cube", "Black Ice -- rocks, big cube", "Black Ice | rocks | big cube",
        "Black Ice · rocks · big cube", "Black Ice → rocks, big cube", "black ice - rocks, big cube",
        "**Black Ice** - rocks, big cube", "Black Ice - rocks, big clear slab"})
    for (std::string_view above :
         {"Snow Line\n45ml gin\n20ml lemon\nshake, strain\n\n", "", "Winter list\n\n"}) {
      const std::string text =
          std::string(above) + std::string(name) + "\n2oz bourbon\n1 bsp maple syrup\nstir 30 sec\n";
      Brought brought(text);
      INFO(text << "----\n" << brought.told);
      CHECK(brought.is_sound());
      CHECK(brought.specs.drinks == (above.starts_with("Snow") ? 2 : 1));
      auto begin = std::min(brought.specs.text.find("drink Black Ice\n"),
                            brought.specs.text.find("drink black ice\n"));
      REQUIRE(begin != std::string::npos);
      auto own = brought.specs.text.substr(begin);
      CHECK(holds(own, "glass  rocks"));
      CHECK(holds(own, "2 oz  bourbon"));
      CHECK(holds(own, name.find("slab") != std::string_view::npos  ? "# big clear slab"
                       : name.find("big") != std::string_view::npos ? "big cube"
                                                                    : "stir 30 sec"));
    }
  for (std::string_view name : {"86 Reasons - rocks, big cube", "5 - Ice Road - rocks, big cube"})
    check_lines(Brought(keel + "\n" + std::string(name) + "\n60 ml bourbon\nstir 20 s\n"),
                {"drink Keel", name.starts_with("86") ? "drink \"86 Reasons\"" : "drink Ice Road",
                 "glass rocks", "60 ml bourbon"});
  // A name that is a glass's as well.
  check_lines(Brought(keel + "\nOld Fashioned - rocks, big cube\n60 ml bourbon\nstir 20 s\n"),
              {"drink Keel", "drink Old Fashioned", "glass rocks", "60 ml bourbon"});
  // A glass with its garnish below the amounts is no name.
  Brought served("Keel\n45 ml gin\n20 ml lemon juice\nshake\nCoupe - lemon twist\n10 ml soda water\n");
  INFO(served.told);
  CHECK(served.specs.drinks == 1);
}

TEST_CASE("a line that begins with a step's word is no name", "[new]") {
  for (std::string_view step :
       {"Fine strain into 2 coupes", "Strain into two coupes", "Strain over 3 cubes",
        "Pour into 4 shot glasses", "FINE STRAIN INTO 2 COUPES", "Double Strain Into Two Coupes",
        "Gently stir for 2 songs", "Then strain into 2 coupes", "Stir 40 Times", "Filtrer dans deux coupes",
        "Colar en 2 copas", "Filtrare in 2 coppe", "In zwei Gläser abseihen", "Verser dans 2 verres",
        "Divide between 2 coupes", "Serve in two glasses"})
    for (std::string_view last : {"3 drops orange bitters", "20 ml soda water", "5 ml absinthe"}) {
      const std::string text = "Two\n100 ml gin\n40 ml lemon juice\nshake\n" + std::string(step) + "\n" +
                               std::string(last) + "\n\nNext\n50 ml vodka\nshake\n";
      Brought brought(text);
      INFO(text << "----\n" << brought.told);
      CHECK(brought.is_sound());
      CHECK(brought.specs.drinks == 2);
      CHECK(holds(base::fold_name(lines_of(brought, "drink Two")), base::fold_name(step)));
      CHECK(lost_words(text, brought.specs.text) == std::vector<std::string>{});
    }
  // Words of steps in names.
  for (std::string_view name : {"Dry Dock", "Hard Rain", "Press Gang", "Double Down", "Rest in Peace",
                                "dry dock", "Float On", "Fine Line", "Dry Dock 49"}) {
    Brought brought(keel + "\n" + std::string(name) + "\n50 ml vodka\n20 ml lime juice\nshake\n");
    INFO(brought.told);
    CHECK(brought.specs.drinks == 2);
    CHECK((brought.holds("drink " + std::string(name)) || brought.holds("drink \"" + std::string(name))));
  }
}

TEST_CASE("a drink or a prep on a line of its own is one of its own, read or not", "[new]") {
  check_alone("Moor: 50ml vodka/20ml lime/20ml honey syrup/shake/double strain/coupe", "drink Moor",
              {"50 ml  vodka", "20 ml  lime juice", "20 ml  honey syrup", "glass  coupe", "double strain"});
  check_alone("Moor: 30 ml wobble cordial, 20 ml lime juice. throw x 5", "drink Moor",
              {"# 30 ml wobble cordial", "20 ml  lime juice", "throw x 5"});
  check_alone("Moor: vodka 30 ml, lime juice 20 ml. shake, strain", "drink Moor",
              {"30 ml  vodka", "20 ml  lime juice", "shake", "strain"});
  check_alone("Moor: vodka, lime, mint. Shake, strain", "drink Moor",
              {"vodka", "lime", "mint", "shake", "strain"});
  check_alone("Moor - vodka, lime, mint. Shake, strain", "drink Moor", {"vodka", "lime", "mint", "shake"});
  check_alone("2 Left Feet: 30 ml vodka, 20 ml lime juice, shake, strain", "drink \"2 Left Feet\"",
              {"30 ml  vodka", "20 ml  lime juice"});
  check_alone("2 Left Feet - 30 ml vodka, 20 ml lime juice, shake, strain", "drink \"2 Left Feet\"",
              {"30 ml  vodka"});
  check_alone("86 Reasons: 30 ml vodka, 20 ml lime juice, shake, strain", "drink \"86 Reasons\"",
              {"30 ml  vodka", "20 ml  lime juice"});
  check_alone("One Last Time: 30 ml vodka, 20 ml lime juice, shake, strain", "drink One Last Time",
              {"30 ml  vodka"});
  check_alone("Moor (coupe): 50 ml vodka, 20 ml lime juice, shake, strain", "drink Moor",
              {"glass  coupe", "50 ml  vodka"});
  check_alone("Moor: wobble, frob, crank", "drink Moor", {"wobble", "frob", "crank"});
  check_alone("Honey syrup: 2:1 honey:hot water, stir, keeps 3 wks fridge", "prep Honey syrup",
              {"2:1 honey:hot water", "stir", "keeps 3 wks fridge"});
  check_alone("Honey syrup - 200 g honey, 100 g hot water, stir", "prep Honey syrup",
              {"200 g  honey", "100 g  hot water"});
  // Bare numbers are one question.
  Brought bare(keel + "\nMoor (coupe): 50 vodka, 20 lime juice, shake, strain\n", "ml");
  check_lines(bare, {"drink Moor", "glass coupe", "50 ml vodka", "20 ml lime juice"});
  // One below the other.
  Brought stacked(keel +
                  "\nMoor: vodka, lime, mint. Shake, strain\nTern: 30 ml wobble, 20 ml lime juice. shake\n"
                  "Honey syrup: 2:1 honey:water, stir\n");
  check_lines(stacked, {"drink Keel", "drink Moor", "drink Tern", "prep Honey syrup"});
  CHECK(stacked.specs.drinks == 4);
}

TEST_CASE("a line of its own that says something of the drink above is no drink", "[new]") {
  for (std::string_view line :
       {"Gin - 45 ml", "Note: no ice, no straw", "NB: shake it hard, please", "Garnish: lemon twist, mint",
        "Finish: lemon twist, discard", "To serve: coupe, lemon twist", "Step 2: shake, strain",
        "Technique: shake, strain, coupe", "Allergens: egg, milk", "Variation: swap gin for vodka, no mint",
        "PS: Bea has the keys, ask her", "Soda - to top", "Story: sea, salt, rope", "Taste: sour, dry"}) {
    Brought brought(keel + "\n" + std::string(line) + "\n\nTern\n50 ml vodka\n20 ml lime juice\nshake\n");
    INFO(line << "----\n" << brought.told);
    CHECK(brought.is_sound());
    CHECK(brought.specs.drinks == 2);
  }
}

TEST_CASE("middle dots part a list, and arrows part steps", "[new]") {
  for (std::string_view dot : {" · ", " • ", "·"}) {
    const std::string sign(dot);
    Brought brought("Keel\n50 ml rye whiskey" + sign + "20 ml sweet vermouth" + sign +
                    "2 dashes aromatic bitters\nstir" + sign + "strain" + sign + "coupe\n");
    check_lines(brought, {"50 ml rye whiskey", "20 ml sweet vermouth", "2 dashes aromatic bitters", "stir",
                          "strain", "glass coupe"});
    CHECK(brought.specs.findings.empty());
  }
  for (std::string_view arrow : {" -> ", " → ", "->", " => ", " ➔ ", " > "}) {
    const std::string sign(arrow);
    Brought brought("Keel\n50 ml gin\n20 ml lemon juice\nshake" + sign + "double strain" + sign + "coupe" +
                    sign + "lemon twist\n");
    INFO(brought.told);
    check_lines(brought, {"shake", "double strain", "glass coupe", "garnish lemon twist"});
    CHECK(brought.specs.findings.empty());
  }
  check_lines(Brought("Keel\n50 ml gin\nshake/strain -> flute\n"), {"shake", "strain", "glass flute"});
  check_lines(Brought("Keel → 45 ml gin · 20 ml lemon juice · shake → strain\n"),
              {"drink Keel", "45 ml gin", "20 ml lemon juice", "shake", "strain"});
}

TEST_CASE("a mail's head is no drink, and marks around a name are none of it", "[new]") {
  const std::string mail = "From: Bea\nTo: bar team\nDate: Tue, 3 March\nSubject: the new ones\n\n";
  Brought brought(mail + keel + "\nVon: Bea\nAn: alle\nBetreff: noch einer\n\nTern\n50 ml vodka\nshake\n");
  check_lines(brought, {"# From: Bea", "# To: bar team", "# Date: Tue, 3 March", "# Subject: the new ones",
                        "drink Keel", "# Betreff: noch einer", "drink Tern"});
  CHECK(brought.specs.drinks == 2);
  // Below the last drink, too, it is there.
  CHECK(Brought(keel + "\n" + mail).has_line("# Subject: the new ones"));
  CHECK(Brought(mail).holds("the new ones"));
  for (std::string_view name :
       {"“Snow Line”", "\"Snow Line\"", "„Snow Line“", "«Snow Line»", "« Snow Line »", "‘Snow Line’"})
    for (std::string_view number : {"", "4 - ", "4. ", "4) ", "#4 - "}) {
      Brought quoted(keel + "\n" + std::string(number) + std::string(name) +
                     "\n50 ml vodka\n20 ml lime juice\nshake\n");
      check_lines(quoted, {"drink Keel", "drink Snow Line", "50 ml vodka"});
      CHECK(quoted.specs.drinks == 2);
    }
  CHECK(Brought(keel + "\n4 - \"Fondue\" (no, really)\n50 ml vodka\nshake\n")
            .holds("drink \"Fondue (no, really)\"\n"));
}

TEST_CASE("a row of a table whose columns are named is a drink, and so are the rows of one drink", "[new]") {
  for (char sign : {'\t', ';', ','}) {
    std::string text =
        "Name|Spirit|Mod|Citrus|Sweet|Method\nKeel|45 ml gin|10 ml dry vermouth|20 ml lemon juice|15 ml "
        "honey syrup|shake\n"
        "Tern|50 ml vodka||20 ml lime juice||shake\nMoor|mystery spirit||||stir\n";
    std::replace(text.begin(), text.end(), '|', sign);
    Brought brought(text);
    check_lines(brought, {"drink Keel", "45 ml gin", "10 ml dry vermouth", "15 ml honey syrup", "drink Tern",
                          "50 ml vodka", "drink Moor", "stir"});
    CHECK(brought.specs.drinks == 3);
    std::string rows =
        "Cocktail|Ingredient|Qty|Unit\nKeel|gin|45|ml\nKeel|lemon juice|20|ml\n|honey "
        "syrup|15|ml\nTern|vodka|50|ml\nTern|lime juice|20|ml\n";
    std::replace(rows.begin(), rows.end(), '|', sign);
    Brought grouped(rows);
    check_lines(grouped, {"drink Keel", "45 ml gin", "20 ml lemon juice", "15 ml honey syrup", "drink Tern",
                          "50 ml vodka", "20 ml lime juice"});
    CHECK(grouped.specs.drinks == 2);
    CHECK(holds(lines_of(grouped, "drink Tern"), "lime juice"));
  }
}

TEST_CASE("an amount behind its tab and a top of what the list names are read", "[new]") {
  check_lines(Brought("Keel\nGin\t45\nLemon\t20\nshake\n", "ml"),
              {"drink Keel", "45 ml Gin", "20 ml lemon juice", "shake"});
  Brought top(
      "Keel\n45 ml gin\n20 ml lemon juice\n60 ml soda water\nShake all but the soda, strain into a highball "
      "with ice, top "
      "with soda\n");
  INFO(top.told);
  check_lines(top, {"shake all but the soda", "strain into a highball with ice", "top 60 ml soda water"});
  CHECK(top.tells(5, "`60 ml soda water` of the list"));
  CHECK(top.specs.text.find("soda water") == top.specs.text.rfind("soda water"));
}

// The shape is that of schema.org/Recipe (schema.org vocabulary, property recipeCategory); the recipes are
// made up.
TEST_CASE("a glass, a category of drinks and a shake with ice make a drink whatever its name", "[new]") {
  auto recipe = [](const std::string& name, const std::string& method, const std::string& category = {}) {
    return R"({"@type":"Recipe","name":")" + name + "\"," +
           (category.empty() ? "" : R"("recipeCategory":")" + category + "\",") +
           R"("recipeIngredient":["45 ml gin","20 ml lemon juice","15 ml honey syrup"],"recipeInstructions":[")" +
           method + "\"]}";
  };
  for (const char* name :
       {"Sea Foam", "Harbour Shrub", "Pickle Brine", "Last Cordial", "House Mix", "Winter Stock"}) {
    for (const char* method :
         {"Shake with ice; double strain into a coupe.", "Shake with ice. Strain.",
          "Build over ice in a highball.", "Shake. Double strain into a chilled coupe."}) {
      Brought brought(recipe(name, method));
      INFO(method << "\n" << brought.told);
      CHECK(brought.holds("drink " + std::string(name)));
      CHECK(brought.is_sound());
    }
    Brought by_category(recipe(name, "Shake.", "Cocktail"));
    INFO(by_category.told);
    CHECK(by_category.holds("drink " + std::string(name)));
    // On one line, and as plain lines.
    CHECK(Brought(keel + "\n" + name +
                  ": 45 ml gin, 20 ml lemon juice, shake with ice, double strain into a coupe\n")
              .holds("drink " + std::string(name)));
    CHECK(Brought(std::string(name) + "\n45 ml gin\n20 ml lemon juice\nShake with ice, strain into a coupe\n")
              .holds("drink " + std::string(name)));
    // What is made ahead stays a prep.
    CHECK(Brought(recipe(name, "Stir, strain into a jar, keep chilled.")).holds("prep " + std::string(name)));
    CHECK(Brought(recipe(name, "Stir over an ice bath. Bottle.")).holds("prep " + std::string(name)));
  }
  CHECK(Brought(recipe("Sea Glass", "Stir. Bottle.", "Syrups")).holds("prep Sea Glass"));
}

TEST_CASE("a heading with leaders or a gap before its glass is a name, numbered or not", "[new]") {
  for (std::string_view number : {"", "1) ", "1. "})
    for (std::string_view gap : {"............", " ..... ", "\t", "        "}) {
      const std::string text = std::string(number) + "Black Ice" + std::string(gap) +
                               "coupe\n50 ml gin\n20 ml lemon juice\nshake, strain\ng: 3 drops Angostura "
                               "bitters\n\n" +
                               std::string(number) + "Snow Line" + std::string(gap) +
                               "rocks, big ice\n45 ml rye whiskey\nstir\n";
      Brought brought(text);
      INFO(text << "----\n" << brought.told);
      CHECK(brought.specs.drinks == 2);
      CHECK(holds(lines_of(brought, "drink Black Ice"), "glass  coupe"));
      CHECK(holds(lines_of(brought, "drink Snow Line"), "glass  rocks"));
      CHECK(lost_words(text, brought.specs.text) == std::vector<std::string>{"g"});
    }
}

TEST_CASE("the last line of a drink is none of its own, whatever stands in the next heading", "[new]") {
  for (std::string_view last : {"see Ines for the gin", "(very cold)", "g: mint", "lengthen it at the table"})
    for (std::string_view next : {"Snow Line (rocks)", "Snow Line - rocks", "Snow Line", "snow line, rocks"})
      for (std::string_view labels : {"", "Glass: coupe\nGarnish: mint\n"}) {
        const std::string text = keel + std::string(last) + "\n" + std::string(labels) + "\n" +
                                 std::string(next) + "\n45 ml rye whiskey\nstir\n";
        Brought brought(text);
        INFO(text << "----\n" << brought.told);
        CHECK(brought.specs.drinks == 2);
        CHECK((brought.has_line("drink Snow Line") || brought.has_line("drink snow line")));
        if (!labels.empty()) CHECK(holds(lines_of(brought, "drink Keel"), "glass  coupe"));
      }
}

TEST_CASE("a short word before steps is the method's label, and no drink or prep", "[new]") {
  for (std::string_view label :
       {"Prep:", "M:", "Meth.:", "Meth:", "Prép. :", "Procedimento:", "Tecnica:", "Elaboración:", "Técnica:"})
    for (std::string_view step : {"", "muddle\n"}) {
      const std::string text = "Keel\n50 ml gin\n20 ml lemon juice\n" + std::string(step) +
                               std::string(label) + " shake, strain\n\nTern\n40 ml vodka\nstir\n";
      Brought brought(text);
      INFO(text << "----\n" << brought.told);
      CHECK(brought.specs.drinks == 2);
      CHECK(!brought.holds("prep "));
      CHECK(holds(lines_of(brought, "drink Keel"), "shake\n  strain"));
    }
  // A prep by its name all the same.
  CHECK(
      Brought(keel + "\nPrep: Honey syrup\n500 g honey\n250 ml water\nstir\n").has_line("prep Honey syrup"));
}

TEST_CASE("a sheet with several ingredients a row has them all in its drink", "[new]") {
  for (char sign : {'\t', ';', ','})
    for (std::string_view head : {"Cocktail|Glass|Ingredient 1|Amount 1|Ingredient 2|Amount 2|Method|Garnish",
                                  "Name|Glas|Zutat 1|Menge 1|Zutat 2|Menge 2|Zubereitung|Garnitur",
                                  "Cocktail|Glass|Ingredient|Amount|Ingredient|Amount|Method|Garnish"}) {
      std::string text = std::string(head) +
                         "\nKeel|coupe|gin|50 ml|lemon juice|25 ml|shake|lemon twist\n"
                         "Tern|highball|vodka|40 ml|||build|lime wheel\n";
      std::replace(text.begin(), text.end(), '|', sign);
      Brought brought(text);
      INFO(text << "----\n" << brought.told);
      CHECK(brought.specs.drinks == 2);
      for (const char* words : {"glass  coupe", "50 ml  gin", "25 ml  lemon juice", "shake", "lemon twist"})
        CHECK(holds(lines_of(brought, "drink Keel"), words));
      for (const char* words : {"glass  highball", "40 ml  vodka", "build", "lime wheel"})
        CHECK(holds(lines_of(brought, "drink Tern"), words));
    }
  Brought before(
      "Cocktail;Amount 1;Unit 1;Ingredient 1;Amount 2;Unit 2;Ingredient 2\nKeel;50;ml;gin;25;ml;lemon "
      "juice\nTern;40;ml;vodka;;ml;\n");
  check_lines(before, {"drink Keel", "50 ml gin", "25 ml lemon juice", "drink Tern", "40 ml vodka"});
  // One column an ingredient; a number that is none says whose it is.
  Brought columns(
      "Drink,gin,vodka,lemon juice,No.,Glass,Method\nKeel,50,,25,7,coupe,shake\nTern,,40,,8,,stir\n", "ml");
  check_lines(columns,
              {"drink Keel", "50 ml gin", "25 ml lemon juice", "glass coupe", "drink Tern", "40 ml vodka"});
  CHECK(columns.holds("No.: 7"));
  CHECK(!columns.holds("``"));
  CHECK(columns.told.find("called ``") == std::string::npos);
}

TEST_CASE("a drink that is called like its glass is one of a list of drinks", "[new]") {
  Brought card(
      "Apple Zing - 120 ml apple juice, 15 ml lemon juice\nWine (red) - 150 ml red wine\nBeer - 500 ml "
      "lager\nWater - 500 ml water\n");
  INFO(card.told);
  CHECK(card.specs.drinks == 4);
  CHECK(holds(lines_of(card, "drink Water"), "500 ml  water"));
  CHECK(!holds(lines_of(card, "drink Apple Zing"), "500 ml"));
  Brought hot(
      "- Apple Zing: 120 ml apple juice, 15 ml lemon juice\n- Tea: 1 bag English breakfast tea, 250 ml "
      "water\n- Coffee: 30 ml espresso\n- Cocoa: 200 ml milk, 20 g chocolate\n- Tea (mint) 250 ml water\n- "
      "Hot Water: 250 ml water\n");
  INFO(hot.told);
  CHECK(hot.specs.drinks == 6);
  CHECK(holds(lines_of(hot, "drink Coffee"), "30 ml  espresso"));
  CHECK(!holds(lines_of(hot, "drink Apple Zing"), "250 ml"));
  // In a drink they are what goes in.
  Brought toddy("Warm Deck\n50 ml bourbon\nTea: 100 ml water\nstir\n");
  INFO(toddy.told);
  CHECK(toddy.specs.drinks == 1);
}

TEST_CASE("a heading with its bottle beside it keeps its name", "[new]") {
  for (std::string_view head :
       {"Night Deck (1L bottle)", "Night Deck, 1 L bottle", "Night Deck - 1 L bottle"}) {
    Brought brought(std::string(head) + "\nvodka 500ml\nlemon juice 125ml\nwater 125ml\n");
    INFO(head << "\n" << brought.told);
    CHECK(brought.has_line("prep Night Deck"));
    CHECK(brought.has_line("500 ml vodka"));
    CHECK((brought.holds("1L bottle") || brought.holds("1 L bottle")));
    CHECK(!brought.holds("Unnamed"));
  }
  Brought bowl("POOL BOWL serves 8\n600 ml aged rum\n300 ml lemon juice\nstir\n");
  check_lines(bowl, {"drink POOL BOWL", "serves 8"});
  Brought served(keel + "To serve: 90ml gin + 30ml espresso, shake, coupe\n");
  INFO(served.told);
  CHECK(served.specs.drinks == 1);
}

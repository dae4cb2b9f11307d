// Drinks that are called like a glass, prices beside names and amounts, and the marks of chats and pages, in
// texts as bars keep them. The bars and the drinks are made up.
#include <catch2/catch.hpp>

#include "base/text.h"
#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::lost_words;

namespace {

const std::string lily_above = "Lily\n50 ml gin\nshake, strain, coupe\n\n";

/// A drink's own lines, with single spaces, from its head to the next.
std::string drink_of(const Brought& brought, const std::string& head) {
  auto at = brought.specs.text.find(head + "\n");
  if (at == std::string::npos) return "no " + head;
  auto end = std::min({brought.specs.text.find("\ndrink ", at), brought.specs.text.find("\nprep ", at),
                       brought.specs.text.size()});
  std::string lines;
  for (char c : brought.specs.text.substr(at, end - at))
    if (c != ' ' || (!lines.empty() && lines.back() != ' ' && lines.back() != '\n')) lines += c;
  return lines;
}

bool says(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

Brought checked(const std::string& text, std::size_t drinks) {
  Brought brought(text);
  INFO(text << "----\n" << brought.told);
  CHECK(brought.is_sound());
  CHECK(brought.specs.drinks == drinks);
  CHECK(lost_words(text, brought.specs.text) == std::vector<std::string>{});
  return brought;
}

}  // namespace

TEST_CASE("a name of a glass below a blank line is a name, whatever stands between it and its amounts",
          "[new]") {
  for (std::string_view name : {"Copper Mug", "Tin Cup", "Hot Toddy", "Half Pint", "Big Highball"})
    for (std::string_view between :
         {"", "Warm and long, for the fire.\n", "€12\n", "12 €\n", "serves 1\n", "\"Warm and long\"\n",
          "Cost: 2.10\n", "It is for the fire.\n12 EUR\n"}) {
      auto brought = checked(lily_above + std::string(name) + "\n" + std::string(between) +
                                 "45 ml cognac\n20 ml triple sec\nstir, strain, rocks\n",
                             2);
      INFO(brought.told);
      CHECK(says(drink_of(brought, "drink Lily"), "glass coupe\n50 ml gin\nshake\nstrain\n"));
      const auto drink = drink_of(brought, "drink " + std::string(name));
      CHECK(says(drink, "glass rocks\n"));
      CHECK(says(drink, "45 ml cognac\n20 ml triple sec\nstir\nstrain\n"));
    }
  // What ends the drink above is said of it.
  auto brought = checked(
      "Lily\n50 ml gin\nshake, strain, coupe\nStation: well\nCost: 2.10\n\nCopper Mug\n"
      "45 ml cognac\n20 ml triple sec\nstir, strain, rocks\n",
      2);
  CHECK(says(drink_of(brought, "drink Lily"), "# Station: well\n# Cost: 2.10\n"));
  CHECK(says(drink_of(brought, "drink Copper Mug"), "45 ml cognac\n"));
}

TEST_CASE("a glass below a blank line stays the glass of what is above where a name stands below it",
          "[new]") {
  auto brought = checked("Lily\n50 ml gin\nshake, strain\n\nCopper Mug\nIce Road\n45 ml cognac\nstir\n", 2);
  INFO(brought.told);
  CHECK(says(drink_of(brought, "drink Ice Road"), "45 ml cognac\nstir\n"));
}

TEST_CASE("a row of bars begins with a name, though a glass is called so", "[new]") {
  for (std::string_view row : {"Copper Mug | 45 ml cognac / 20 ml triple sec | stir / strain | rocks",
                               "Copper Mug | 45 ml cognac, 20 ml triple sec | stir, strain | rocks"}) {
    auto brought = checked(lily_above + std::string(row) + "\n", 2);
    INFO(brought.told);
    CHECK(says(drink_of(brought, "drink Copper Mug"),
               "glass rocks\n45 ml cognac\n20 ml triple sec\nstir\nstrain\n"));
  }
}

TEST_CASE("an amount in brackets behind its thing is an amount", "[new]") {
  auto brought = checked("Lily\ncognac (45 ml)\nTriple sec (20 ml)\nstir\n", 1);
  INFO(brought.told);
  CHECK(brought.has_line("45 ml cognac"));
  CHECK(brought.has_line("20 ml Triple sec"));
  // A size beside a name is none.
  checked("Honey syrup (1 l)\n500 g honey\n250 g water\nstir\n", 1);
}

TEST_CASE("the batch of a drink below it is no other drink", "[new]") {
  for (std::string_view batch :
       {"Batch (10)", "Batch x10", "Batch x 10", "BATCH (x10)", "1L batch", "For 10", "Batch for 20 people",
        "Batch", "Pre-batch", "Bottled (700 ml)", "Für 10 Personen"}) {
    Brought brought(
        "Clay Pot\n35 ml rye\n25 ml bitter aperitivo\n" + std::string(batch) +
        ": 350 ml rye, 250 ml bitter aperitivo, 150 ml water\nstir, strain, rocks\nG: orange twist\n");
    INFO(brought.told);
    CHECK(brought.specs.drinks == 1);
    CHECK(brought.is_sound());
    CHECK(says(drink_of(brought, "drink Clay Pot"), "stir\nstrain\ngarnish orange twist\n"));
    CHECK(brought.tells(4, "350 ml rye"));
  }
}

TEST_CASE("a batch below a drink, its word alone, is the drink once more", "[new]") {
  for (std::string_view word : {"Batch:", "Pre-batch:", "BATCHED:"}) {
    Brought brought("Clay Pot\n35 ml rye\n25 ml bitter aperitivo\nstir\n\n" + std::string(word) +
                    "\n350 ml rye\n250 ml bitter aperitivo\n\nLily\n50 ml gin\nshake\n");
    INFO(brought.told);
    CHECK(brought.specs.drinks == 2);
    CHECK(says(drink_of(brought, "drink Clay Pot"), "35 ml rye\n25 ml bitter aperitivo\nstir\n"));
    CHECK(says(drink_of(brought, "drink Lily"), "50 ml gin\nshake\n"));
    CHECK(brought.tells(7, "350 ml rye"));
  }
}

TEST_CASE("pictures, marks of chats and the tags of pages are no words", "[new]") {
  auto brought = checked(
      "🍸 Lily\n▪️ 50 ml gin\n▪️ 20 ml lemon juice\n👉🏽 shake\n\n🧉 Heron\n✅ 50 ml rye\n"
      "❄️ stir\n",
      2);
  INFO(brought.told);
  CHECK(says(drink_of(brought, "drink Lily"), "50 ml gin\n20 ml lemon juice\nshake\n"));
  CHECK(says(drink_of(brought, "drink Heron"), "50 ml rye\nstir\n"));
  Brought table(
      "| Name | Ingredients | Method | Glass |\n|---|---|---|---|\n"
      "| Lily | 50 ml gin<br>20 ml lemon juice<br/> | <b>shake</b>, strain | coupe |\n");
  INFO(table.told);
  CHECK(table.specs.findings.empty());
  CHECK(says(drink_of(table, "drink Lily"), "glass coupe\n50 ml gin\n20 ml lemon juice\nshake\nstrain\n"));
}

TEST_CASE("a label may name the drink in several words", "[new]") {
  for (std::string_view label :
       {"Cocktail Name", "Drink name", "Name of drink", "Titel", "Título", "Nom", "Nome"}) {
    Brought brought(std::string(label) + ": Lily\n50 ml gin\nshake\n");
    INFO(brought.told);
    CHECK(brought.has_line("drink Lily"));
    CHECK(brought.specs.findings.empty());
  }
}

TEST_CASE("a price beside a name is no part of it, and nothing of it is lost", "[new]") {
  for (std::string_view head :
       {"Ferryman\t€14", "Ferryman   14 €", "Ferryman €14", "Ferryman (14 €)", "Ferryman ....... 14 €",
        "Ferryman - 14 EUR", "Ferryman, 14.-", "Ferryman\n€14", "Ferryman          14.50", "Ferryman\t14,50",
        "Ferryman 14.50"}) {
    auto brought = checked(lily_above + std::string(head) + "\n45 ml rye\nstir\n", 2);
    INFO(head << "\n" << brought.told);
    CHECK(says(drink_of(brought, "drink Ferryman"), "45 ml rye\nstir\n# "));
    CHECK(brought.specs.findings.empty());
  }
  // A number alone is the name's.
  for (std::string_view name : {"Ward 8", "Wharf 12", "No. 7"}) {
    auto brought = checked(lily_above + std::string(name) + "\n45 ml rye\nstir\n", 2);
    INFO(brought.told);
    CHECK((brought.has_line("drink " + std::string(name)) ||
           brought.has_line("drink \"" + std::string(name) + "\"")));
  }
}

TEST_CASE("a price beside an amount is no part of it", "[new]") {
  for (std::string_view line :
       {"Gin\t50 ml\t€0.99", "50 ml\tGin\t€0.99", "50 ml gin, €0.99", "Gin, 50 ml, €0.99",
        "Gin - 50 ml - 0.99", "50 ml gin (0,99 €)", "Gin 50 ml (€0.99)"}) {
    auto brought = checked("Lily\n" + std::string(line) + "\n20 ml lemon juice\nshake\n", 1);
    INFO(line << "\n" << brought.told);
    CHECK(brought.specs.findings.empty());
    CHECK(says(base::lower_ascii(drink_of(brought, "drink Lily")), "50 ml gin # "));
  }
}

TEST_CASE("a hot drink on one line is a drink of its own, whatever its brackets say", "[new]") {
  auto brought = checked(
      "Hot\n\nGrog - 50 ml dark rum, 20 ml honey, 150 ml water\nHot Water: 250 ml water\n"
      "Tea (English breakfast) 250 ml water\nMulled Wine (hot) 150 ml red wine\n"
      "Cocoa: 200 ml milk, 20 g chocolate\n",
      5);
  INFO(brought.told);
  CHECK(says(drink_of(brought, "drink Grog"), "50 ml dark rum\n20 ml honey\n150 ml water\n"));
  for (std::string_view head :
       {"drink Hot Water\n250 ml water", "drink Tea (English breakfast)\n250 ml water",
        "drink Mulled Wine (hot)\n150 ml red wine"}) {
    CAPTURE(head);
    CHECK(says(drink_of(brought, std::string(head.substr(0, head.find('\n')))), head));
  }
}

TEST_CASE("an amount behind its thing is no name, and a batch keeps what is done with it as a remark",
          "[new]") {
  auto brought = checked(
      "Night Porter (1L bottle)\nvodka 500ml\nwobble liq 250ml\ndemerara syrup 125ml\n"
      "moon dust 125ml\nwater 125ml\nTo serve: 90ml batch + 30ml espresso, shake, coupe\n\n"
      "Lily\n50 ml gin\nshake\n",
      2);
  INFO(brought.told);
  const auto prep = drink_of(brought, "prep Night Porter");
  for (std::string_view line : {"500 ml vodka", "125 ml demerara syrup", "125 ml water", "# moon dust 125ml",
                                "# To serve: 90ml batch + 30ml espresso, shake, coupe"}) {
    CAPTURE(line);
    CHECK(says(prep, line));
  }
  CHECK(brought.tells(7, "To serve"));
}

TEST_CASE("a keg that is made ahead and keeps is a prep", "[new]") {
  auto brought =
      checked("SPRITZ KEG (19L)\n5 l vodka\n3 l lemon juice\n11 l water\ncarbonate\nKeeps 2 weeks\n", 1);
  INFO(brought.told);
  CHECK(brought.has_line("prep SPRITZ KEG (19L)"));
  CHECK(brought.tells(6, "keeps 2 weeks chilled"));
}

TEST_CASE("what was called a prep and is served keeps the word", "[new]") {
  auto brought =
      checked("Lily\n10 ml gin\nshake\n\nPREP: rosemary soda 2:1\n50 ml soda water\nbuild\nrocks\n", 2);
  INFO(brought.told);
  CHECK(brought.has_line("# PREP: rosemary soda 2:1"));
  CHECK(checked("MISE\nHoney syrup\n500 g honey\n250 ml water\nstir\n", 1).has_line("prep Honey syrup"));
}

TEST_CASE("a glass alone between two drinks is told", "[new]") {
  auto brought = checked("Lily\n50 ml gin\nshake\nstrain\n\nCOUPE\n\nHeron\n50 ml rye\nstir\n", 2);
  INFO(brought.told);
  CHECK(brought.tells(6, "the glass of `Lily`"));
  // Where each line stands alone it is its drink's.
  CHECK(checked("Lily\n\n50 ml gin\n\nshake\n\ncoupe\n\nHeron\n\n50 ml rye\n\nstir\n", 2)
            .specs.findings.empty());
}

TEST_CASE("the number of a step is no amount", "[new]") {
  Brought brought(R"json({"@type":"Recipe","name":"Oat milk","recipeIngredient":["100 g oats","1 l water"],
"recipeInstructions":["1. Blend 30 s","2) Fine strain","Step 3: bottle"]})json");
  INFO(brought.told);
  CHECK(brought.has_line("blend 30 s"));
  CHECK(brought.has_line("fine strain"));
  CHECK(std::none_of(brought.specs.findings.begin(), brought.specs.findings.end(), [](const auto& finding) {
    return finding.message.find("called") != std::string::npos;
  }));
}

TEST_CASE("a glass's word with how it is behind a comma is a name above amounts", "[new]") {
  for (std::string_view name : {"Toddy, hot", "Martini, 3 ways"}) {
    auto brought = checked(lily_above + std::string(name) + "\n60 ml rye\n15 ml honey syrup\nstir\n", 2);
    INFO(brought.told);
    CHECK(says(drink_of(brought, "drink \"" + std::string(name) + "\""),
               "60 ml rye\n15 ml honey syrup\nstir\n"));
  }
}

TEST_CASE("how warm a thing is poured is read or told", "[new]") {
  for (std::string_view thing : {"hot apple juice", "hot red wine", "chilled milk"}) {
    auto brought = checked("Lily\n180 ml " + std::string(thing) + "\n15 ml honey syrup\nbuild, mug\n", 1);
    INFO(brought.told);
    const auto warmth = thing.substr(0, thing.find(' '));
    const auto line = drink_of(brought, "drink Lily");
    const auto amount =
        line.substr(line.find("180 ml"), line.find('\n', line.find("180 ml")) - line.find("180 ml"));
    CHECK((says(amount.substr(0, amount.find('#')), warmth) || brought.tells(2, warmth)));
  }
  CHECK(Brought("Lily\n180 ml hot apple juice\nbuild\n").has_line("180 ml hot apple juice"));
}

TEST_CASE("a drink a line, its fields parted by a semicolon or in quotes", "[new]") {
  for (const std::string text :
       {"Ember Sour; 50 ml rye whiskey; 25 ml lemon juice; shake 12 s; double strain; coupe; lemon twist\n"
        "Tap Line; 45 ml white rum; 20 ml lime juice; shake 10 s; strain; highball; mint sprig\n",
        "\"Ember Sour\",\"50 ml rye whiskey, 25 ml lemon juice\",\"shake 12 s, double strain\",\"coupe\"\n"
        "\"Tap Line\",\"45 ml white rum, 20 ml lime juice\",\"shake 10 s, strain\",\"highball\"\n"}) {
    auto brought = checked(text, 2);
    INFO(brought.told);
    CHECK(says(drink_of(brought, "drink Ember Sour"), "glass coupe\n50 ml rye whiskey\n25 ml lemon juice\n"));
    CHECK(says(drink_of(brought, "drink Tap Line"), "glass highball\n45 ml white rum\n20 ml lime juice\n"));
  }
}

TEST_CASE("a dash between an amount and its thing says nothing", "[new]") {
  auto brought = checked("Lily\n50 ml - gin\n20 ml – lemon juice\nshake\n", 1);
  INFO(brought.told);
  CHECK(says(drink_of(brought, "drink Lily"), "50 ml gin\n20 ml lemon juice\n"));
}

TEST_CASE("labels in other words take no amount and no glass away", "[new]") {
  Brought brought("Recipe: Lily\nSPECS: 50 ml gin, 20 ml lemon juice\nHow: shake, strain\nServe: coupe\n");
  INFO(brought.told);
  CHECK(says(drink_of(brought, "drink Lily"), "glass coupe\n50 ml gin\n20 ml lemon juice\nshake\nstrain\n"));
  Brought built("Lily\nBuild: 50 ml rye, 25 ml lemon juice\nTechnique: shake 12 s, double strain\n");
  INFO(built.told);
  CHECK(says(drink_of(built, "drink Lily"), "50 ml rye\n25 ml lemon juice\nshake 12 s\ndouble strain\n"));
}

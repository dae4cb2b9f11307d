// Old specs whose words the language asks about, count or write in another language: the bar and the drinks
// are made up.
#include <algorithm>
#include <catch2/catch.hpp>

#include "costing/foreign_goods.h"
#include "importer/foreign_words.h"
#include "importer/ingredient_line.h"
#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::check_lines;
using gill::testing::errors_in;
using gill::testing::library;

namespace {

std::size_t findings_that_hold(const Brought& brought, std::string_view words) {
  return static_cast<std::size_t>(
      std::count_if(brought.specs.findings.begin(), brought.specs.findings.end(),
                    [&](const auto& one) { return one.message.find(words) != std::string::npos; }));
}

}  // namespace

TEST_CASE("a count in the midst of a spec is something that goes in, and parts no drink in two", "[new]") {
  for (std::string_view thing :
       {"1 Fu Manchu", "1 Smoked Gherkin", "3 Plum Slices", "1 House Cube", "2 Wasabi Peas"})
    for (std::string_view behind : {"shake\nstrain\n\nSecond\n50 ml gin\nstir\n", "shake\nstrain\n"}) {
      CAPTURE(thing, behind);
      Brought brought("Beta\n50 ml gin\n" + std::string(thing) + "\n" + std::string(behind));
      check_lines(brought, {"drink Beta", "50 ml gin", "shake", "strain"});
      CHECK(brought.specs.drinks == (behind.find("Second") == std::string_view::npos ? 1 : 2));
      CHECK(brought.holds(thing.substr(2)));
      CHECK_FALSE(brought.holds("drink \""));
    }
  // Below the name, and behind the steps.
  Brought first("Beta\n1 Wasabi Pea\n50 ml gin\nshake\n\nSecond\n50 ml gin\nstir\n");
  check_lines(first, {"# 1 Wasabi Pea"});
  CHECK(first.tells(2, "Wasabi Pea"));
  Brought last("Beta\n50 ml gin\nshake\n1 Wasabi Pea\n\nSecond\n50 ml gin\nstir\n");
  CHECK(last.specs.drinks == 2);
  CHECK(last.tells(4, "Wasabi Pea"));
  // A number begins a name where amounts stand right below it.
  check_lines(Brought("Beta\n50 ml gin\nshake\n\n7 Bells\n60 ml bourbon\nstir\n"), {"drink \"7 Bells\""});
}

TEST_CASE("a word that the language asks about stays a line, and one answer does for all", "[new]") {
  Brought brought(
      "Alpha\n50 ml rum\n15 ml sugar syrup\n2 dashes bitters\n1 egg\n10 ml vermouth\nshake\nstrain\n\n"
      "Beta\n2 eggs\n40 ml Rum (good one)\ntop with lemonade\nstir\n");
  check_lines(brought, {"50 ml rum", "15 ml sugar syrup", "2 dashes bitters", "1 egg", "10 ml vermouth",
                        "2 egg # 2 eggs", "top with lemonade"});
  CHECK(findings_that_hold(brought, "`rum` can mean") == 1);
  CHECK(brought.tells(2, "`mean rum = white rum`"));
  CHECK(brought.tells(2, "`white rum`, `aged rum` or `dark rum`"));
  CHECK(brought.tells(4, "`bitters` can mean"));
  // Answered as it was told, nothing is open any more.
  std::string house = "house B\n";
  for (const auto& finding : brought.specs.findings) {
    auto at = finding.message.find("`mean ");
    if (at != std::string::npos)
      house += "  " + finding.message.substr(at + 1, finding.message.rfind('`') - at - 1) + "\n";
  }
  for (const auto& error : errors_in(house + brought.specs.text)) UNSCOPED_INFO(error.message);
  CHECK(errors_in(house + brought.specs.text).empty());
}

TEST_CASE("parts stay parts, and the size that they fill is asked for once a drink", "[new]") {
  Brought brought(
      "Towpath Punch (serves 10)\n1 part rum\n2 parts apple juice\n25 ml lemon juice – fresh\nstir\n");
  check_lines(brought, {"drink Towpath Punch", "1 part rum", "2 parts apple juice",
                        "25 ml lemon juice, fresh", "serves 10"});
  CHECK(findings_that_hold(brought, "`size 90 ml`") == 1);
  CHECK(brought.tells(1, "`size 90 ml`"));
  auto with_size = brought.specs.text;
  with_size.insert(with_size.find('\n', with_size.find("drink Towpath")) + 1, "  size 90 ml\n");
  CHECK(errors_in("house B\n  mean rum = white rum\n" + with_size).empty());
  // Where the size stands, nothing is asked.
  CHECK(Brought("Kiln\nsize 90 ml\n1 part gin\n2 parts tonic water\nbuild\n").specs.findings.empty());
}

TEST_CASE("small numbers without a unit are one question, and half a fruit is counted", "[new]") {
  const std::string notes = "Gull\n0.75 lime\n1.5 gin\n0.5 honey syrup\n2 rye whiskey\nshake\n";
  Brought asked(notes);
  INFO(asked.told);
  CHECK(asked.specs.findings.size() == 1);
  CHECK(asked.tells(2, "`--numbers oz`"));
  check_lines(Brought(notes, "oz"),
              {"0.75 oz lime juice", "1.5 oz gin", "0.5 oz honey syrup", "2 oz rye whiskey"});
  Brought ml(notes, "ml");
  INFO(ml.told);
  for (std::size_t line : {2u, 3u, 4u, 5u}) CHECK(ml.tells(line, "`--numbers oz`"));
  check_lines(Brought("Gull\n1/2 lime\n50 ml gin\n2 limes\nshake\n"), {"1/2 lime", "2 limes"});
}

TEST_CASE("a number that begins with its point is a part of one, wherever it stands", "[new]") {
  for (std::string_view between : {" / ", ", ", "; "}) {
    CAPTURE(between);
    const std::string parting(between);
    Brought brought("Tea Time\n2 oz rye whiskey" + parting + ".75 oz lemon juice" + parting +
                    ".5 oz honey syrup\nstir 20 s\nstrain\n");
    INFO(brought.told);
    CHECK(brought.has_line("0.75 oz lemon juice"));
    CHECK(brought.has_line("0.5 oz honey syrup"));
  }
}

TEST_CASE("an amount behind its name is parted from the next by any sign, and asks when it is bare",
          "[new]") {
  for (std::string_view between : {" | ", " + ", " / ", "; "}) {
    CAPTURE(between);
    const std::string parting(between);
    Brought brought("Reed\nGin 40 ml" + parting + "Lime juice 20" + parting + "Honey syrup 10\nshake\n",
                    "ml");
    INFO(brought.told);
    check_lines(brought, {"40 ml Gin", "20 ml Lime juice", "10 ml Honey syrup", "shake"});
  }
  Brought asked("Reed\ngin 40\nlime juice 20\nshake\n");
  CHECK(asked.tells(2, "`--numbers ml`"));
  CHECK(asked.specs.findings.size() == 1);
  // A name that ends with a number is a name.
  CHECK(Brought("Ward 8\n40 ml gin\nshake\n", "ml").has_line("drink Ward 8"));
}

TEST_CASE("a step that is read in part alone stays a comment, whole", "[new]") {
  Brought brought("Reed\n40 ml lime juice\nShake w/ 1 large + 2 small cubes\nstrain\n");
  INFO(brought.told);
  CHECK(brought.has_line("# Shake w/ 1 large + 2 small cubes"));
  CHECK_FALSE(brought.has_line("2 small cubes"));
}

TEST_CASE("a heading alone before a name is nobody's step and nobody's garnish", "[new]") {
  for (std::string_view heading :
       {"STIRRED & BOOZY", "SHAKEN, UP", "Low ABV / Spritz", "NON-ALCOHOLIC", "NON-ALC", "STIRRED"}) {
    CAPTURE(heading);
    const std::string words(heading);
    const std::string strike = "Dock Strike\n50 ml bourbon\n20 ml lemon juice\nshake\nstrain\n\n";
    for (const auto& text : {strike + words + "\n\nQuay\n30 ml gin\nstir 25 s\n",
                             words + "\n\n" + strike + "Quay\n30 ml gin\nstir 25 s\n"}) {
      Brought brought(text);
      INFO(brought.told);
      check_lines(brought, {"# " + words, "drink Dock Strike", "50 ml bourbon", "20 ml lemon juice", "shake",
                            "strain", "drink Quay", "30 ml gin", "stir 25 s"});
      CHECK(brought.specs.findings.empty());
    }
  }
  // What tells somebody to do something is the last step of what is above, and so is a glass or a garnish.
  for (std::string_view last : {"Shake and strain", "Coupe", "Lemon twist"}) {
    CAPTURE(last);
    Brought brought("Dock Strike\n50 ml bourbon\n20 ml lemon juice\nshake\n\n" + std::string(last) +
                    "\n\nQuay\n30 ml gin\nstir 25 s\n");
    INFO(brought.told);
    CHECK_FALSE(brought.has_line("# " + std::string(last)));
    CHECK(brought.has_line("drink Quay"));
  }
}

TEST_CASE("a name with a sign in it is quoted, and its drink is read", "[new]") {
  for (std::string_view name : {"Warm Deck — hot", "Gull – Two", "Night → Day", "Salt “n” Smoke"}) {
    CAPTURE(name);
    Brought brought(std::string(name) + "\n50 ml gin\n20 ml lime juice\nshake\n");
    check_lines(brought, {"drink \"" + std::string(name) + "\"", "50 ml gin", "20 ml lime juice", "shake"});
    CHECK(brought.specs.findings.empty());
  }
}

TEST_CASE("counts behind their thing, dashes, flourishes and amounts that are about so much are read",
          "[new]") {
  Brought brought(
      "~ Reed ~\n~ 40ml white rum ~\nmint leaves x 8\n8 x mint leaves\n25 ml lemon juice – fresh\n10 ml "
      "honey "
      "syrup - house made\nca. 20 ml gin\n~15 ml gin\nIce: a big cube\nshake\n");
  check_lines(brought, {"drink Reed", "40 ml white rum", "8 mint leaves # mint leaves x 8",
                        "8 mint leaves # 8 x mint leaves", "25 ml lemon juice, fresh",
                        "10 ml honey syrup, house made", "about 15 ml gin", "ice big cube # a big cube"});
  CHECK(brought.specs.findings.empty());
  // A count that may be of several pieces says which.
  Brought mint("Reed\n50 ml gin\nmint x 8\nshake\n");
  CHECK(mint.tells(3, "Write `8 mint leaf` or `8 mint sprig`"));
}

TEST_CASE("of two glasses the first stays, and the second is told", "[new]") {
  Brought brought("Kiln\n*Sour / Coupe / Well*\n50 ml gin\nshake\n");
  check_lines(brought, {"glass sour", "# glass coupe"});
  CHECK(brought.tells(2, "A second glass"));
  CHECK(brought.tells(2, "Well"));
  CHECK(Brought("Kiln\ncoupe\n50 ml gin\nshake\nGlass: coupe\n").specs.findings.empty());
}

TEST_CASE("what is made ahead stands one a line below its heading", "[new]") {
  Brought brought(
      "Alpha\n60 ml gin\nshake\n\nSyrups\n"
      "Honey syrup: 2 parts honey, 1 part hot water. Stir. Keeps 2 weeks in fridge.\n"
      "Ginger: equal parts ginger juice & sugar, blend, strain, 5 days\n"
      "Grenadine 500ml pomegranate juice, 250 g sugar, heat till dissolved, bottle (keeps 1 month)\n");
  check_lines(brought, {"# Syrups", "prep Honey syrup", "# 2 parts honey", "# 1 part hot water", "stir",
                        "keeps 2 weeks in fridge", "prep Ginger", "blend", "strain", "prep Grenadine",
                        "500 ml pomegranate juice", "250 g sugar", "heat till dissolved",
                        "# bottle (keeps 1 month)", "bottle"});
  CHECK(brought.specs.drinks == 4);
  CHECK(brought.tells(6, "write what one batch takes"));
  CHECK(brought.tells(7, "`keeps 5 days chilled`"));
  // Nobody says where.
  CHECK(brought.tells(8, "`keeps 1 month chilled` or `keeps 1 month ambient`"));
  check_lines(Brought("Kiln Sour 60 ml gin, 20 ml lime juice, shake\n"),
              {"drink Kiln Sour", "60 ml gin", "20 ml lime juice", "shake"});
}

TEST_CASE("goods, units and steps of other languages are read, and their words stand beside", "[new]") {
  Brought german(
      "Hafenlicht\n5 cl Gin\n2,5 cl Zitronensaft\n1 Eiweiß\n1 BL Honig\n2 Spritzer Orangenbitter\nTrocken "
      "schütteln, "
      "schütteln, doppelt abseihen\nmit Sodawasser auffüllen\nGlas: Cocktailschale\nGarnitur: "
      "Zitronenzeste\n");
  check_lines(german, {"drink Hafenlicht", "5 cl Gin", "dry shake", "shake", "double strain"});
  for (const char* line : {"2.5 cl  lemon juice    # 2,5 cl Zitronensaft", "1  egg white    # 1 Eiweiß",
                           "glass  coupe", "garnish  lemon peel", "top with soda water"})
    CHECK(german.holds(line));
  CHECK(german.tells(6, "Orangenbitter"));
  Brought french(
      "Brise\n4 cl de rhum blanc\n2 cl de jus de citron vert\n8 feuilles de menthe\nsecouer, "
      "filtrer\ncompléter "
      "d'eau gazeuse\n");
  for (const char* line : {"4 cl  white rum", "2 cl  lime juice", "8  mint leaves", "shake", "strain"}) {
    INFO(french.told);
    CHECK(french.holds(line));
  }
  Brought spanish("Marea\n50 ml de ron\n25 ml de zumo de lima\nagitar, colar\ncompletar con agua con gas\n");
  INFO(spanish.told);
  for (const char* line : {"50 ml  rum", "25 ml  lime juice", "shake", "strain", "top with soda water"})
    CHECK(spanish.holds(line));
  CHECK(spanish.tells(2, "`rum` can mean"));
}

TEST_CASE("every thing of other languages is one that the library has or asks about", "[new]") {
  for (auto [foreign, english] : costing::foreign_goods()) {
    CAPTURE(foreign, english);
    CHECK(importer::english_thing(foreign) == english);
    auto line = importer::read_ingredient_line("30 ml " + std::string(english), library().house);
    REQUIRE(line);
    CHECK_FALSE(line->name.empty());
  }
}

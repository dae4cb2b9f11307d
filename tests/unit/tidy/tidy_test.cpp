// How a text is laid out and spelled, without the driver's look at what it means.
#include "tidy/tidy.h"

#include <catch2/catch.hpp>

#include "support/fixture.h"

using namespace gill;
using tidy::Extent;

namespace {

std::string tidied(std::string_view text, Extent extent = Extent::forms) {
  auto house = testing::compile(text);
  const auto& file = house.files.back();
  tidy::Tidier tidier(house.sources, {house.names, house.units}, house.specs, house.sink.all());
  std::vector<Extent> extents(file.declarations.size(), extent);
  return tidier.tidied(file, extents);
}

/// One line in a drink or a prep, as it comes out.
std::string line_in(const std::string& header, const std::string& line, Extent extent = Extent::forms) {
  std::string text = tidied(header + " Some Thing\n" + line + "\n", extent);
  text = text.substr(text.find('\n') + 1);
  if (!text.empty()) text.pop_back();
  return text;
}
std::string drink_line(const std::string& line, Extent extent = Extent::forms) {
  return line_in("drink", line, extent);
}
std::string prep_line(const std::string& line) { return line_in("prep", line); }

}  // namespace

TEST_CASE("amounts and names stand in two columns") {
  CHECK(tidied("drink Reed Sour\n"
               " family sour\n"
               "\t60ml rye whiskey\n"
               "  22.5 ml   lemon juice\n"
               "  1 egg white\n"
               "  dry shake 15s\n"
               "  strain\n") ==
        "drink Reed Sour\n"
        "  family         sour\n"
        "  60 ml          rye whiskey\n"
        "  22.5 ml        lemon juice\n"
        "  1              egg white\n"
        "  dry shake      15 s\n"
        "  strain\n");
}

TEST_CASE("a long first column widens it for its declaration alone, and the longest stands out") {
  CHECK(
      tidied("drink A\n  3/4 oz=22.5ml lemon juice\n  60 ml gin\n\ndrink B\n  60 ml gin\n") ==
      "drink A\n  3/4 oz = 22.5 ml  lemon juice\n  60 ml             gin\n\ndrink B\n  60 ml          gin\n");
  CHECK(tidied("prep sharp\n  1 l orange juice\n  until acid 6%w/v citric acid\n  until sugar 12 brix white "
               "sugar\n") ==
        "prep sharp\n"
        "  1 l             orange juice\n"
        "  until acid 6 % w/v   citric acid\n"
        "  until sugar 12 brix  white sugar\n");
}

TEST_CASE("numbers and units take the language's own spelling") {
  CHECK(drink_line("  ¾oz lemon juice") == "  3/4 oz         lemon juice");
  CHECK(drink_line("  1½ ounces lemon juice") == "  1 1/2 oz       lemon juice");
  CHECK(drink_line("  30 Millilitres lemon juice") == "  30 ml          lemon juice");
  CHECK(drink_line("  .75 oz lemon juice") == "  0.75 oz        lemon juice");
  CHECK(drink_line("  2 dash orange bitters") == "  2 dashes       orange bitters");
  CHECK(drink_line("  1 dashes orange bitters") == "  1 dash         orange bitters");
  CHECK(drink_line("  2 oz. of lemon juice") == "  2 oz           lemon juice");
  CHECK(drink_line("  60 ml+-2ml lemon juice,chilled") == "  60 ml ± 2 ml   lemon juice, chilled");
  CHECK(drink_line("  15..20ml lemon juice ,  at 4 °C") == "  15..20 ml      lemon juice, at 4 C");
  CHECK(drink_line("  2 parts lemon juice") == "  2 parts        lemon juice");
  CHECK(prep_line("  heat to 75°C for 10 minutes") == "  heat to         75 C for 10 min");
}

TEST_CASE("names, words and quotes stay as they were written") {
  CHECK(drink_line("  60 ml London   Dry GIN") == "  60 ml          London Dry GIN");
  CHECK(drink_line("  guest \"Gin,  lemon:  30ml\"") == "  guest          \"Gin,  lemon:  30ml\"");
  CHECK(drink_line("  do  stir 30ml in,then wait") == "  do             stir 30ml in,then wait");
  CHECK(drink_line("  tag 7-Up,long") == "  tag            7-Up, long");
  CHECK(prep_line("  source  Notebook 3,p.12") == "  source          Notebook 3,p.12");
}

TEST_CASE("keywords are written small") {
  CHECK(tidied("DRINK Reed  Sour LIKE  Other\n  Family SOUR\n  SHAKE 12 S\n") ==
        "DRINK Reed  Sour LIKE  Other\n  Family SOUR\n  SHAKE 12 S\n");
  CHECK(tidied("DRINK Reed  Sour\n  Family SOUR\n  SHAKE 12 S\n") ==
        "drink Reed Sour\n  family         SOUR\n  shake          12 s\n");
  CHECK(tidied("UNIT thimble=7.5ml±6%\n") == "unit thimble = 7.5 ml ± 6 %\n");
}

TEST_CASE("a line in the trade's own words becomes what it was read as") {
  CHECK(tidied("drink A\n  60 ml London dry gin\n  stir 30 s\n  strain over ice # slowly\n") ==
        "drink A\n"
        "  ice            cubed\n"
        "  60 ml          London dry gin\n"
        "  stir           30 s\n"
        "  strain  # slowly\n");
  CHECK(drink_line("  absinthe rinse") == "  rinse          absinthe");
  CHECK(drink_line("  Shake 12 s and strain") == "  shake          12 s\n  strain");
  CHECK(drink_line("  no garnish") == "  garnish        none");
  CHECK(drink_line("  dash of absinthe") == "  1 dash         absinthe");
  CHECK(drink_line("  30 ml/1 oz lemon juice") == "  30 ml = 1 oz   lemon juice");
  CHECK(drink_line("  top up with soda water") == "  top            soda water");
  CHECK(prep_line("  stir until dissolved") == "  dissolve");
  CHECK(prep_line("  rest overnight in the fridge") == "  rest            12 h at 4 C");
}

TEST_CASE("what a reading would lose or only turn round stays as it was written") {
  CHECK(drink_line("  garnish 1 pinch nutmeg") == "  garnish        1 pinch nutmeg");
  CHECK(prep_line("  bring to the boil (210 F)") == "  bring to the boil (210 F)");
  CHECK(drink_line("  strain over ice", Extent::terms) == "  strain over ice");
}

TEST_CASE("where the drink names its glass, a step does not name it again") {
  CHECK(tidied("drink A\n  glass coupe\n  60 ml London dry gin\n  stir 30 s\n  strain into a coupe\n") ==
        "drink A\n"
        "  glass          coupe\n"
        "  60 ml          London dry gin\n"
        "  stir           30 s\n"
        "  strain\n");
}

TEST_CASE("only white space changes where words must stay") {
  CHECK(drink_line("  60ml   Gin,chilled", Extent::spaces) == "  60ml           Gin,chilled");
  CHECK(drink_line("   SHAKE  12s", Extent::spaces) == "  SHAKE          12s");
  CHECK(drink_line("   SHAKE  12s", Extent::nothing) == "   SHAKE  12s");
}

TEST_CASE("a line that cannot be read stands byte for byte") {
  CHECK(drink_line("\t 60  ml   nothing anybody knows \t") == "\t 60  ml   nothing anybody knows \t");
  CHECK(tidied("drnk  A\n\t60ml  gin\n") == "drnk  A\n\t60ml  gin\n");
  CHECK(tidied("  60 ml gin\n") == "  60 ml gin\n");
  CHECK(drink_line("  60 ml \xff gin") == "  60 ml \xff gin");
}

TEST_CASE("comments keep their places, below each other behind lines, and take the indent of what follows") {
  CHECK(tidied("#one\ndrink A # the first\n# gin  first\n  45 ml London dry gin # cold\n"
               "      #none\n  10 ml lemon juice   #sharp\n  #last\n\n# of B\ndrink B\n") ==
        "#one\n"
        "drink A  # the first\n"
        "  # gin  first\n"
        "  45 ml          London dry gin  # cold\n"
        "  #none\n"
        "  10 ml          lemon juice     #sharp\n"
        "  #last\n"
        "\n"
        "# of B\n"
        "drink B\n");
}

TEST_CASE("texts keep their words, and stand below what they belong to") {
  CHECK(tidied("drink A\n|Smoke  first.\n    |  then honey  \n  |\n  45 ml London dry gin\n| cold\n") ==
        "drink A\n"
        "  | Smoke  first.\n"
        "  |  then honey  \n"
        "  |\n"
        "  45 ml          London dry gin\n"
        "    | cold\n");
}

TEST_CASE("several blank lines become one, and none stands at either end") {
  CHECK(tidied("\n\n# x\n\n\n\ndrink A\n\n\n  45 ml London dry gin\n \t \n\n\n") ==
        "# x\n\ndrink A\n\n  45 ml          London dry gin\n");
  CHECK(tidied("") == "");
  CHECK(tidied("\n\n") == "");
}

TEST_CASE("line ends stay what they are, and the last line has one") {
  CHECK(tidied("drink A\r\n  45 ml London dry gin") == "drink A\r\n  45 ml          London dry gin\r\n");
  CHECK(tidied("drink A\n  45 ml London dry gin") == "drink A\n  45 ml          London dry gin\n");
}

TEST_CASE("drinks of a menu and prices of a list stand in columns of their own") {
  CHECK(tidied("drink A\n  45 ml London dry gin\ndrink Bell Buoy\n  45 ml London dry gin\n"
               "menu M\n runs 2026-01-08..2026-03-18\n section Short\n A at 9 EUR,sells 4 , Fri 6\n Bell "
               "Buoy 10 EUR\n"
               "prices P\n  from 2026-01-01\n  rye whiskey 700ml for 28.50 EUR\n  lemon 1 for 0.40 EUR\n") ==
        "drink A\n"
        "  45 ml          London dry gin\n"
        "drink Bell Buoy\n"
        "  45 ml          London dry gin\n"
        "menu M\n"
        "  runs       2026-01-08 .. 2026-03-18\n"
        "  section    Short\n"
        "    A                at 9 EUR, sells 4, Fri 6\n"
        "    Bell Buoy        at 10 EUR\n"
        "prices P\n"
        "  from                 2026-01-01\n"
        "  rye whiskey          700 ml for 28.50 EUR\n"
        "  lemon                1 for 0.40 EUR\n");
}

TEST_CASE("a house and its things have columns as wide as their longest keyword") {
  CHECK(tidied("house H\n round prices to 0.50\n show preps g,ml\n show ml , oz\n allergen list EU\n") ==
        "house H\n"
        "  round prices to  0.50\n"
        "  show preps       g, ml\n"
        "  show             ml, oz\n"
        "  allergen list    EU\n");
  CHECK(tidied("glass g\n holds 180ml\n line ..155 ml\n") == "glass g\n  holds  180 ml\n  line   ..155 ml\n");
}

TEST_CASE("time grows in step with a file") {
  std::string text;
  for (int i = 0; i < 3000; ++i)
    text += "drink D" + std::to_string(i) + "\n  60ml London dry gin # x\n  shake and strain\n";
  text += "drink Long\n  do " + std::string(200000, 'x') + "\n  garnish " + std::string(50000, ',') + "\n";
  CHECK(tidied(text).size() > text.size());
}

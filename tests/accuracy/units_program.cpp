#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "accuracy/library_units.h"
#include "accuracy/program.h"
#include "accuracy/table.h"

// The `units` program of the distribution (GNU Units, Free Software Foundation), asked at test time for 15
// digits.

using namespace gill;
using namespace gill::accuracy;

namespace {

struct UnitsPair {
  std::string ours, theirs, base;
  double amount = 1;
};

std::vector<double> ask_units(const std::vector<UnitsPair>& pairs) {
  std::string command = "printf '%s\\n'";
  for (const UnitsPair& pair : pairs) command += " " + shell_word(pair.theirs) + " " + shell_word(pair.base);
  return numbers_of("{ " + command + "; } | LC_ALL=C units -q -t -o %.15g");
}

}  // namespace

TEST_CASE("the units program has the same factors", "[accuracy]") {
  const std::vector<UnitsPair> pairs{
      {"cl", "cl", "ml"},
      {"dl", "dl", "ml"},
      {"l", "litre", "ml"},
      {"hl", "hectoliter", "ml"},
      {"us gallon", "usgallon", "ml"},
      {"us quart", "usquart", "ml"},
      {"us pint", "uspint", "ml"},
      {"us cup", "uscup", "ml"},
      {"us gill", "usgill", "ml"},
      {"us oz", "usfloz", "ml"},
      {"us tbsp", "ustablespoon", "ml"},
      {"us tsp", "usteaspoon", "ml"},
      {"us fl dram", "usfloz/8", "ml"},
      {"us fifth", "usgallon/5", "ml"},
      {"pony", "pony", "ml"},
      {"us jigger", "jigger", "ml"},
      {"imp gallon", "brgallon", "ml"},
      {"imp quart", "brquart", "ml"},
      {"imp pint", "brpint", "ml"},
      {"imp gill", "brgill", "ml"},
      {"imp oz", "brfloz", "ml"},
      {"imp minim", "brminim", "ml"},
      {"imp cup", "brcup", "ml"},
      {"metric cup", "metriccup", "ml"},
      {"jp cup", "japancup", "ml"},
      {"au tbsp", "australiatablespoon", "ml"},
      {"dessertspoon", "dessertspoon", "ml"},
      {"drop", "drop", "ml"},
      {"lb", "pound", "g"},
      {"oz wt", "ounce", "g"},
      {"grain", "grain", "g"},
      {"mg", "mg", "g"},
      {"kg", "kg", "g"},
      {"inch", "inch", "mm"},
      {"cm", "cm", "mm"},
      {"h", "hour", "s"},
      {"wk", "week", "s"},
      {"psi", "psi", "bar"},
      {"kcal", "kcal", "kJ"},
      {"F", "tempF(-40)", "tempC", -40},
      {"F", "tempF(14)", "tempC", 14},
      {"F", "tempF(165)", "tempC", 165},
  };
  const LibraryUnits units;
  const std::vector<double> answers = ask_units(pairs);
  REQUIRE(answers.size() == pairs.size());
  // Fifteen digits are printed; a few units in the last of them are the program's own rounding.
  Table table({"units_program", "GNU Units, the distribution's program, at test time", "factors of units",
               "base units"},
              within_share(1e-13));
  for (std::size_t i = 0; i < pairs.size(); ++i)
    table.add(pairs[i].ours + " (" + pairs[i].theirs + " to " + pairs[i].base + ")", answers[i],
              units.in_base(pairs[i].ours, pairs[i].amount));
  table.check();
}

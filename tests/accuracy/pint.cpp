#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "accuracy/library_units.h"
#include "accuracy/program.h"
#include "accuracy/table.h"

// Pint, a library of units for Python, from the distribution's package python3-pint, asked at test time.

using namespace gill;
using namespace gill::accuracy;

namespace {

struct PintPair {
  std::string ours, theirs, base;
  double amount = 1;
};

/// Pint sits with the distribution's own Python, which may not be the first on the path.
std::vector<double> ask_pint(const std::vector<PintPair>& pairs) {
  std::string command =
      "for python in python3 /usr/bin/python3; do \"$python\" -c 'import pint' 2>/dev/null && break; done; ";
  command += "\"$python\" " + shell_word(GILL_SOURCE_DIR "/tests/accuracy/pint_factors.py");
  for (const PintPair& pair : pairs)
    command +=
        " " + std::to_string(pair.amount) + " " + shell_word(pair.theirs) + " " + shell_word(pair.base);
  return numbers_of(command);
}

}  // namespace

TEST_CASE("pint has the same factors", "[accuracy]") {
  const std::vector<PintPair> pairs{
      {"us gallon", "gallon", "milliliter"},
      {"us quart", "quart", "milliliter"},
      {"us pint", "pint", "milliliter"},
      {"us cup", "cup", "milliliter"},
      {"us gill", "gill", "milliliter"},
      {"us oz", "fluid_ounce", "milliliter"},
      {"us tbsp", "tablespoon", "milliliter"},
      {"us tsp", "teaspoon", "milliliter"},
      {"us fl dram", "fluid_dram", "milliliter"},
      {"us minim", "minim", "milliliter"},
      {"us fifth", "fifth", "milliliter"},
      {"us jigger", "shot", "milliliter"},
      {"imp gallon", "imperial_gallon", "milliliter"},
      {"imp quart", "imperial_quart", "milliliter"},
      {"imp pint", "imperial_pint", "milliliter"},
      {"imp cup", "imperial_cup", "milliliter"},
      {"imp gill", "imperial_gill", "milliliter"},
      {"imp oz", "imperial_fluid_ounce", "milliliter"},
      {"imp fl drachm", "imperial_fluid_drachm", "milliliter"},
      {"imp minim", "imperial_minim", "milliliter"},
      {"cl", "centiliter", "milliliter"},
      {"lb", "pound", "gram"},
      {"oz wt", "ounce", "gram"},
      {"grain", "grain", "gram"},
      {"kg", "kilogram", "gram"},
      {"inch", "inch", "millimeter"},
      {"wk", "week", "second"},
      {"psi", "psi", "bar"},
      {"kcal", "kilocalorie", "kilojoule"},
      {"F", "degF", "degC", 14},
      {"F", "degF", "degC", 165},
      {"K", "kelvin", "degC", 255.15},
  };
  const LibraryUnits units;
  const std::vector<double> answers = ask_pint(pairs);
  REQUIRE(answers.size() == pairs.size());
  Table table(
      {"pint", "Pint, the distribution's python3-pint, at test time", "factors of units", "base units"},
      within_share(1e-12));
  for (std::size_t i = 0; i < pairs.size(); ++i)
    table.add(pairs[i].ours + " (" + pairs[i].theirs + " to " + pairs[i].base + ")", answers[i],
              units.in_base(pairs[i].ours, pairs[i].amount));
  table.check();
}

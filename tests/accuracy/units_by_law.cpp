#include <catch2/catch.hpp>

#include "accuracy/library_units.h"
#include "accuracy/table.h"

// What the measures are by law: evaluated here from the definitions, not from the library's own chain of
// factors.

using namespace gill;
using namespace gill::accuracy;

TEST_CASE("United States measures are fractions of 231 cubic inches", "[accuracy]") {
  const LibraryUnits units;
  constexpr double inch_cm = 2.54, gallon = 231 * inch_cm * inch_cm * inch_cm;
  Table table({"units_by_law-us", "Handbook 44, Appendix C, Nat. Inst. of Standards and Technology",
               "United States measures, inch and pound", "ml, g, mm"},
              within_share(1e-12));
  for (const auto& [name, share] : {std::pair{"us gallon", 1.0},
                                    {"us quart", 4.0},
                                    {"us pint", 8.0},
                                    {"us cup", 16.0},
                                    {"us gill", 32.0},
                                    {"us oz", 128.0},
                                    {"us tbsp", 256.0},
                                    {"us tsp", 768.0},
                                    {"us fl dram", 1024.0},
                                    {"us minim", 61440.0}})
    table.add(name, gallon / share, units.in_base(name));
  table.add("lb", 453.59237, units.in_base("lb"));
  table.add("oz wt", 28.349523125, units.in_base("oz wt"));
  table.add("grain", 0.06479891, units.in_base("grain"));
  table.add("inch", 25.4, units.in_base("inch"));
  table.check();
}

TEST_CASE("imperial measures are fractions of 4.54609 litres", "[accuracy]") {
  const LibraryUnits units;
  constexpr double gallon = 4546.09;
  Table table({"units_by_law-imperial", "Weights and Measures Act 1985, Schedule 1, United Kingdom",
               "imperial measures", "ml"},
              within_share(1e-12));
  for (const auto& [name, share] : {std::pair{"imp gallon", 1.0},
                                    {"imp quart", 4.0},
                                    {"imp pint", 8.0},
                                    {"imp gill", 32.0},
                                    {"imp oz", 160.0},
                                    {"imp fl drachm", 1280.0},
                                    {"imp minim", 76800.0}})
    table.add(name, gallon / share, units.in_base(name));
  table.check();
}

TEST_CASE("the measures of spirits that the Order names are those of the library", "[accuracy]") {
  const LibraryUnits units;
  Table table(
      {"units_by_law-singles", "Weights and Measures (Intoxicating Liquor) Order 1988, United Kingdom",
       "measures of spirits", "ml"},
      within_share(1e-12));
  table.add("uk single", 25, units.in_base("uk single"));
  table.add("uk large single", 35, units.in_base("uk large single"));
  table.check();
}

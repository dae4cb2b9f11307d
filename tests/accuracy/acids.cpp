#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

#include "accuracy/table.h"
#include "model/physics/acid.h"
#include "unit/driver/house_fixture.h"

// Titratable acid: what one acid is worth in another.

using namespace gill;
using namespace gill::accuracy;
using model::Component;

namespace {

// Standard atomic weights, abridged (International Union of Pure and Applied Chemistry, 2021).
constexpr double hydrogen = 1.008, carbon = 12.011, oxygen = 15.999, phosphorus = 30.974;
constexpr double molar_mass(int c, int h, int o, int p = 0) {
  return c * carbon + h * hydrogen + o * oxygen + p * phosphorus;
}

struct Acid {
  Component component;
  double g_per_mol;
  int protons;  ///< given up by pH 8.2
};
constexpr Acid citric{Component::citric, molar_mass(6, 8, 7), 3};

constexpr Acid others[] = {
    {Component::malic, molar_mass(4, 6, 5), 2},    {Component::tartaric, molar_mass(4, 6, 6), 2},
    {Component::lactic, molar_mass(3, 6, 3), 1},   {Component::acetic, molar_mass(2, 4, 2), 1},
    {Component::ascorbic, molar_mass(6, 8, 6), 1}, {Component::phosphoric, molar_mass(0, 3, 4, 1), 2},
};

}  // namespace

TEST_CASE("an acid counts as citric acid by its protons", "[accuracy]") {
  Table table({"acids-equivalents", "Standard atomic weights 2021, Int. Union of Pure and Applied Chemistry",
               "citric equivalents of a gram of acid", "g"},
              within_percent(0.01));
  for (const Acid& acid : others)
    table.add(std::string(model::component_name(acid.component)),
              (citric.g_per_mol / citric.protons) / (acid.g_per_mol / acid.protons),
              model::citric_equivalent_factor(acid.component));
  const auto house = test::compile("house H\n");
  table.add("citric acid, monohydrate", citric.g_per_mol / (citric.g_per_mol + molar_mass(0, 2, 1)),
            test::stock(*house, "citric acid monohydrate").composition.per_gram[Component::citric]);
  table.check();
}

TEST_CASE("the factors of the titration standard are met", "[accuracy]") {
  // ISO 750, Fruit and vegetable products, determination of titratable acidity, International Organization
  // for Standardization (figures from memory): grams of acid that a millilitre of 1 mol/l alkali takes, three
  // decimals.
  Table table({"acids-iso-750", "ISO 750, titratable acidity, Int. Organization for Standardization (memory)",
               "grams of acid to a millimole of alkali", "g"},
              within(0.0005));
  const double citric_g = 0.192124 / 3;
  for (const auto& [component, g] : {std::pair{Component::citric, 0.064},
                                     {Component::malic, 0.067},
                                     {Component::tartaric, 0.075},
                                     {Component::lactic, 0.090},
                                     {Component::acetic, 0.060}})
    table.add(std::string(model::component_name(component)), g,
              citric_g / model::citric_equivalent_factor(component));
  table.check();
}

TEST_CASE("an ingredient's acid reads as citric acid by the same factors", "[accuracy]") {
  // 10 g of each acid in 100 ml, read back from the facts.
  Table table({"acids-ingredients", "Standard atomic weights 2021, Int. Union of Pure and Applied Chemistry",
               "acid of ingredients of 10 % w/v", "g/100 ml"},
              within(0.002));
  for (const Acid& acid : others) {
    std::string name(model::component_name(acid.component));
    name.resize(name.find(' '));
    const auto house = test::compile(
        fmt::format("ingredient sour thing\n  kind mixer\n  acid 10 % w/v {}\n  allergen none\n", name));
    CHECK_FALSE(house->has_errors());
    table.add(name, 10 * (citric.g_per_mol / citric.protons) / (acid.g_per_mol / acid.protons),
              test::stock(*house, "sour thing").acid_g_per_100ml);
  }
  table.check();
}

TEST_CASE("a juice brought to the acid of lemon takes the acid that is missing", "[accuracy]") {
  // A litre of a juice of 1 % w/v is to read 6 % in the end: the acid needed is the root of
  // (10 g + e m) / (1 l + v m) = 60 g/l, e its citric equivalents and v its volume a gram (CRC Handbook of
  // Chemistry and Physics, CRC Press: 0.597 ml/g citric, 0.785 lactic; malic 0.60, tartaric 0.56 from
  // memory).
  struct Row {
    const char* acid;
    double equivalents, ml_per_g;
  };
  Table table({"acids-to-strength", "CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press",
               "acid that 1 l of 1 % needs to read 6 %", "g"},
              within_percent(0.5));
  for (const Row& row :
       {Row{"citric acid", 1, 0.597}, Row{"malic acid", 0.9552, 0.60}, Row{"tartaric acid", 0.8534, 0.56}}) {
    const auto house = test::compile(fmt::format(
        "ingredient mild juice\n  kind juice\n  acid 1 % w/v citric\n  allergen none\n\n"
        "prep sharp juice\n  1 l mild juice\n  until acid 6 % w/v {}\n  dissolve\n  keeps 7 d chilled\n",
        row.acid));
    CHECK_FALSE(house->has_errors());
    table.add(row.acid, 50 / (row.equivalents - 0.06 * row.ml_per_g),
              test::stock(*house, "sharp juice").entries.at(1).mass_g.value());
  }
  table.check();
}

TEST_CASE("lime's two acids add up to the six per cent of bar handbooks", "[accuracy]") {
  // Common practice: 4 of citric and 2 of malic, called 6 %. By protons two of malic are 1.91: the library's
  // lime writes 2.09, so that its citric equivalents are the same 6 that lemon has.
  const auto house = test::compile("house H\n");
  Table table({"acids-bar-juices", "Common practice, no source",
               "acid of lemon and lime juice, citric equivalents", "g/100 ml"},
              within(0.01));
  table.add("lemon juice", 6, test::stock(*house, "lemon juice").acid_g_per_100ml);
  table.add("lime juice", 6, test::stock(*house, "lime juice").acid_g_per_100ml);
  table.check();
}

TEST_CASE("wine's tartaric reckoning converts to citric by the published factor", "[accuracy]") {
  // Oenological practice counts 75 g of tartaric acid to the equivalent; citric × 1.1718.
  Table table({"acids-wine", "Oenological conversion of acids, tartaric over citric",
               "tartaric equivalents of a gram of citric acid", "g"},
              within(1e-4));
  table.add("citric acid", 1.1718, 1 / model::citric_equivalent_factor(Component::tartaric));
  table.check();
}

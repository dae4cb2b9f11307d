#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

#include "accuracy/table.h"
#include "model/physics/energy.h"
#include "unit/driver/house_fixture.h"

// Energy by Regulation (EU) No 1169/2011, Annex XIV, and the examples that the spirits trade publishes with
// it.

using namespace gill;
using namespace gill::accuracy;
using model::Component;

namespace {

constexpr std::string_view regulation = "Regulation (EU) No 1169/2011, Annex XIV";

/// A house with one drink of so many ml of one ingredient, neither chilled nor diluted.
std::unique_ptr<driver::Compilation> poured(double ml, const std::string& lines) {
  auto house =
      test::compile("ingredient sample\n" + lines +
                    fmt::format("  allergen none\n\ndrink A\n  build\n  {} ml sample\n  ice none\n", ml));
  CHECK_FALSE(house->has_errors());
  return house;
}

}  // namespace

TEST_CASE("a gram of each part gives the energy that the Regulation states", "[accuracy]") {
  struct Row {
    const char* part;
    model::Masses masses;
    model::MoreNutrients more;
    double kj, kcal;
  };
  Table kj({"eu_1169_energy-factors-kj", regulation, "energy of a gram of each part", "kJ"}, within(1e-9));
  Table kcal({"eu_1169_energy-factors-kcal", regulation, "energy of a gram of each part", "kcal"},
             within(1e-9));
  for (const Row& row : {Row{"carbohydrate (sugar)", model::only(Component::sugar, 1), {}, 17, 4},
                         Row{"carbohydrate (other)", {}, {.digestible_carbohydrate_g = 1}, 17, 4},
                         Row{"polyols", {}, {.polyols_g = 1}, 10, 2.4},
                         Row{"protein", model::only(Component::protein, 1), {}, 17, 4},
                         Row{"fat", model::only(Component::fat, 1), {}, 37, 9},
                         Row{"alcohol (ethanol)", model::only(Component::ethanol, 1), {}, 29, 7},
                         Row{"organic acid (citric)", model::only(Component::citric, 1), {}, 13, 3},
                         Row{"organic acid (lactic)", model::only(Component::lactic, 1), {}, 13, 3},
                         Row{"fibre", {}, {.fibre_g = 1}, 8, 2}}) {
    const model::Energy got = model::energy(row.masses, row.more);
    kj.add(row.part, row.kj, got.kj);
    kcal.add(row.part, row.kcal, got.kcal);
  }
  kj.check();
  kcal.check();
}

TEST_CASE("liqueurs have the energy that the spirits trade publishes for them", "[accuracy]") {
  // Whole numbers are published: half a unit is theirs.
  struct Row {
    double ml, percent, sugar_g_per_100_ml, kj, kcal;
  };
  constexpr std::string_view title = "Consumer information of the European spirits industry";
  Table kj({"eu_1169_energy-published-kj", title, "energy of liqueurs, 100 ml and 30 ml", "kJ"}, within(0.6));
  Table kcal({"eu_1169_energy-published-kcal", title, "energy of liqueurs, 100 ml and 30 ml", "kcal"},
             within(0.6));
  for (const auto& [ml, percent, sugar, expected_kj, expected_kcal] :
       {Row{100, 24, 25, 974, 233}, Row{30, 24, 25, 292, 70}, Row{100, 15, 10, 513, 123},
        Row{30, 15, 10, 154, 37}}) {
    const auto house =
        poured(ml, fmt::format("  kind liqueur\n  strength {} % abv\n  sugar {} % w/v\n", percent, sugar));
    const std::string label = fmt::format("{} ml of {} %, {} g sugar in 100 ml", ml, percent, sugar);
    kj.add(label, expected_kj, test::drink(*house, "A").energy_kj);
    kcal.add(label, expected_kcal, test::drink(*house, "A").energy_kcal);
  }
  kj.check();
  kcal.check();
}

TEST_CASE("pours have the energy worked out for them by the Regulation's factors", "[accuracy]") {
  // Worked out separately, to whole numbers, with 0.789 g/ml of ethanol.
  struct Row {
    const char* label;
    double ml;
    const char* lines;
    double kj, kcal;
  };
  Table kj({"eu_1169_energy-worked-kj", "Regulation (EU) No 1169/2011, cases worked out separately",
            "energy of pours", "kJ"},
           within(0.6));
  Table kcal({"eu_1169_energy-worked-kcal", "Regulation (EU) No 1169/2011, cases worked out separately",
              "energy of pours", "kcal"},
             within(0.6));
  for (const Row& row :
       {Row{"45 ml of 40 % spirit", 45, "  kind spirit\n  strength 40 % abv\n", 412, 99},
        Row{"25 ml of 40 % spirit", 25, "  kind spirit\n  strength 40 % abv\n", 229, 55},
        Row{"30 ml of 50 brix syrup", 30, "  kind syrup\n  sugar 50 brix\n", 314, 74},
        Row{"30 ml of cream liqueur", 30,
            "  kind liqueur\n  strength 17 % abv\n  sugar 20.5 % w/v\n  fat 14 % w/v\n  protein 3 % w/v\n",
            392, 94}}) {
    const auto house = poured(row.ml, row.lines);
    kj.add(row.label, row.kj, test::drink(*house, "A").energy_kj);
    kcal.add(row.label, row.kcal, test::drink(*house, "A").energy_kcal);
  }
  // 60 ml of rum, 20 ml of lime juice of 1.8 g sugar and 6 g acid, 8 g of sugar: melt adds nothing.
  const auto sour = test::compile(
      "ingredient sharp juice\n  kind juice\n  sugar 1.8 % w/v\n  acid 6 % w/v citric\n  allergen none\n\n"
      "drink A\n  60 ml white rum\n  20 ml sharp juice\n  8 g white sugar\n  shake 12 s\n  dump\n");
  CHECK_FALSE(sour->has_errors());
  kj.add("60 ml of rum, 20 ml of lime, 8 g of sugar, shaken", 707, test::drink(*sour, "A").energy_kj);
  kcal.add("60 ml of rum, 20 ml of lime, 8 g of sugar, shaken", 170, test::drink(*sour, "A").energy_kcal);
  kj.check();
  kcal.check();
}

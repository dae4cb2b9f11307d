#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

#include "accuracy/table.h"
#include "model/physics/ethanol_water.h"
#include "unit/driver/house_fixture.h"

// Ethanol and water shrink when they meet. The volumes were evaluated in another program from OIML R 22
// (1975), International alcoholometric tables, Organisation Internationale de Métrologie Légale; here the
// same mixtures are written as preps of a house.

using namespace gill;
using namespace gill::accuracy;
namespace ethanol_water = model::ethanol_water;

namespace {

constexpr std::string_view title = "OIML R 22, mixtures worked out in another program";

/// A house that stocks a spirit of so many per cent and makes one prep of it.
std::unique_ptr<driver::Compilation> prep_of_spirit(double percent, const std::string& lines) {
  auto house =
      test::compile(fmt::format("ingredient spirit\n  kind spirit\n  strength {} % abv\n  allergen "
                                "none\n\nprep mixture\n{}  keeps 1 y ambient\n",
                                percent, lines));
  CHECK_FALSE(house->has_errors());
  return house;
}

const model::StockFacts& mixture(const driver::Compilation& house) { return test::stock(house, "mixture"); }

}  // namespace

TEST_CASE("alcohol and water mixed to a hundred millilitres come to less", "[accuracy]") {
  struct Row {
    double alcohol_ml, volume_ml, strength_percent;
  };
  Table volume({"contraction-volume", title, "volume of alcohol and water, 100 ml in all", "ml"},
               within(0.001));
  Table strength({"contraction-strength", title, "strength of alcohol and water, 100 ml in all", "% vol"},
                 within(0.001));
  for (const auto& [alcohol_ml, volume_ml, percent] :
       {Row{10, 99.257, 10.075}, Row{40, 96.701, 41.365}, Row{50, 96.463, 51.834}, Row{60, 96.526, 62.159},
        Row{70, 96.832, 72.290}}) {
    const auto house = prep_of_spirit(
        100, fmt::format("  {} ml spirit\n  {} ml water\n  stir\n", alcohol_ml, 100 - alcohol_ml));
    const std::string label = fmt::format("{} ml of alcohol, {} ml of water", alcohol_ml, 100 - alcohol_ml);
    volume.add(label, volume_ml, mixture(*house).yield_ml);
    strength.add(label, percent, mixture(*house).abv_percent);
  }
  volume.check();
  strength.check();
}

TEST_CASE("water added to a spirit gives less than the sum and a little more strength", "[accuracy]") {
  struct Row {
    double start_percent, water_ml, volume_ml, percent;
  };
  Table volume({"contraction-diluted-volume", title, "volume of 100 ml of spirit with water", "ml"},
               within(0.001));
  Table strength({"contraction-diluted-strength", title, "strength of 100 ml of spirit with water", "% vol"},
                 within(0.001));
  for (const auto& [start, water_ml, volume_ml, percent] :
       {Row{40, 50, 149.784, 26.705}, Row{40, 100, 199.913, 20.009}, Row{50, 100, 199.212, 25.099},
        Row{60, 50, 148.632, 40.368}}) {
    const auto house =
        prep_of_spirit(start, fmt::format("  100 ml spirit\n  {} ml water\n  stir\n", water_ml));
    const std::string label = fmt::format("100 ml of {} %, {} ml of water", start, water_ml);
    volume.add(label, volume_ml, mixture(*house).yield_ml);
    strength.add(label, percent, mixture(*house).abv_percent);
  }
  volume.check();
  strength.check();
}

TEST_CASE("bringing alcohol down to strength takes more water than the strength leaves", "[accuracy]") {
  struct Row {
    double percent, water_ml;
  };
  Table table({"contraction-to-strength", title, "water to make 100 ml of a spirit (`until strength`)", "ml"},
              within(0.001));
  for (const auto& [percent, water_ml] : {Row{40, 63.349}, Row{50, 53.649}, Row{60, 43.636}}) {
    const auto house = prep_of_spirit(
        100, fmt::format("  {} ml spirit\n  until strength {} % abv water\n  stir\n", percent, percent));
    table.add(fmt::format("to {} %", percent), water_ml, mixture(*house).entries.at(1).volume_ml.value());
  }
  table.check();
}

TEST_CASE("the gauger's proof gallon is half alcohol and a little more than half water", "[accuracy]") {
  // At 60 °F, where strength is taken in the United States: 50 parts of alcohol and 53.73 of water by volume
  // make 100 parts of 100 proof.
  constexpr double celsius = 15.56;
  const double alcohol = ethanol_water::density_g_per_ml(1, celsius);
  double low = 0.3, high = 0.6;
  for (int i = 0; i < 60; ++i) {
    const double p = 0.5 * (low + high);
    (p * ethanol_water::density_g_per_ml(p, celsius) / alcohol < 0.5 ? low : high) = p;
  }
  const double proof_density = ethanol_water::density_g_per_ml(low, celsius),
               water = ethanol_water::density_g_per_ml(0, celsius);
  Table table({"contraction-gauging", "Gauging Manual, Table 6, US Treasury (figures from memory)",
               "water in 100 parts of 100 proof, 60 F", "parts"},
              within(0.02));
  table.add("100 proof", 53.73, (1 - low) * proof_density * 100 / water);
  table.check();
}

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "accuracy/table.h"
#include "model/constants.h"
#include "model/physics/volume.h"
#include "model/program_builder.h"
#include "model/uncertain_inputs.h"
#include "support/fixture.h"

// The printed ± beside the spread of drinks that are made again and again with everything a little off at
// once: labels and juices declared anew by chance, pours and hands as they fall.

using namespace gill;
using namespace gill::accuracy;
using namespace gill::model;

namespace {

// With sanitizers a run takes twenty times as long: fewer of them find what the sanitizers look for.
#ifdef GILL_SANITIZED
constexpr int runs = 50;
constexpr double allowed = 1;
#else
constexpr int runs = 2000;
constexpr double allowed = 0.15;
#endif
constexpr std::size_t wanted_drinks = 40;

const std::string cordials =
    "prep sharp cordial\n  500 ml lemon juice\n  300 g white sugar\n  dissolve\n  keeps 7 d chilled\n\n"
    "prep lime blend\n  200 ml sharp cordial\n  200 ml lime juice\n  4 dashes aromatic bitters\n  keeps 3 d "
    "chilled\n\n"
    "drink Cordial Sour\n  glass coupe\n  50 ml London dry gin\n  25 ml sharp cordial\n  15 ml lemon juice\n"
    "  shake 12 s\n  strain\n  garnish none\n\n"
    "drink Blend Sour\n  glass coupe\n  50 ml white rum\n  30 ml lime blend\n  10 ml sharp cordial\n  shake "
    "12 s\n"
    "  strain\n  garnish none\n\n";

/// A lot of each thing as chance gives it.
class Lots {
 public:
  explicit Lots(const analysis::Specs& specs) : specs_(specs) {
    // Nothing but the stock is worked out again.
    specs_.drinks.clear();
    written_ = specs_.stock;
  }

  /// Draws every strength, sugar and acid that has a width.
  const analysis::Specs& draw(std::mt19937& chance) {
    std::normal_distribution<double> normal;
    for (std::size_t i = 0; i < written_.size(); ++i) {
      if (written_[i].is_prep) continue;
      auto& stock = specs_.stock[i];
      stock = written_[i];
      if (stock.strength) set(*stock.strength, stock.strength->number() + normal(chance) * width(stock));
      if (stock.sugar) scale(*stock.sugar, normal(chance), stock.kind, juice_sugar_share);
      double ripeness = normal(chance);
      for (auto& acid : stock.acids) scale(acid.quantity, ripeness, stock.kind, juice_acid_share);
    }
    return specs_;
  }

 private:
  static void set(units::Quantity& quantity, double value) {
    quantity.value = base::Exact(std::max(0.0, value));
    quantity.low = quantity.high = std::max(0.0, value);
  }
  static double width(const analysis::Stock& stock) {
    if (stock.strength->tolerance) return *stock.strength->tolerance;
    if (stock.strength->number() <= 0.012) return 0;
    if (stock.kind == analysis::StockKind::sparkling) return 0.01;
    if (stock.kind == analysis::StockKind::beer) return stock.strength->number() <= 0.055 ? 0.005 : 0.01;
    return 0.003;
  }
  static void scale(units::Quantity& quantity, double drawn, analysis::StockKind kind, double of_juice) {
    double share = quantity.relative_tolerance();
    if (share <= 0 && kind == analysis::StockKind::juice) share = of_juice;
    if (share > 0) set(quantity, quantity.number() * std::max(0.0, 1 + drawn * share));
  }

  analysis::Specs specs_;
  std::vector<analysis::Stock> written_;
};

struct Spread {
  double sum = 0, squares = 0;
  int count = 0;
  void add(double value) {
    sum += value;
    squares += value * value;
    ++count;
  }
  double deviation() const {
    double mean = sum / count;
    return std::sqrt(std::max(0.0, squares / count - mean * mean));
  }
};

/// Strength, sugar, acid and volume of what is served.
struct Figure {
  std::string_view name;
  double model::Tolerance::*printed;
  double (*of)(const Masses&);
  /// What the instruments of a bar do not show: % vol, g in 100 ml, ml.
  double smallest;
};

const Figure figures[] = {{"strength", &model::Tolerance::abv_percent,
                           [](const Masses& m) { return 100 * concentrations(m).strength; }, 0.01},
                          {"sugar", &model::Tolerance::sugar_g_per_100ml,
                           [](const Masses& m) { return concentrations(m).sugar_g_per_100_ml; }, 0.01},
                          {"acid", &model::Tolerance::acid_g_per_100ml,
                           [](const Masses& m) { return concentrations(m).acid_g_per_100_ml; }, 0.03},
                          {"volume", &model::Tolerance::volume_ml,
                           [](const Masses& m) { return concentrations(m).volume_ml; }, 0.1}};

/// One drink of the bar tonight: its pours, its hands, its room.
Perturbation tonight(const UncertainInputs& inputs, std::size_t operations, std::mt19937& chance) {
  std::normal_distribution<double> normal;
  Perturbation moved;
  moved.amounts.assign(operations, 1.0);
  for (const auto& input : inputs.all()) {
    double drawn = normal(chance);
    for (const auto& amount : input.amounts)
      moved.amounts[amount.operation] *= std::max(0.0, 1 + drawn * amount.share);
    if (input.cause.kind == Cause::Kind::melt) moved.melt = std::max(0.0, 1 + drawn * input.width);
    if (input.cause.kind == Cause::Kind::room) moved.room_k = drawn * input.width;
    if (input.cause.kind == Cause::Kind::ice) moved.ice_k = drawn * input.width;
  }
  return moved;
}

}  // namespace

TEST_CASE("the printed tolerance is the spread of two thousand drinks of chance", "[accuracy]") {
  const std::string folder = GILL_SOURCE_DIR "/tests/lint/classics/";
  auto house = testing::compile(cordials + testing::read_file(folder + "shaken.gill") +
                                testing::read_file(folder + "stirred.gill") +
                                testing::read_file(folder + "long.gill"));
  auto facts = evaluate(house.specs, house.units, house.sink);
  std::vector<std::size_t> drinks;
  for (std::size_t i = 0; i < house.specs.drinks.size() && drinks.size() < wanted_drinks; ++i)
    if (!house.specs.drinks[i].head.from_library && facts.drinks[i].valid) drinks.push_back(i);
  REQUIRE(drinks.size() == wanted_drinks);

  std::vector<std::array<Spread, std::size(figures)>> spreads(drinks.size());
  std::mt19937 chance(20260611);
  Lots lots(house.specs);
  const StockMoves none;
  for (int run = 0; run < runs; ++run) {
    diagnostics::DiagnosticSink unheard;
    const auto& lot = lots.draw(chance);
    auto of_lot = evaluate(lot, house.units, unheard);
    ProgramBuilder builder(house.specs, house.units, of_lot.stock, unheard);
    Measuring measuring(house.specs, house.units, of_lot.stock, unheard);
    for (std::size_t d = 0; d < drinks.size(); ++d) {
      const auto& drink = house.specs.drinks[drinks[d]];
      auto built = builder.build(drink);
      UncertainInputs inputs(built, drink.recipe, drink.head, measuring, of_lot.stock,
                             [&](analysis::StockId) -> const StockMoves& { return none; });
      Simulator simulator(built.program);
      Perturbation moved = tonight(inputs, built.program.operations.size(), chance);
      const Masses& served = simulator.run(moved).liquid;
      for (std::size_t f = 0; f < std::size(figures); ++f)
        spreads[d][f].add(figures[f].of(served) / (figures[f].name == "volume" ? drink.serves : 1));
    }
  }

  for (std::size_t f = 0; f < std::size(figures); ++f) {
    std::string name = fmt::format("monte-carlo-{}", figures[f].name);
    std::string compared =
        fmt::format("± of {} over the spread of {} drinks of chance", figures[f].name, runs);
    Table table({name, "Monte Carlo of the same causes, all moved at once", compared, "-"}, within(allowed));
    for (std::size_t d = 0; d < drinks.size(); ++d) {
      double deviation = spreads[d][f].deviation();
      double printed = facts.drinks[drinks[d]].tolerance.*figures[f].printed;
      // Less than a bar can read off (a trace of acid that may be none at all has no even spread).
      if (deviation < figures[f].smallest && printed < figures[f].smallest) continue;
      table.add(house.specs.drinks[drinks[d]].head.name, 1, printed / deviation);
    }
    table.check();
  }
}

// How long working one drink out takes, tolerances and all: over the demo house, and by how much is in it.
// Run with `bench_drinks`; the figure to watch is `us_a_drink`.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <map>

#include "driver/compile.h"
#include "model/program_builder.h"
#include "support/front_end.h"

namespace {

using namespace gill;

std::map<std::string, std::string> demo_files() {
  auto texts = testing::texts_in("specs");
  return {texts.begin(), texts.end()};
}

std::unique_ptr<driver::Compilation> compile(std::map<std::string, std::string> files) {
  driver::MemoryAccess access(std::move(files));
  return driver::compile(std::get<driver::HouseFiles>(access.read_house("house", {})));
}

/// Of this thread's own time on a core: what else runs on the machine does not count.
double core_seconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double seconds_to_evaluate(const analysis::Specs& specs, const units::UnitTable& units) {
  diagnostics::DiagnosticSink sink;
  double start = core_seconds();
  auto facts = model::evaluate(specs, units, sink);
  double taken = core_seconds() - start;
  benchmark::DoNotOptimize(facts);
  return taken;
}

/// Every drink's facts: program built, run, its tolerances, substitutes, glass and colour. Each drink stands
/// in the house many times over, and the same house without drinks is taken off.
void evaluate_drinks(benchmark::State& state, const driver::Compilation& house) {
  constexpr int copies = 20;
  analysis::Specs none = house.specs, many = house.specs;
  none.drinks.clear();
  none.menus.clear();
  many.drinks.clear();
  for (int i = 0; i < copies; ++i)
    many.drinks.insert(many.drinks.end(), house.specs.drinks.begin(), house.specs.drinks.end());
  auto drinks = static_cast<double>(many.drinks.size());
  double seconds = 0, runs = 0;
  for (auto _ : state) {
    double taken = seconds_to_evaluate(many, house.units) - seconds_to_evaluate(none, house.units);
    state.SetIterationTime(std::max(taken, 1e-9) / drinks);
    seconds += taken;
    runs += drinks;
  }
  state.counters["us_a_drink"] = 1e6 * seconds / runs;
}

void demo_house(benchmark::State& state) {
  auto house = compile(demo_files());
  evaluate_drinks(state, *house);
}
BENCHMARK(demo_house)->UseManualTime()->Unit(benchmark::kMicrosecond)->Iterations(60);

/// A shaken drink of so many ingredients.
void by_ingredients(benchmark::State& state) {
  static const char* liquids[] = {
      "rye whiskey",        "lemon juice",      "honey syrup",    "London dry gin",
      "lime juice",         "simple syrup",     "aged rum",       "orange juice",
      "sweet vermouth",     "cognac",           "orange liqueur", "pineapple juice",
      "maraschino liqueur", "grapefruit juice", "agave syrup",    "absinthe"};
  std::string text = "drink A\n  glass double rocks\n";
  for (std::int64_t i = 0; i < state.range(0); ++i) text += fmt::format("  10 ml {}\n", liquids[i]);
  auto house = compile({{"a.gill", text + "  shake 12 s\n  strain\n"}});
  evaluate_drinks(state, *house);
  state.SetComplexityN(state.range(0));
}
BENCHMARK(by_ingredients)
    ->RangeMultiplier(2)
    ->Range(1, 16)
    ->UseManualTime()
    ->Unit(benchmark::kMicrosecond)
    ->Iterations(60)
    ->Complexity();

/// What simulating costs alone: each drink of the demo house run once as written and once for each uncertain
/// input, its program built beforehand.
void demo_house_simulated(benchmark::State& state) {
  auto house = compile(demo_files());
  diagnostics::DiagnosticSink sink;
  model::ProgramBuilder builder(house->specs, house->units, house->facts.stock, sink);
  std::vector<model::BuiltProgram> drinks;
  for (const auto& drink : house->specs.drinks) drinks.push_back(builder.build(drink));
  double inputs = 0;
  for (const auto& drink : drinks) inputs += static_cast<double>(drink.uncertain.size());
  for (auto _ : state)
    for (const auto& drink : drinks) {
      model::Simulator simulator(drink.program);
      benchmark::DoNotOptimize(simulator.run().liquid);
      for (const auto& uncertain : drink.uncertain)
        benchmark::DoNotOptimize(simulator.run(uncertain.moved).liquid);
    }
  auto count = static_cast<double>(drinks.size());
  state.counters["drinks"] = count;
  state.counters["inputs_a_drink"] = inputs / count;
  state.counters["us_a_drink"] = benchmark::Counter(
      1e-6 * count, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(demo_house_simulated);

/// The plain simulation, without tolerances: what tuning runs over and over.
void one_run(benchmark::State& state) {
  auto house = compile({{"a.gill",
                         "drink A\n  45 ml rye whiskey\n  22.5 ml lemon juice\n  15 ml honey syrup\n  shake "
                         "12 s\n  strain\n"}});
  diagnostics::DiagnosticSink sink;
  model::ProgramBuilder builder(house->specs, house->units, house->facts.stock, sink);
  auto built = builder.build(house->specs.drinks.front());
  model::Simulator simulator(built.program);
  for (auto _ : state) benchmark::DoNotOptimize(simulator.run().liquid);
}
BENCHMARK(one_run);

}  // namespace

BENCHMARK_MAIN();

// How long the plan of a big house takes: 2,000 drinks on preps 8 deep, three days. Run with `bench_plan`;
// the aim is half a second for `plan`.
#include <benchmark/benchmark.h>

#include "costing/cost_report.h"
#include "driver/compile.h"
#include "plan/prep_plan.h"
#include "support/big_house.h"

namespace {

using namespace gill;

/// The house, compiled once: what is timed is what comes after.
const costing::House& house() {
  static const auto compiled = [] {
    driver::HouseFiles files;
    files.name = "big";
    files.files.push_back({"big.gill", testing::big_house(2000)});
    return driver::compile(files);
  }();
  static const costing::House house = compiled->book_input();
  return house;
}

plan::PlanOptions three_days() {
  plan::PlanOptions options;
  options.days = 3;
  return options;
}

void plan(benchmark::State& state) {
  house();
  for (auto _ : state) benchmark::DoNotOptimize(plan::make_prep_plan(house(), three_days()));
}
BENCHMARK(plan)->Unit(benchmark::kMillisecond);

void plan_as_json(benchmark::State& state) {
  auto made = plan::make_prep_plan(house(), three_days());
  for (auto _ : state) benchmark::DoNotOptimize(plan::prep_json(made, house()));
}
BENCHMARK(plan_as_json)->Unit(benchmark::kMillisecond);

void cost(benchmark::State& state) {
  house();
  for (auto _ : state) benchmark::DoNotOptimize(costing::cost_report(house(), {}, {}));
}
BENCHMARK(cost)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();

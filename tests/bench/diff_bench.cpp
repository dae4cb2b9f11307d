// How long it takes to tell what changed between two houses of 5,000 drinks, from their text to the last
// word: `bench_diff`. The limit is a second. One drink in twenty has another amount on the new side; `all`
// has a change that reaches every one.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <array>
#include <future>
#include <random>

#include "diff/forms.h"
#include "driver/compile.h"
#include "driver/large_pages.h"

namespace {

using namespace gill;

constexpr int drinks = 5000, preps = 100, spirits = 200;

/// A house of its own ingredients and preps and of the library's, the same for the same seed.
std::string house(bool is_new, const std::string& ounce) {
  std::mt19937 random(7), season(8);
  static constexpr std::array strong = {"rye whiskey", "London dry gin", "white rum",
                                        "aged rum",    "vodka",          "cognac"};
  static constexpr std::array sour = {"lemon juice", "lime juice", "grapefruit juice"};
  static constexpr std::array bitter = {"sweet vermouth", "dry vermouth", "orange liqueur",
                                        "bitter aperitivo"};
  static constexpr std::array ounces = {"1", "1 1/2", "2"};
  auto any = [&](auto& list) { return list[random() % list.size()]; };
  std::string text = fmt::format("house Large\n  currency EUR\n  ounce {}\n", ounce);
  for (int i = 0; i < preps; ++i)
    text += fmt::format(
        "prep cordial {}\n  {} g white sugar\n  500 g water\n  {} g citric acid\n  dissolve\n  keeps 14 d "
        "chilled\n",
        i, 500 + i, 10 + i % 5);
  for (int i = 0; i < spirits; ++i)
    text += fmt::format(
        "ingredient spirit {}\n  kind spirit\n  strength {} % abv\n  allergen none\n  buy 700 ml for {} "
        "EUR\n",
        i, 38 + i % 12, 15 + i % 20);
  std::string menu = "menu List\n  section Short\n";
  for (int i = 0; i < drinks; ++i) {
    std::string spirit = random() % 4 == 0 ? any(strong) : fmt::format("spirit {}", random() % spirits);
    int more = season() % 20 == 0 && is_new ? 5 : 0;
    text += fmt::format("drink Number {}\n  glass coupe\n  {} oz {}\n  {} ml {}\n", i, any(ounces), spirit,
                        15 + random() % 4 * 5 + more, any(bitter));
    if (random() % 2 == 0)
      text += fmt::format(
          "  20 ml {}\n  15 ml cordial {}\n  shake 12 s\n  double strain\n  garnish lemon twist\n", any(sour),
          random() % preps);
    else
      text += "  2 dashes aromatic bitters\n  stir 30 s\n  strain\n  garnish orange twist\n";
    menu += fmt::format("    Number {} at {} EUR\n", i, 10 + i % 6);
  }
  return text + menu;
}

/// As `gill diff` does it: the two sides compiled beside each other.
void compare_houses(benchmark::State& state, const std::string& before, const std::string& after) {
  for (auto _ : state) {
    auto compiling = std::async(std::launch::async, [&] {
      return driver::compile({"house", {{"a.gill", before}}});
    });
    auto now = driver::compile({"house", {{"a.gill", after}}});
    auto old = compiling.get();
    diff::Snapshot old_snapshot{"old", old->specs, old->facts, old->units},
        new_snapshot{"new", now->specs, now->facts, now->units};
    auto changes = diff::compare(old_snapshot, new_snapshot);
    auto text = diff::to_text(diff::change_page(changes, nullptr), false);
    benchmark::DoNotOptimize(text);
    state.counters["changed"] = static_cast<double>(changes.drinks.size());
  }
}

}  // namespace

int main(int argc, char** argv) {
  driver::prefer_large_pages();
  const std::string before = house(false, "30 ml"), after = house(true, "30 ml"), all = house(true, "28 ml");
  auto add = [](const char* name, const std::string& old, const std::string& now) {
    benchmark::RegisterBenchmark(name, [&](benchmark::State& state) { compare_houses(state, old, now); })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
  };
  add("two houses of 5000 drinks, one in twenty changed", before, after);
  add("two houses of 5000 drinks, all of them reached", before, all);
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}

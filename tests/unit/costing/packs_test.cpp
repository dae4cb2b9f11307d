#include "costing/packs.h"

#include <catch2/catch.hpp>
#include <random>

#include "unit/plan/plan_fixture.h"

using namespace gill;
using namespace gill::costing;
using gill::base::Exact;

namespace {

struct Bought {
  Exact cost = 0;
  double size = 0;
};

Bought bought(const std::vector<int>& counts, const std::vector<double>& sizes,
              const std::vector<Exact>& prices) {
  Bought sum;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    sum.cost += counts[i] * prices[i];
    sum.size += counts[i] * sizes[i];
  }
  return sum;
}

/// Every way to buy, tried.
Bought cheapest_of_all(double need, const std::vector<double>& sizes, const std::vector<Exact>& prices) {
  std::optional<Bought> best;
  std::vector<int> counts(sizes.size(), 0);
  auto try_from = [&](auto& self, std::size_t i) -> void {
    if (i == sizes.size()) {
      auto one = bought(counts, sizes, prices);
      if (one.size >= need - 1e-9 &&
          (!best || one.cost < best->cost || (one.cost == best->cost && one.size < best->size - 1e-9)))
        best = one;
      return;
    }
    for (counts[i] = 0; counts[i] <= std::ceil(need / sizes[i]); ++counts[i]) self(self, i + 1);
    counts[i] = 0;
  };
  try_from(try_from, 0);
  return *best;
}

}  // namespace

TEST_CASE("nothing is bought for nothing") {
  CHECK(cheapest_packs(0, {700}, {Exact(20)}) == std::vector<int>{0});
  CHECK(cheapest_packs(-1, {700}, {Exact(20)}) == std::vector<int>{0});
  CHECK(cheapest_packs(5, {}, {}).empty());
}

TEST_CASE("a need that a pack just meets takes no pack more") {
  CHECK(cheapest_packs(700, {700}, {Exact(20)}) == std::vector<int>{1});
  CHECK(cheapest_packs(1400, {700}, {Exact(20)}) == std::vector<int>{2});
  CHECK(cheapest_packs(700 * (1 + 1e-12), {700}, {Exact(20)}) == std::vector<int>{1});
  CHECK(cheapest_packs(700.01, {700}, {Exact(20)}) == std::vector<int>{2});
}

TEST_CASE("of two ways at one price the smaller amount is bought") {
  // 12 for a litre, 6 for half of it: three halves or one and a half litres are 18 both; 1.2 l needs either.
  CHECK(bought(cheapest_packs(1200, {1000, 500}, {Exact(12), Exact(6)}), {1000, 500}, {Exact(12), Exact(6)})
            .size == 1500);
  CHECK(cheapest_packs(900, {1000, 900}, {Exact(12), Exact(12)}) == std::vector<int>{0, 1});
}

TEST_CASE("a dear small pack is bought where the cheap large one is more than is needed") {
  CHECK(cheapest_packs(100, {1000, 100}, {Exact(20), Exact(5)}) == std::vector<int>{0, 1});
  CHECK(cheapest_packs(1100, {1000, 100}, {Exact(20), Exact(5)}) == std::vector<int>{1, 1});
  CHECK(cheapest_packs(1500, {1000, 100}, {Exact(20), Exact(5)}) == std::vector<int>{2, 0});
}

TEST_CASE("no other way to buy is cheaper, as trying every one shows") {
  std::mt19937 chance(7);
  auto whole = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(chance); };
  for (int round = 0; round < 300; ++round) {
    std::vector<double> sizes;
    std::vector<Exact> prices;
    for (int i = whole(1, 3); i > 0; --i) {
      sizes.push_back(50 * whole(1, 20));
      prices.emplace_back(whole(1, 40), 2);
    }
    double need = whole(1, 3000);
    INFO(need << " of " << sizes.size() << " sizes, round " << round);
    auto counts = cheapest_packs(need, sizes, prices);
    REQUIRE(counts.size() == sizes.size());
    auto got = bought(counts, sizes, prices), best = cheapest_of_all(need, sizes, prices);
    CHECK(got.size >= need);
    CHECK(got.cost == best.cost);
    CHECK(got.size == Approx(best.size));
  }
}

TEST_CASE("a very large need is covered, by the pack that is cheapest by weight") {
  auto counts = cheapest_packs(1e7, {1000, 100}, {Exact(20), Exact(5)});
  CHECK(counts == std::vector<int>{10000, 0});
  counts = cheapest_packs(1e7 + 50, {1000, 100}, {Exact(20), Exact(5)});
  CHECK(counts == std::vector<int>{10000, 1});
}

TEST_CASE("a pack reads as it is sold") {
  auto text = [](const char* line) {
    testing::EvaluatedHouse house("house Test\n  currency EUR\ningredient a gin like London dry gin\n  buy " +
                                  std::string(line) + "\n");
    return pack_text(house.compiled.specs[house.stock("a gin")].buys.front(), house.compiled.units);
  };
  CHECK(text("700 ml for 21 EUR") == "700 ml");
  CHECK(text("6 x 700 ml for 120 EUR") == "6 × 700 ml");
}

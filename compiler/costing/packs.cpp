#include "costing/packs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <compare>
#include <tuple>

#include "base/text.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::costing {
namespace {

/// Rounding of physics must not buy a pack more.
constexpr double slack = 1e-9;

/// Depth-first over counts of each pack, cheapest by weight first, cut off where even the cheapest weight
/// costs too much.
class PackSearch {
 public:
  PackSearch(double need, std::vector<double> sizes, std::vector<Exact> prices)
      : need_(need), sizes_(std::move(sizes)), prices_(std::move(prices)), counts_(sizes_.size(), 0) {
    for (std::size_t i = 0; i < sizes_.size(); ++i)
      by_weight_.push_back(base::to_double(prices_[i]) / sizes_[i]);
  }

  std::vector<int> choose() {
    take(0, need_, 0, 0);
    return best_;
  }

 private:
  static constexpr int max_steps = 200000;

  void consider(const Exact& cost, double size) {
    if (!best_.empty() && (cost > best_cost_ || (cost == best_cost_ && size >= best_size_ - slack))) return;
    best_ = counts_;
    best_cost_ = cost;
    best_size_ = size;
  }

  void take(std::size_t i, double left, const Exact& cost, double size) {
    if (left <= slack * need_) return consider(cost, size);
    if (i == sizes_.size() || ++steps_ > max_steps) return;
    if (!best_.empty() &&
        base::to_double(cost) + left * by_weight_[i] > base::to_double(best_cost_) * (1 + 1e-9))
      return;
    int maximum = static_cast<int>(std::ceil(left / sizes_[i] - slack));
    for (int count = maximum; count >= 0; --count) {
      counts_[i] = count;
      take(i + 1, left - count * sizes_[i], cost + count * prices_[i], size + count * sizes_[i]);
      if (steps_ > max_steps) break;
    }
    counts_[i] = 0;
  }

  double need_;
  std::vector<double> sizes_;
  std::vector<Exact> prices_;
  std::vector<double> by_weight_;
  std::vector<int> counts_, best_;
  Exact best_cost_ = 0;
  double best_size_ = 0;
  int steps_ = 0;
};

}  // namespace

std::vector<int> cheapest_packs(double need, const std::vector<double>& sizes,
                                const std::vector<Exact>& prices) {
  std::vector<int> counts(sizes.size(), 0);
  if (need <= 0 || sizes.empty()) return counts;
  std::vector<std::size_t> order(sizes.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return prices[a] * model::decimal_of(sizes[b]) < prices[b] * model::decimal_of(sizes[a]);
  });
  // The bulk of a very large need is the pack that is cheapest by weight.
  constexpr double max_searched = 2000;
  std::size_t cheapest = order.front();
  double bulk = std::floor(std::min(need / sizes[cheapest], 1e9) - max_searched);
  if (bulk > 0) {
    counts[cheapest] = static_cast<int>(bulk);
    need -= bulk * sizes[cheapest];
  }
  std::vector<double> sorted_sizes;
  std::vector<Exact> sorted_prices;
  for (auto i : order) {
    sorted_sizes.push_back(sizes[i]);
    sorted_prices.push_back(prices[i]);
  }
  auto found = PackSearch(need, sorted_sizes, sorted_prices).choose();
  for (std::size_t i = 0; i < found.size(); ++i) counts[order[i]] += found[i];
  return counts;
}

std::string pack_text(const analysis::Buy& buy, const units::UnitTable& units) {
  std::string pack = render::wording::text_of(render::wording::measure_as_given(buy.pack, units));
  if (buy.packs == 1) return pack;
  return fmt::format("{} × {}", render::wording::trimmed(buy.packs, 2), pack);
}

bool is_whole_egg(const analysis::Stock& stock) {
  return stock.kind == analysis::StockKind::egg && !stock.gives.empty();
}

std::optional<double> peel_of_one(StockId fruit, const Costing& costing) {
  const auto& specs = costing.house().specs;
  const auto* gives = model::given_peel(specs[fruit], specs);
  return gives ? model::number_of(costing.measuring().grams_silently(gives->what, gives->quantity))
               : std::nullopt;
}

FruitCount fruit_for(const analysis::Use& use, double grams, const Costing& costing) {
  const auto& house = costing.house();
  FruitCount fruit;
  auto peel = model::is_peel(use, house.specs, house.units) ? peel_of_one(use.stock, costing) : std::nullopt;
  if (peel && *peel > 0) {
    fruit.peeled = grams / *peel;
  } else if (auto whole = model::number_of(costing.measuring().grams_each(analysis::Use{use.stock, {}, {}}));
             whole && *whole > 0) {
    fruit.cut = grams / *whole;
  }
  return fruit;
}

}  // namespace gill::costing

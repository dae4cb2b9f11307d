#include "unit/plan/replay.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "costing/packs.h"
#include "plan/shopping.h"

namespace gill::plan {
namespace {

/// Some of one item that came in at one time.
struct Lot {
  double from_h = 0;
  double grams = 0;
  int last_day = 0;
  double last_h = 1e300;
};

struct Draw {
  double hour = 0;
  double grams = 0;
};

/// A use spread over a service is drawn at the start of every hour of it.
void draw_hourly(const Consumption& used, std::vector<Draw>& draws) {
  double hours = used.to_h - used.from_h;
  int parts = std::max(1, static_cast<int>(std::ceil(hours - 1e-9)));
  for (int i = 0; i < parts; ++i) draws.push_back({used.from_h + hours * i / parts, used.grams / parts});
}

std::string clock_words(double hour) { return fmt::format("{:+.2f} h", hour); }

}  // namespace

std::vector<std::string> replay(const PrepPlan& plan, const House& house) {
  std::vector<std::string> failures;
  std::vector<std::vector<Lot>> lots(plan.products.size());
  std::vector<std::vector<Draw>> draws(plan.products.size());
  for (std::size_t i = 0; i < plan.products.size(); ++i) {
    const auto& product = plan.products[i];
    if (!product.stock.valid()) continue;
    auto found = plan.options.on_hand_g.find(product.stock);
    if (found != plan.options.on_hand_g.end())
      lots[i].push_back({-1e300, found->second, product.keeps_days - 2});
  }
  for (const auto& make : plan.makes) {
    if (make.make_g <= 0) continue;
    const auto& product = plan.products[make.product];
    lots[make.product].push_back({make.ready_h, make.make_g, make.last_day,
                                  product.keeps_h ? make.ready_h + *product.keeps_h : 1e300});
    double before = -1e300;
    for (std::size_t i = 0; i < make.work.size(); ++i) {
      if (make.work[i].first < before - 1e-6)
        failures.push_back(
            fmt::format("{}: stage {} begins before the wait ahead of it is over", product.name, i + 1));
      before = make.work[i].second + product.stages[i].wait_h;
    }
    if (make.ready_h < before - 1e-6)
      failures.push_back(fmt::format("{} is called ready before it is", product.name));
  }
  for (const auto& used : plan.consumption)
    if (used.product) draw_hourly(used, draws[*used.product]);
  for (std::size_t i = 0; i < plan.products.size(); ++i) {
    auto& of_item = lots[i];
    std::stable_sort(draws[i].begin(), draws[i].end(),
                     [](const Draw& a, const Draw& b) { return a.hour < b.hour; });
    for (const auto& draw : draws[i]) {
      double wanted = draw.grams;
      // The lot that goes off first is poured first.
      std::stable_sort(of_item.begin(), of_item.end(),
                       [](const Lot& a, const Lot& b) { return a.last_day < b.last_day; });
      for (auto& lot : of_item) {
        bool there = lot.from_h <= draw.hour + 1e-6;
        bool keeps = bar_day(draw.hour, plan.options) <= lot.last_day && draw.hour <= lot.last_h + 1e-6;
        if (!there || !keeps) continue;
        double taken = std::min(wanted, lot.grams);
        lot.grams -= taken;
        wanted -= taken;
      }
      if (wanted > 1e-6 * (1 + draw.grams))
        failures.push_back(fmt::format("{:.1f} g of {} are missing at {}", wanted, plan.products[i].name,
                                       clock_words(draw.hour)));
    }
  }
  // What is bought is there from the start; fruit gives its juice and its peel together.
  Costing costing(house);
  for (const auto& line : plan.shopping) {
    if (!line.cost) continue;
    double bought = line.on_hand_g;
    auto offers = costing.prices().offers(line.stock);
    for (const auto& pack : line.packs)
      for (const auto& offer : offers)
        if (pack_text(*offer.buy, house.units) == pack.size && offer.code == pack.code &&
            offer.price * pack.count == pack.cost) {
          bought += offer.grams * pack.count;
          break;
        }
    bought *= 1 - house.specs[line.stock].waste.value_or(0);
    double whole =
        model::number_of(costing.measuring().grams_each(analysis::Use{line.stock, {}, {}})).value_or(0);
    double used_g = 0;
    FruitCount fruit;
    for (const auto& used : plan.consumption) {
      if (used.product || used.use.stock != line.stock) continue;
      auto peel = peel_of_one(line.stock, costing);
      if (model::is_peel(used.use, house.specs, house.units) && peel)
        fruit.peeled += used.grams / *peel;
      else
        used_g += used.grams;
    }
    for (const auto& make : plan.makes) {
      const auto& product = plan.products[make.product];
      if (product.making != Making::pressing || product.fruit != line.stock) continue;
      (product.ml_per_g ? fruit.pressed[product.stock] : fruit.peeled) += make.make_g / product.serve_g;
    }
    used_g += (std::max(fruit.most_pressed(), fruit.peeled) + fruit.cut) * whole;
    if (bought < used_g * (1 - 1e-6) - 1e-6)
      failures.push_back(fmt::format("{:.1f} g of {} are bought and {:.1f} g used", bought,
                                     house.specs[line.stock].head.name, used_g));
  }
  return failures;
}

}  // namespace gill::plan

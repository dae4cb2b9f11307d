#include "plan/shopping.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <compare>
#include <map>
#include <tuple>

#include "base/text.h"
#include "costing/packs.h"
#include "costing/words.h"
#include "plan/prep_page.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::plan {
namespace {

/// Rounding of physics must not buy a pack more.
constexpr double slack = 1e-9;

/// What a fruit is bought for.
struct Purpose {
  enum class Measure : std::uint8_t { pieces, grams, ml } measure;
  std::string name;
  auto operator<=>(const Purpose&) const = default;
};

/// What of one stock is needed, gathered from all uses.
struct Need {
  double grams = 0, pieces = 0;
  /// The item word of the pieces.
  units::UnitId item;
  FruitCount fruit;
  std::map<Purpose, double> purposes;
};

std::string purpose_text(const Purpose& purpose, double amount) {
  switch (purpose.measure) {
    case Purpose::Measure::ml:
      return amount_text(amount, 0, 0) + " " + purpose.name;
    case Purpose::Measure::grams:
      return amount_text(std::nullopt, amount, 0) + " " + purpose.name;
    case Purpose::Measure::pieces:
      break;
  }
  return fmt::format("{} × {}", render::wording::trimmed(std::ceil(amount - 1e-6), 0), purpose.name);
}

/// What the plan's makes and the bar itself use, gathered by what is bought.
class Needs {
 public:
  Needs(const PrepPlan& plan, const Costing& costing) : costing_(costing) {
    for (const auto& make : plan.makes) press(plan.products[make.product], make.make_g);
    for (const auto& used : plan.consumption)
      if (!used.product && !costing.prices().is_free(used.use.stock)) use(used);
  }

  const std::map<StockId, Need>& by_stock() const { return needs_; }

 private:
  /// Whole fruit for what is pressed or peeled of it.
  void press(const Product& product, double make_g) {
    if (product.making != Making::pressing || make_g <= 0) return;
    auto& need = needs_[product.fruit];
    double fruit = std::ceil(make_g / product.serve_g - slack);
    (product.ml_per_g ? need.fruit.pressed : need.fruit.peeled) += fruit;
    auto measure = product.ml_per_g ? Purpose::Measure::ml : Purpose::Measure::grams;
    need.purposes[{measure, product.name}] += make_g * product.ml_per_g.value_or(1);
  }

  void use(const Consumption& used) {
    const auto& house = costing_.house();
    const auto& measuring = costing_.measuring();
    auto& need = needs_[used.use.stock];
    need.pieces += used.pieces;
    if (used.pieces > 0) need.item = used.use.item;
    bool gives = !house.specs[used.use.stock].gives.empty();
    auto whole = grams_of_one(used.use.stock);
    if (!gives || !whole || *whole <= 0) {
      need.grams += used.grams;
      return;
    }
    auto piece = model::number_of(measuring.grams_each(used.use));
    auto peel = peel_of_one(used.use.stock, costing_);
    if (model::is_peel(used.use, house.specs, house.units) && peel && *peel > 0)
      need.fruit.peeled += used.grams / *peel;
    else
      need.fruit.cut += used.grams / *whole;
    if (used.use.item.valid() && piece && *piece > 0)
      need.purposes[{Purpose::Measure::pieces, analysis::name_of(used.use, house.specs, house.units)}] +=
          used.grams / *piece;
  }

  std::optional<double> grams_of_one(StockId stock) const {
    return model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}}));
  }

  const Costing& costing_;
  std::map<StockId, Need> needs_;
};

/// What is needed of one thing beside what is on hand, without what it is bought in.
ShoppingLine line_of(StockId stock, const Need& need, const PlanOptions& options, const Costing& costing) {
  const auto& measuring = costing.measuring();
  ShoppingLine line;
  line.stock = stock;
  auto whole = model::number_of(measuring.grams_each(analysis::Use{stock, {}, {}}));
  double fruit = std::ceil(need.fruit.total() - slack);
  double grams = need.grams + (fruit > 0 && whole ? fruit * *whole : 0);
  double keeps = 1 - costing.house().specs[stock].waste.value_or(0);
  line.need_g = keeps > 0 ? grams / keeps : grams;
  line.need_pieces = need.pieces + (fruit > 0 && !whole ? fruit : 0);
  if (auto found = options.on_hand_g.find(stock); found != options.on_hand_g.end())
    line.on_hand_g = found->second;
  if (auto found = options.on_hand_pieces.find(stock); found != options.on_hand_pieces.end())
    line.on_hand_pieces = found->second;
  if (measuring.is_liquid(stock))
    line.need_ml = model::number_of(measuring.millilitres(stock, units::Grams(line.need_g)));
  if (whole && *whole > 0 && !measuring.is_liquid(stock)) line.need_count = line.need_g / *whole;
  if (line.need_pieces > 0 && line.need_g <= 0) line.need_count = line.need_pieces;
  std::vector<std::string> purposes;
  for (const auto& [purpose, amount] : need.purposes) purposes.push_back(purpose_text(purpose, amount));
  line.purpose = base::join(purposes, ", ");
  return line;
}

/// The packs that make up what is not on hand, at the least cost.
void buy(ShoppingLine& line, const Need& need, const Costing& costing) {
  const auto& prices = costing.prices();
  // Pieces that nobody weighs are bought by the piece.
  bool by_piece = line.need_g <= 0;
  auto offers =
      by_piece ? prices.piece_offers(analysis::Use{line.stock, need.item, {}}) : prices.offers(line.stock);
  if (offers.empty()) return;
  std::vector<double> sizes;
  std::vector<Exact> costs;
  for (const auto& offer : offers) {
    sizes.push_back(by_piece ? offer.pieces : offer.grams);
    costs.push_back(offer.price);
  }
  double needed = by_piece ? line.need_pieces : line.need_g;
  double to_buy = std::max(0.0, needed - (by_piece ? line.on_hand_pieces : line.on_hand_g));
  if (to_buy <= slack * needed) to_buy = 0;
  auto counts = cheapest_packs(to_buy, sizes, costs);
  line.cost = Exact(0);
  for (std::size_t i = 0; i < offers.size(); ++i) {
    if (line.supplier.empty()) line.supplier = offers[i].supplier;
    if (counts[i] == 0) continue;
    Exact cost = offers[i].price * counts[i];
    line.packs.push_back({pack_text(*offers[i].buy, costing.house().units), counts[i], cost, offers[i].code});
    line.supplier = offers[i].supplier;
    *line.cost += cost;
  }
}

/// By supplier and name; what nobody is named for comes last.
void sort_by_supplier(std::vector<ShoppingLine>& lines, const House& house) {
  auto key = [&](const ShoppingLine& line) {
    return std::tuple(line.supplier.empty(), name_key(line.supplier),
                      name_key(house.specs[line.stock].head.name));
  };
  std::sort(lines.begin(), lines.end(),
            [&](const ShoppingLine& a, const ShoppingLine& b) { return key(a) < key(b); });
}

}  // namespace

void add_shopping(PrepPlan& plan, const Costing& costing) {
  const auto& house = costing.house();
  Needs needs(plan, costing);
  for (const auto& [stock, need] : needs.by_stock()) {
    auto line = line_of(stock, need, plan.options, costing);
    if (line.need_g <= 0 && line.need_pieces <= 0) continue;
    buy(line, need, costing);
    if (line.cost) plan.cost += *line.cost;
    plan.shopping.push_back(std::move(line));
  }
  sort_by_supplier(plan.shopping, house);
  std::vector<std::string> unpriced;
  for (const auto& line : plan.shopping)
    if (!line.cost) unpriced.push_back(house.specs[line.stock].head.name);
  if (!unpriced.empty())
    plan.notes.push_back(
        fmt::format("No pack with a price is known of {}, so the amount is told and no cost.",
                    base::join_with_and(unpriced)));
}

void add_stations(PrepPlan& plan, const House& house, const Costing& costing) {
  std::map<StockId, std::size_t> item_of_stock;
  std::map<DrinkId, std::size_t> item_of_drink;
  for (std::size_t i = 0; i < plan.products.size(); ++i) {
    if (plan.products[i].stock.valid())
      item_of_stock[plan.products[i].stock] = i;
    else
      item_of_drink[plan.products[i].drink] = i;
  }
  for (const auto& day : plan.days) {
    std::map<std::string, std::map<std::string, StationLine>> stations;
    for (const auto& [drink, portions] : day.serves) {
      const auto& specs = house.specs[drink];
      auto& station = stations[specs.station];
      auto bottle = item_of_drink.find(drink);
      if (bottle != item_of_drink.end()) {
        const auto& product = plan.products[bottle->second];
        auto& line = station["2" + name_key(product.name)];
        line.name = product.name + ", house bottle";
        line.product = bottle->second;
        line.grams += portions * product.serve_g;
        line.ml = line.grams * product.ml_per_g.value_or(1);
      }
      for (const auto& entry : house.facts[drink].entries) {
        if (entry.optional || costing.prices().is_free(entry.use.stock)) continue;
        if (bottle != item_of_drink.end() && specs.batched && entry.role == model::Role::amount &&
            std::find(specs.batched->uses.begin(), specs.batched->uses.end(), entry.use) !=
                specs.batched->uses.end())
          continue;
        auto made = item_of_stock.find(entry.use.stock);
        bool garnish = entry.role == model::Role::garnish || entry.role == model::Role::side ||
                       entry.role == model::Role::rim;
        bool pressed = made != item_of_stock.end() && plan.products[made->second].making == Making::pressing;
        // Made things first, then what is pressed today, then bottles, then garnish.
        std::string rank = garnish ? "4" : pressed ? "1" : made != item_of_stock.end() ? "0" : "3";
        auto& line = station[rank + name_key(entry.name)];
        line.name = entry.name;
        line.use = entry.use;
        if (made != item_of_stock.end()) line.product = made->second;
        line.is_garnish = garnish;
        line.is_pressed_today = pressed;
        line.grams += portions * entry.mass_g.value_or(0);
        line.pieces += portions * entry.count.value_or(0);
        if (costing.measuring().is_liquid(entry.use.stock))
          line.ml =
              model::number_of(costing.measuring().millilitres(entry.use.stock, units::Grams(line.grams)));
      }
    }
    std::vector<StationDay> of_day;
    for (auto& [name, lines] : stations) {
      StationDay station{name, {}};
      for (auto& [key, line] : lines) station.lines.push_back(std::move(line));
      of_day.push_back(std::move(station));
    }
    plan.stations.push_back(std::move(of_day));
  }
}

}  // namespace gill::plan

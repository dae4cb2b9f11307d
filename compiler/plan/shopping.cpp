#include "plan/shopping.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <compare>
#include <map>
#include <tuple>

#include "base/text.h"
#include "costing/garnish_notes.h"
#include "costing/packs.h"
#include "costing/words.h"
#include "model/entries.h"
#include "model/house_bottle.h"
#include "plan/prep_page.h"
#include "plan/services.h"
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
  /// By the day on which it is pressed, peeled or cut: what is peeled is pressed on the same day or the next,
  /// and what was pressed has no peel to give.
  std::map<int, FruitCount> fruit;
  std::map<Purpose, double> purposes;

  /// How many that were peeled the day before are left, and are pressed first.
  double peeled_before(int day) const {
    auto before = fruit.find(day - 1), today = fruit.find(day);
    if (before == fruit.end() || today == fruit.end()) return 0;
    const double left = std::max(0.0, before->second.peeled - pressed_anew(day - 1));
    return std::min(left, today->second.most_pressed());
  }

  /// How many are pressed on a day beside those that were peeled the day before.
  double pressed_anew(int day) const {
    auto today = fruit.find(day);
    return today == fruit.end() ? 0 : today->second.most_pressed() - peeled_before(day);
  }

  double whole_fruit() const {
    double total = 0;
    for (const auto& [day, count] : fruit)
      total += std::ceil(count.cut - slack) + std::ceil(std::max(count.peeled, pressed_anew(day)) - slack);
    return std::ceil(total - slack);
  }
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
  Needs(const PrepPlan& plan, const Costing& costing) : costing_(costing), options_(plan.options) {
    for (const auto& make : plan.makes) press(plan.products[make.product], make);
    for (std::size_t day = 0; day < plan.cuts.size(); ++day)
      for (const auto& cut : plan.cuts[day]) {
        // A fruit that is begun is bought whole; what is used of it follows below.
        auto& fruit = needs_[cut.use.stock].fruit[static_cast<int>(day)];
        (cut.is_peel ? fruit.peeled : fruit.cut) += cut.fruit_count - cut.fruit_share;
      }
    for (const auto& used : plan.consumption)
      if (!used.product && !costing.prices().is_free(used.use.stock)) use(used);
  }

  const std::map<StockId, Need>& by_stock() const { return needs_; }

 private:
  /// Whole fruit for what is pressed or peeled of it.
  void press(const Product& product, const Make& make) {
    if (product.making != Making::pressing || make.make_g <= 0) return;
    auto& need = needs_[product.fruit];
    double fruit = std::ceil(make.make_g / product.serve_g - slack);
    auto& of_day = need.fruit[make.made_day];
    (product.ml_per_g ? of_day.pressed[product.stock] : of_day.peeled) += fruit;
    auto measure = product.pieces_per_g ? Purpose::Measure::pieces
                   : product.ml_per_g   ? Purpose::Measure::ml
                                        : Purpose::Measure::grams;
    double per_g = product.pieces_per_g.value_or(product.ml_per_g.value_or(1));
    need.purposes[{measure, product.name}] += make.make_g * per_g;
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
    auto fruit = fruit_for(used.use, used.grams, costing_);
    auto& of_day = need.fruit[bar_day(used.from_h, options_)];
    of_day.peeled += fruit.peeled;
    of_day.cut += fruit.cut;
    if (used.use.item.valid() && piece && *piece > 0)
      need.purposes[{Purpose::Measure::pieces, analysis::name_of(used.use, house.specs, house.units)}] +=
          used.grams / *piece;
  }

  std::optional<double> grams_of_one(StockId stock) const {
    return model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}}));
  }

  const Costing& costing_;
  const PlanOptions& options_;
  std::map<StockId, Need> needs_;
};

/// What is needed of one thing beside what is on hand, without what it is bought in.
ShoppingLine line_of(StockId stock, const Need& need, const PlanOptions& options, const Costing& costing) {
  const auto& measuring = costing.measuring();
  ShoppingLine line;
  line.stock = stock;
  auto whole = model::number_of(measuring.grams_each(analysis::Use{stock, {}, {}}));
  double fruit = need.whole_fruit();
  double grams = need.grams + (fruit > 0 && whole ? fruit * *whole : 0);
  double keeps = 1 - costing.house().specs[stock].waste.value_or(0);
  line.need_g = keeps > 0 ? grams / keeps : grams;
  line.need_pieces = need.pieces + (fruit > 0 && !whole ? fruit : 0);
  if (auto found = options.on_hand_g.find(stock); found != options.on_hand_g.end())
    line.on_hand_g = found->second;
  if (auto found = options.on_hand_pieces.find(stock); found != options.on_hand_pieces.end())
    line.on_hand_pieces = found->second;
  const bool is_poured = measuring.is_liquid(stock) && !is_whole_egg(costing.house().specs[stock]);
  if (is_poured && line.need_g > 0)
    line.need_ml = model::number_of(measuring.millilitres(stock, units::Grams(line.need_g)));
  if (whole && *whole > 0 && !is_poured) line.need_count = line.need_g / *whole;
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
  const analysis::Buy& pack = *offers.front().buy;
  if (!by_piece && offers.front().grams > 0) {
    line.sold_by = pack.pack.kind;
    line.need_as_sold = line.need_g / offers.front().grams * pack.packs * pack.pack.number();
  }
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
  for (auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (product.making != Making::pressing || !product.ml_per_g) continue;
    auto need = needs.by_stock().find(product.fruit);
    if (need != needs.by_stock().end()) make.peeled_before = need->second.peeled_before(make.made_day);
  }
  for (const auto& [stock, need] : needs.by_stock()) {
    auto line = line_of(stock, need, plan.options, costing);
    if (line.need_g <= 0 && line.need_pieces <= 0) continue;
    buy(line, need, costing);
    if (line.cost) plan.cost += *line.cost;
    plan.shopping.push_back(std::move(line));
  }
  sort_by_supplier(plan.shopping, house);
  std::vector<std::string> unpriced;
  std::set<std::string> unweighed;
  for (const auto& line : plan.shopping) {
    if (line.cost) continue;
    const auto& name = house.specs[line.stock].head.name;
    if (line.need_g <= 0 && !costing.prices().offers(line.stock).empty())
      unweighed.insert("`" + name + "`");
    else
      unpriced.push_back(name);
  }
  std::vector<DrinkId> drinks;
  for (const auto& [drink, portions] : plan.serves) drinks.push_back(drink);
  for (auto note : {note_on_unweighed(unweighed, "the shopping is told"),
                    note_on_undeclared(undeclared_garnishes(house, drinks), "work and shopping are told")})
    if (!note.empty()) plan.notes.push_back(std::move(note));
  if (!unpriced.empty())
    plan.notes.push_back(
        fmt::format("No pack with a price is known of {}, so the amount is told and no cost.",
                    base::join_with_and(unpriced)));
}

namespace {

/// A station's lines by the place that each has among them.
using StationLines = std::map<std::string, StationLine>;

/// What each station sets out on a day, from what is served.
class StationSheets {
 public:
  StationSheets(const PrepPlan& plan, const House& house, const Costing& costing)
      : plan_(plan), house_(house), costing_(costing) {
    for (std::size_t i = 0; i < plan.products.size(); ++i) {
      if (plan.products[i].stock.valid())
        item_of_stock_[plan.products[i].stock] = i;
      else
        item_of_drink_[plan.products[i].drink] = i;
    }
  }

  std::vector<StationDay> of(const ServiceDay& day) const {
    std::map<std::string, StationLines> stations;
    for (const auto& [drink, portions] : day.serves)
      add_drink(stations[house_.specs[drink].station], drink, portions_made(house_.specs[drink], portions));
    std::vector<StationDay> of_day;
    for (auto& [name, lines] : stations) {
      StationDay station{name, {}};
      for (auto& [key, line] : lines) station.lines.push_back(std::move(line));
      of_day.push_back(std::move(station));
    }
    return of_day;
  }

 private:
  void add_drink(StationLines& station, DrinkId drink, double portions) const {
    auto bottle = item_of_drink_.find(drink);
    const bool has_bottle = bottle != item_of_drink_.end();
    if (has_bottle) add_bottle(station, bottle->second, portions);
    for (const auto& entry : house_.facts[drink].entries) {
      if (entry.optional || costing_.prices().is_free(entry.use.stock)) continue;
      if (has_bottle && model::is_batched(house_.specs[drink], entry)) continue;
      add_entry(station, entry, portions);
    }
  }

  void add_bottle(StationLines& station, std::size_t index, double portions) const {
    const auto& product = plan_.products[index];
    auto& line = station["2" + name_key(product.name)];
    line.name = product.name + ", house bottle";
    line.product = index;
    line.is_counted = false;
    line.grams += portions * product.serve_g;
    line.ml = line.grams * product.ml_per_g.value_or(1);
  }

  void add_entry(StationLines& station, const model::Entry& entry, double portions) const {
    auto made = item_of_stock_.find(entry.use.stock);
    const bool is_made = made != item_of_stock_.end(), garnish = model::is_laid_on(entry.role);
    const bool pressed = is_made && plan_.products[made->second].making == Making::pressing;
    // Made things first, then what is pressed today, then bottles, then garnish.
    const char* rank = garnish ? "4" : pressed ? "1" : is_made ? "0" : "3";
    auto& line = station[rank + name_key(entry.name)];
    line.name = entry.name;
    line.use = entry.use;
    if (is_made) line.product = made->second;
    line.is_garnish = garnish;
    line.is_rim = entry.role == model::Role::rim && entry.count.has_value();
    line.is_pressed_today = pressed;
    line.grams += portions * entry.mass_g.value_or(0);
    line.pieces += portions * entry.count.value_or(0);
    line.is_counted = line.is_counted && entry.count.has_value();
    const auto& measuring = costing_.measuring();
    if (measuring.is_liquid(entry.use.stock))
      line.ml = model::number_of(measuring.millilitres(entry.use.stock, units::Grams(line.grams)));
  }

  const PrepPlan& plan_;
  const House& house_;
  const Costing& costing_;
  std::map<StockId, std::size_t> item_of_stock_;
  std::map<DrinkId, std::size_t> item_of_drink_;
};

}  // namespace

void add_stations(PrepPlan& plan, const House& house, const Costing& costing) {
  const StationSheets sheets(plan, house, costing);
  for (const auto& day : plan.days) plan.stations.push_back(sheets.of(day));
}

}  // namespace gill::plan

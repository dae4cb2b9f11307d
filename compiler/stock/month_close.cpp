#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "costing/priced_twice.h"
#include "model/house_bottle.h"
#include "model/money.h"
#include "stock/counted_bottles.h"
#include "stock/usage.h"
#include "units/money.h"

namespace gill::stock {
namespace {

using model::decimal_of;

std::optional<double> counted_g(const Counts* counts, StockId stock) {
  if (!counts) return std::nullopt;
  auto found = counts->grams.find(stock);
  return found == counts->grams.end() ? std::nullopt : std::optional(found->second);
}

/// The portions of which no row says the menu.
double portions_on_no_menu(const Sales& sales, DrinkId drink, double portions) {
  if (auto found = sales.on_menu.find(drink); found != sales.on_menu.end())
    for (const auto& [menu, sold] : found->second) portions -= sold;
  return portions;
}

/// What the portions sold for, without tax, by the menu that the till names, else by the one that prices each
/// drink last.
Exact revenue_of(const Sales& sales, const House& house, std::vector<std::string>& unpriced) {
  Exact revenue = 0;
  for (const auto& [drink, menus] : sales.on_menu)
    for (const auto& [menu, sold] : menus)
      revenue += model::price_of(drink, menu, house.specs, house.facts.currency)->without_tax.amount *
                 decimal_of(sold);
  for (const auto& [drink, all] : sales.portions) {
    const double portions = portions_on_no_menu(sales, drink, all);
    if (portions == 0) continue;
    if (auto price = model::price_of(drink, {}, house.specs, house.facts.currency))
      revenue += price->without_tax.amount * decimal_of(portions);
    else
      unpriced.push_back("`" + house.specs[drink].head.name + "`");
  }
  return model::settled(revenue);
}

Exact cost_of(const Sales* drinks, const Costing& costing) {
  Exact cost = 0;
  if (drinks)
    for (const auto& [drink, portions] : drinks->portions)
      cost += costing.cost(drink).value_or(Exact(0)) * decimal_of(portions);
  return cost;
}

Exact cost_of(const Counts& stock, const Costing& costing) {
  Exact cost = 0;
  for (const auto& [id, grams] : stock.grams)
    cost += worth_of_a_gram(id, costing).value_or(Exact(0)) * decimal_of(grams);
  for (const auto& [drink, grams] : stock.bottled_g)
    cost += costing.cost(parts_of_bottle(drink, costing)).value_or(Exact(0)) * decimal_of(grams);
  return cost;
}

/// What was counted, made and used of one thing, in grams.
struct Balance {
  std::optional<double> opening_g, left_g, made_g;
  /// Deliveries from another bar: they are there as if made.
  double received_g = 0;
  double used_g = 0, waste_g = 0;

  bool is_anything() const { return used_g > 0 || waste_g > 0 || opening_g || left_g || made_g; }
  /// What somebody wrote down, else what the rest asks for.
  double reckoned_made_g() const {
    double asked_g = used_g + waste_g + left_g.value_or(0) - opening_g.value_or(0) - received_g;
    return made_g.value_or(std::max(0.0, asked_g));
  }
  /// Where nobody wrote down what was made, only what was there already can be missing.
  std::optional<double> difference_g() const {
    if (!opening_g || !left_g) return std::nullopt;
    double grams = *opening_g + received_g + reckoned_made_g() - used_g - waste_g - *left_g;
    return made_g || grams > 0 ? std::optional(grams) : std::nullopt;
  }
};

/// As a line: `amount` puts grams in the measures of the thing, `worth_of_a_gram` is what one costs.
template <typename AmountOf>
PrepLine line_of(const Balance& balance, AmountOf amount, const std::optional<Exact>& worth_of_a_gram) {
  PrepLine line;
  line.is_made_stated = balance.made_g.has_value();
  line.used = amount(balance.used_g);
  line.waste = amount(balance.waste_g);
  line.made = amount(balance.reckoned_made_g());
  if (balance.opening_g) line.opening = amount(*balance.opening_g);
  if (balance.left_g) line.left = amount(*balance.left_g);
  auto difference_g = balance.difference_g();
  if (!difference_g) return line;
  line.difference = amount(*difference_g);
  if (worth_of_a_gram) line.difference_value = model::settled(*worth_of_a_gram * decimal_of(*difference_g));
  return line;
}

/// What became of every prep: from those that drinks use to those that go into other preps; and of every
/// house bottle.
class PrepBalance {
 public:
  PrepBalance(const Costing& costing, const StockInput& input)
      : costing_(costing),
        house_(costing.house()),
        input_(input),
        used_g_(house_.specs.stock.size(), 0),
        waste_g_(used_g_.size(), 0) {
    add(input.sales, used_g_);
    add(input.staff, used_g_);
    add_bottled(input.count, 1);
    add_bottled(input.opening, -1);
    add_bottled(input.received, -1);
    if (!input.waste) return;
    add(&input.waste->drinks, waste_g_);
    for (const auto& [stock, grams] : input.waste->stock.grams) waste_g_[stock.index()] += grams;
  }

  std::vector<PrepLine> lines() {
    std::vector<PrepLine> all;
    auto preps = preps_after_parts(house_);
    for (auto prep = preps.rbegin(); prep != preps.rend(); ++prep) {
      auto balance = balance_of(*prep);
      use_parts(*prep, balance.reckoned_made_g());
      if (!balance.is_anything()) continue;
      all.push_back(line_of(
          balance, [&](double grams) { return amount_of(*prep, grams, 0, costing_); },
          worth_of_a_gram(*prep, costing_)));
      all.back().stock = *prep;
    }
    for (std::size_t i = 0; i < house_.specs.drinks.size(); ++i) add_bottle(DrinkId::at(i), all);
    std::sort(all.begin(), all.end(), [&](const PrepLine& a, const PrepLine& b) {
      return base::fold_name(name_of(a, house_)) < base::fold_name(name_of(b, house_));
    });
    return all;
  }

 private:
  void add(const Sales* drinks, std::vector<double>& grams) const {
    if (!drinks) return;
    for (const auto& [drink, portions] : drinks->portions)
      for (const auto& entry : house_.facts[drink].entries)
        if (!entry.optional && entry.mass_g) grams[entry.use.stock.index()] += portions * *entry.mass_g;
  }

  /// What stands in house bottles is used: it is no longer there by itself.
  void add_bottled(const Counts* counts, double times) {
    if (!counts) return;
    for (const auto& [drink, grams] : counts->bottled_g) {
      auto bottle = model::house_bottle_of(house_.specs[drink], house_.facts[drink], house_.facts);
      for (std::size_t i : bottle.entries) {
        const auto& entry = house_.facts[drink].entries[i];
        used_g_[entry.use.stock.index()] += times * grams * *entry.mass_g / bottle.masses.total();
      }
    }
  }

  Balance balance_of(StockId prep) const {
    return {counted_g(input_.opening, prep), counted_g(input_.count, prep),
            counted_g(input_.made, prep),    counted_g(input_.received, prep).value_or(0),
            used_g_[prep.index()],           waste_g_[prep.index()]};
  }

  void use_parts(StockId prep, double made_g) {
    const auto& facts = house_.facts[prep];
    if (facts.yield_g <= 0) return;
    for (const auto& entry : facts.entries)
      if (!entry.optional && entry.mass_g)
        used_g_[entry.use.stock.index()] += made_g * *entry.mass_g / facts.yield_g;
  }

  static std::optional<double> bottled_g_in(const Counts* counts, DrinkId drink) {
    if (!counts) return std::nullopt;
    auto found = counts->bottled_g.find(drink);
    return found == counts->bottled_g.end() ? std::nullopt : std::optional(found->second);
  }

  static double portions_of(const Sales* drinks, DrinkId drink) {
    if (!drinks) return 0;
    auto found = drinks->portions.find(drink);
    return found == drinks->portions.end() ? 0 : found->second;
  }

  /// Of a drink that is bottled ahead, where somebody counts or makes its bottles.
  void add_bottle(DrinkId drink, std::vector<PrepLine>& all) const {
    Balance balance{bottled_g_in(input_.opening, drink), bottled_g_in(input_.count, drink),
                    bottled_g_in(input_.made, drink), bottled_g_in(input_.received, drink).value_or(0)};
    if (!balance.opening_g && !balance.left_g && !balance.made_g) return;
    const double pour_g =
        model::house_bottle_of(house_.specs[drink], house_.facts[drink], house_.facts).masses.total();
    balance.used_g = pour_g * (portions_of(input_.sales, drink) + portions_of(input_.staff, drink));
    if (input_.waste)
      balance.waste_g = pour_g * portions_of(&input_.waste->drinks, drink) +
                        bottled_g_in(&input_.waste->stock, drink).value_or(0);
    auto amount = [&](double grams) { return StockAmount{grams, 0, bottled_ml(drink, grams, house_), {}}; };
    all.push_back(line_of(balance, amount, costing_.cost(parts_of_bottle(drink, costing_))));
    all.back().drink = drink;
  }

  const Costing& costing_;
  const House& house_;
  const StockInput& input_;
  std::vector<double> used_g_, waste_g_;
};

}  // namespace

void add_close(StockReport& report, const Costing& costing, const StockInput& input) {
  const auto& house = costing.house();
  MonthClose close;
  std::vector<std::string> unpriced;
  close.revenue = revenue_of(*input.sales, house, unpriced);
  std::vector<std::string> without_worth;
  for (const auto& line : report.usage) {
    if (!line.should_value && line.should.grams > 0)
      without_worth.push_back("`" + house.specs[line.stock].head.name + "`");
    close.should_cost += line.should_value.value_or(Exact(0));
    if (!line.went_value) continue;
    close.went_cost += *line.went_value;
    close.compared_should_cost += line.should_value.value_or(Exact(0));
  }
  close.staff_cost = model::settled(cost_of(input.staff, costing));
  if (input.waste)
    close.waste_cost =
        model::settled(cost_of(&input.waste->drinks, costing) + cost_of(input.waste->stock, costing));
  close.should_pour_cost_percent = model::pour_cost_percent(close.should_cost, close.revenue);
  close.actual_cost = close.should_cost + close.staff_cost + close.waste_cost + report.difference_value;
  if (close.went_cost != 0)
    close.actual_pour_cost_percent = model::pour_cost_percent(close.actual_cost, close.revenue);
  close.preps = PrepBalance(costing, input).lines();
  if (!unpriced.empty())
    report.notes.push_back(fmt::format("On no menu with a price, so the revenue is told without them: {}.",
                                       base::join_with_and(unpriced)));
  if (!without_worth.empty())
    report.notes.push_back(
        fmt::format("Nobody says what these cost, so what was sold cost more than is told here: {}.",
                    base::join_with_and(without_worth)));
  std::vector<DrinkId> sold;
  for (const auto& [drink, portions] : input.sales->portions)
    if (portions_on_no_menu(*input.sales, drink, portions) != 0) sold.push_back(drink);
  if (auto twice = costing::priced_twice(sold, house); !twice.empty())
    report.notes.push_back(
        fmt::format("On two menus of the same days at two prices, counted at the first: {}.",
                    base::join_with_and(twice)));
  report.close = std::move(close);
}

}  // namespace gill::stock

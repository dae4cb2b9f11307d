#include "model/money.h"

#include <fmt/format.h>

#include <limits>
#include <tuple>

#include "base/characters.h"
#include "base/percent.h"
#include "units/money.h"

namespace gill::model {

Exact decimal_of(double value) {
  // `1.23456789012345e+02`: the digits and the power of ten of their last.
  std::string text = fmt::format("{:.{}e}", value, std::numeric_limits<double>::digits10 - 1);
  auto e = text.find('e');
  int exponent = std::stoi(text.substr(e + 1)) - (std::numeric_limits<double>::digits10 - 1);
  std::string digits;
  bool negative = text.front() == '-';
  for (char c : text.substr(0, e))
    if (base::is_digit(c)) digits += c;
  Exact number = Exact::from_digits(digits);
  if (exponent >= 0)
    number *= base::power_of_ten(static_cast<unsigned>(exponent));
  else
    number /= base::power_of_ten(static_cast<unsigned>(-exponent));
  return negative ? Exact(-number) : number;
}

Exact rounded(const Exact& number, unsigned places) {
  Exact scale = base::power_of_ten(places);
  if (number < 0) return -rounded(-number, places);
  return base::floor(number * scale + Exact(1, 2)) / scale;
}

Exact settled(const Exact& cost) { return rounded(cost, 9); }

Exact fine(const Exact& part) { return rounded(part, 24); }

namespace {

/// Grams (or millilitres) in a kilogram (or a litre).
constexpr int base_units_in_large = 1000;

std::optional<Money> cost_of_grams(const StockFacts& facts, const Exact& grams) {
  if (!facts.cost_per_g) return std::nullopt;
  return Money{settled(facts.cost_per_g->amount * grams), facts.cost_per_g->currency};
}

}  // namespace

std::optional<Money> cost_per_l(const StockFacts& facts) {
  return cost_of_grams(facts, base_units_in_large * decimal_of(facts.density_g_per_ml));
}

std::optional<Money> cost_per_kg(const StockFacts& facts) {
  return cost_of_grams(facts, base_units_in_large);
}

std::optional<UnitCost> unit_cost(const StockFacts& facts, bool is_liquid) {
  if (facts.yield_count && *facts.yield_count > 0) {
    auto cost = cost_of_grams(facts, decimal_of(facts.yield_g) / decimal_of(*facts.yield_count));
    return cost ? std::optional(UnitCost{*cost, true, "each"}) : std::nullopt;
  }
  auto cost = is_liquid ? cost_per_l(facts) : cost_per_kg(facts);
  return cost ? std::optional(UnitCost{*cost, false, is_liquid ? "a litre" : "a kilogram"}) : std::nullopt;
}

std::optional<Money> in_currency(const Money& money, const std::string& currency,
                                 const analysis::House& house) {
  if (money.currency == currency) return money;
  for (const auto& rate : house.rates) {
    if (rate.from == money.currency && rate.to == currency)
      return Money{money.amount * rate.factor, currency};
    if (rate.to == money.currency && rate.from == currency)
      return Money{money.amount / rate.factor, currency};
  }
  return std::nullopt;
}

namespace {

/// What a price with tax is of the one without.
Exact tax_factor(const analysis::House& house) {
  return house.tax ? 1 + decimal_of(house.tax->rate) : Exact(1);
}

bool is_tax_added(const analysis::House& house) { return house.tax && !house.tax->included; }

}  // namespace

TaxedPrice taxed(const Money& price, const analysis::House& house) {
  TaxedPrice both{price, price};
  if (is_tax_added(house))
    both.with_tax.amount *= tax_factor(house);
  else
    both.without_tax.amount /= tax_factor(house);
  return both;
}

const Money& on_menu(const TaxedPrice& price, const analysis::House& house) {
  return is_tax_added(house) ? price.without_tax : price.with_tax;
}

std::optional<Exact> pour_cost_percent(const Exact& cost, const Exact& price_without_tax) {
  if (price_without_tax <= 0) return std::nullopt;
  return base::percent_of_share(Exact(cost / price_without_tax));
}

std::optional<Exact> target_pour_cost_percent(const analysis::House& house) {
  if (!house.pour_cost || *house.pour_cost <= 0) return std::nullopt;
  return base::percent_of_share(decimal_of(*house.pour_cost));
}

bool runs_before(const analysis::Menu& a, const analysis::Menu& b) {
  auto key = [](const analysis::Menu& menu) {
    return std::tuple(menu.runs_to.empty() ? std::string("9999") : menu.runs_to, menu.runs_from,
                      menu.head.name);
  };
  return key(a) < key(b);
}

std::optional<MenuPrice> price_of(const analysis::MenuEntry& entry, analysis::MenuId menu,
                                  const analysis::House& house, const std::string& currency) {
  if (!entry.price) return std::nullopt;
  auto price = in_currency(*entry.price, currency, house);
  if (!price) return std::nullopt;
  return MenuPrice{taxed(*price, house), menu, &entry};
}

std::optional<MenuPrice> price_of(analysis::DrinkId drink, analysis::MenuId wanted,
                                  const analysis::Specs& specs, const std::string& currency) {
  analysis::MenuId last;
  const analysis::MenuEntry* found = nullptr;
  for (std::size_t m = 0; m < specs.menus.size(); ++m) {
    auto menu = analysis::MenuId::at(m);
    if (wanted.valid() && menu != wanted) continue;
    if (found && runs_before(specs.menus[m], specs.menus[last.index()])) continue;
    for (const auto& section : specs.menus[m].sections)
      for (const auto& entry : section.entries)
        if (entry.drink == drink && entry.price) found = &entry, last = menu;
  }
  return found ? price_of(*found, last, specs.house, currency) : std::nullopt;
}

std::optional<Exact> price_for_target(const analysis::House& house, const Exact& cost,
                                      const std::string& currency) {
  auto target = target_pour_cost_percent(house);
  if (!target) return std::nullopt;
  Exact without_tax = 100 * cost / *target;
  Exact price = is_tax_added(house) ? without_tax : without_tax * tax_factor(house);
  Exact step = house.round_prices_to && *house.round_prices_to > 0
                   ? *house.round_prices_to
                   : Exact(1) / base::power_of_ten(units::decimals_of(currency));
  return base::ceiling(price / step) * step;
}

}  // namespace gill::model

#pragma once
#include <array>
#include <chrono>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "costing/costing.h"

namespace gill::costing {

/// What one bought thing adds to a cost.
struct Carrier {
  StockId stock;
  Exact cost;
  /// Part of the whole, 0 to 1.
  double share = 0;
};

/// What a drink costs and earns, a serve. Money is in the house's currency.
struct DrinkCost {
  DrinkId drink;
  /// Nothing while a price or a weight is missing (`without_price`).
  std::optional<Exact> cost;
  /// Half the width within which pours, by their measures, let the cost lie.
  double tolerance = 0;
  std::optional<model::MenuPrice> price;
  std::optional<Exact> pour_cost_percent, margin, price_for_target;
  /// Dearest first.
  std::vector<Carrier> carriers;
  std::vector<StockId> without_price;
  /// Garnishes that nobody weighs: the cost is told without them.
  std::vector<StockId> without_weight;
  /// The cost before the price rises that were asked for; equal to `cost` without any.
  std::optional<Exact> cost_before;
};

/// A prep as its recipe makes it.
struct PrepCost {
  StockId prep;
  std::optional<Exact> cost, cost_per_l, cost_per_kg, cost_each;
  std::vector<StockId> without_price;
};

/// A menu, weighted by what it is expected to sell in a week.
struct MenuCost {
  analysis::MenuId menu;
  /// False where no line says what it sells: then every drink counts once.
  bool has_sales = false;
  /// Portions of the drinks whose cost and price are known.
  Exact portions = 0;
  Exact cost = 0, cost_before = 0, sales_without_tax = 0;
  std::optional<Exact> pour_cost_percent, pour_cost_percent_before, margin_per_portion;
  Exact margin = 0;
  /// Dearest first, over the week.
  std::vector<Carrier> carriers;
  /// Drinks that are not counted because their cost or price is not known.
  std::vector<DrinkId> left_out;
};

/// `--if "rye whiskey +15%"`: the price of something bought, moved.
struct PriceRise {
  StockId stock;
  /// 1.15 for a rise of 15 %.
  Exact factor = 1;
};

/// Reads `NAME +15%`, `NAME -5 %`. A full sentence on failure.
std::variant<PriceRise, std::string> read_price_rise(const House& house, std::string_view text);

/// Where the prices of some things come from.
struct PriceSource {
  /// The price list; null for `buy` lines of the things themselves.
  const analysis::PriceList* list = nullptr;
  /// Since when it counts, as far as it says: `2026-04-01`, `2026-04`; empty where nothing does.
  std::string from;
  /// Days from then to the day of the report.
  std::optional<int> age_days;
  std::vector<StockId> stock;
};

/// Things bought by the list that prices each, the newest first; `today` is the day by which a list is so
/// old.
std::vector<PriceSource> price_sources(const std::set<StockId>& bought, const Costing& costing,
                                       std::optional<std::chrono::sys_days> today);
/// `` `April 2026` (since 2026-04-01, 240 days)``.
std::string words_of(const PriceSource& source);

struct CostReport {
  std::string currency;
  /// What is bought for the drinks and preps of the report, by the list that prices it, the newest first.
  std::vector<PriceSource> price_sources;
  std::vector<DrinkCost> drinks;
  std::vector<PrepCost> preps;
  std::vector<MenuCost> menus;
  std::vector<PriceRise> rises;
  /// What the reader must know: currencies without a rate, things without a price.
  std::vector<std::string> notes;
};

/// The costs of the house's drinks (of one menu, in its order, where `menu` is valid; else all by name,
/// retired ones left out), of its preps and its menus. `today` is the day by which prices are so old; `on`
/// the one (ISO 8601) whose price lists count, the newest where it is empty.
CostReport cost_report(const House& house, analysis::MenuId menu, const std::vector<PriceRise>& rises,
                       std::optional<std::chrono::sys_days> today = std::nullopt, const std::string& on = {});

/// `gill-cost` version 1.
std::string cost_json(const CostReport& report, const House& house);
/// One row a drink.
std::string cost_csv(const CostReport& report, const House& house);
std::string cost_text(const CostReport& report, const House& house);

}  // namespace gill::costing

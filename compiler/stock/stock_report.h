#pragma once
#include "render/document/document.h"
#include "stock/counts.h"

namespace gill::stock {

/// An amount of a stock in every measure that is known.
struct StockAmount {
  double grams = 0, pieces = 0;
  std::optional<double> ml, count;
  /// It is counted by what it weighs: honey by the kilogram.
  bool is_weighed = false;
};

/// One line of the count sheet.
struct CountLine {
  StockId stock;
  /// Of a house bottle: the drink, and no stock.
  DrinkId drink;
  std::string place;
  /// What a number alone counts (`AmountReader::usual_unit`).
  std::string pack;
  /// Nothing where no count was given.
  std::optional<StockAmount> counted;
  /// Of the count before, all places together.
  std::optional<StockAmount> before;
  /// What it is worth at what it costs to buy, or to make.
  std::optional<Exact> value;
};

/// `lime`; `Cone Six, house bottle`.
std::string name_of(const CountLine& line, const House& house);

/// What the sales should have used of something bought, against what went.
struct UsageLine {
  StockId stock;
  /// By what was sold; then what the staff drank and what was thrown away, as far as somebody wrote it down.
  StockAmount should, staff, waste;
  std::optional<Exact> should_value, went_value;
  /// Opening count and deliveries less the closing count, what is in preps included; nothing without those.
  std::optional<StockAmount> went;
  /// Went less all that is accounted for: above nothing is what is missing. Within the tolerance of counts
  /// and pours it says nothing.
  std::optional<double> difference_g, difference_percent, difference_tolerance_g;
  std::optional<Exact> difference_value;
};

/// What became of a prep or a house bottle: what was there and was made is what was used, thrown away and is
/// left.
struct PrepLine {
  StockId stock;
  /// Of a house bottle: the drink, and no stock.
  DrinkId drink;
  std::optional<StockAmount> opening, left;
  StockAmount used, waste;
  StockAmount made;
  /// False where nobody wrote down what was made, and it is what the rest asks for.
  bool is_made_stated = false;
  /// Made and there before, less used, thrown away and left: nothing where one of them is not known.
  std::optional<StockAmount> difference;
  std::optional<Exact> difference_value;
};
std::string name_of(const PrepLine& line, const House& house);

/// The money of a month, in the house's currency, without tax.
struct MonthClose {
  Exact revenue = 0;
  /// What was sold should have cost, and what went did: of all that both counts hold.
  Exact should_cost = 0, went_cost = 0;
  /// Part of `should_cost` that can be compared: of what both counts hold.
  Exact compared_should_cost = 0;
  Exact staff_cost = 0, waste_cost = 0;
  /// All together with what is missing of what was counted twice.
  Exact actual_cost = 0;
  /// Of the revenue: what was sold should have cost, and `actual_cost`.
  std::optional<Exact> should_pour_cost_percent, actual_pour_cost_percent;
  std::vector<PrepLine> preps;
};

struct StockInput {
  const Counts* count = nullptr;
  const Counts* opening = nullptr;
  const Counts* received = nullptr;
  const Sales* sales = nullptr;
  /// Preps that were made.
  const Counts* made = nullptr;
  const Waste* waste = nullptr;
  /// What the staff drank.
  const Sales* staff = nullptr;
};

struct StockReport {
  std::string currency;
  /// By place, then by name.
  std::vector<CountLine> lines;
  Exact value = 0;
  /// Dearest difference first, else by name; empty without sales.
  std::vector<UsageLine> usage;
  Exact difference_value = 0;
  /// With sales.
  std::optional<MonthClose> close;
  std::vector<std::string> notes;
};

/// By the price lists of the day `on` (ISO 8601), else by the newest; `today` is the day by which they are so
/// old.
StockReport stock_report(const House& house, const StockInput& input,
                         std::optional<std::chrono::sys_days> today = std::nullopt,
                         const std::string& on = {});

/// `gill-stock` version 1.
std::string stock_json(const StockReport& report, const House& house);
std::string stock_csv(const StockReport& report, const House& house);
render::document::Page stock_page(const StockReport& report, const House& house);

}  // namespace gill::stock

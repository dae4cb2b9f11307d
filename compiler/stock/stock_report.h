#pragma once
#include "render/document/document.h"
#include "stock/counts.h"

namespace gill::stock {

/// An amount of a stock in every measure that is known.
struct StockAmount {
  double grams = 0, pieces = 0;
  std::optional<double> ml, count;
};

/// One line of the count sheet.
struct CountLine {
  StockId stock;
  std::string place;
  /// What a number alone counts (`AmountReader::usual_unit`).
  std::string pack;
  /// Nothing where no count was given.
  std::optional<StockAmount> counted;
  /// What it is worth at what it costs to buy, or to make.
  std::optional<Exact> value;
};

/// What the sales should have used of something bought, against what went.
struct UsageLine {
  StockId stock;
  StockAmount should;
  /// Opening count and deliveries less the closing count, what is in preps included; nothing without those.
  std::optional<StockAmount> went;
  /// Went less should: above nothing is what is missing.
  std::optional<double> difference_g, difference_percent;
  std::optional<Exact> difference_value;
};

struct StockInput {
  const Counts* count = nullptr;
  const Counts* opening = nullptr;
  const Counts* received = nullptr;
  const Sales* sales = nullptr;
};

struct StockReport {
  std::string currency;
  /// By place, then by name.
  std::vector<CountLine> lines;
  Exact value = 0;
  /// Dearest difference first, else by name; empty without sales.
  std::vector<UsageLine> usage;
  Exact difference_value = 0;
  std::vector<std::string> notes;
};

StockReport stock_report(const House& house, const StockInput& input);

/// `gill-stock` version 1.
std::string stock_json(const StockReport& report, const House& house);
std::string stock_csv(const StockReport& report, const House& house);
render::document::Page stock_page(const StockReport& report, const House& house);

}  // namespace gill::stock

#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv_reader.h"
#include "costing/costing.h"
#include "stock/amount_reader.h"

namespace gill::stock {

using namespace costing;

/// A count of the stock (or what came in): how much of each, in grams, and in pieces of what nobody weighs.
struct Counts {
  std::map<StockId, double> grams, pieces;
  /// Where each was counted, by the words of the sheet, and how much there; nothing where a row leaves it
  /// open.
  std::map<StockId, std::map<std::string, std::optional<CountedAmount>>> by_place;
  std::vector<base::RowProblem> problems;
};

/// Reads `name, amount, unit, place` in any order and wording: an amount with its unit (`1.5 l`, `3 bottles`,
/// `2 cases`), or a number whose unit stands in a column of its own, else so many of what the sheet counts it
/// by
/// (`AmountReader::usual_unit`). A row that cannot be read is left out and told in `problems`; where a column
/// is missing that it needs, no row is read.
Counts read_counts(std::string_view bytes, const House& house);

/// Portions sold by drink.
struct Sales {
  std::map<DrinkId, double> portions;
  std::vector<base::RowProblem> problems;
};
/// Reads `drink, sold`; rows are left out and told as in a count.
Sales read_sales(std::string_view bytes, const House& house);

}  // namespace gill::stock

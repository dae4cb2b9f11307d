#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv_reader.h"
#include "costing/name_finder.h"

namespace gill::stock {

using namespace costing;

/// A count of the stock (or what came in): how much of each, in grams, and in pieces of what nobody weighs.
struct Counts {
  std::map<StockId, double> grams, pieces;
  std::map<StockId, std::string> places;
  std::vector<base::RowProblem> problems;
};

/// Reads `name, amount, unit, place` in any order and wording: an amount with its unit (`1.5 l`, `3 bottles`,
/// `2 cases`), or a number whose unit stands in a column of its own, else bottles of what is poured and
/// pieces of what is counted.
Counts read_counts(std::string_view bytes, const House& house);

/// Portions sold by drink.
struct Sales {
  std::map<DrinkId, double> portions;
  std::vector<base::RowProblem> problems;
};
Sales read_sales(std::string_view bytes, const House& house);

/// One row of a supplier's list that is understood.
struct ListedPrice {
  std::size_t line = 0;
  StockId stock;
  /// As it stands in Gill: `6 x 700 ml for 171 EUR from Quay Supply, code 4471`.
  std::string offer;
};

struct PriceListFile {
  std::vector<ListedPrice> prices;
  std::vector<base::RowProblem> problems;
  /// Rows whose name nobody knows, as they stand, with the nearest names.
  std::vector<base::RowProblem> unmatched;

  /// Both, in the order of their lines.
  std::vector<base::RowProblem> unused() const;
};

/// Reads a supplier's price list: names, sizes (`70cl`, `6 x 700 ml`, or packs in a column of their own),
/// prices, codes. `currency` counts where neither the cell nor a column says one.
PriceListFile read_price_list(std::string_view bytes, const House& house, const std::string& currency);
/// The list as a Gill declaration: `prices NAME`, what could not be used as comments.
std::string price_list_text(const PriceListFile& list, const House& house, const std::string& name);

}  // namespace gill::stock

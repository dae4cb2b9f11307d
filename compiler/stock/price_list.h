#pragma once
#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv_reader.h"
#include "costing/costing.h"

namespace gill::stock {

using namespace costing;

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
/// The list as a Gill declaration: `prices NAME` with the day from which it counts, what could not be used as
/// comments.
std::string price_list_text(const PriceListFile& list, const House& house, const std::string& name,
                            std::chrono::sys_days from);

}  // namespace gill::stock

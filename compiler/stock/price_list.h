#pragma once
#include <chrono>
#include <map>
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

/// A row whose name nobody knows, with its offer as far as it can be read.
struct NewGood {
  std::size_t line = 0;
  std::string name;
  /// The name that shares words with it; empty where none does.
  std::string relation;
  std::string offer;
};

struct PriceListFile {
  std::vector<ListedPrice> prices;
  std::vector<base::RowProblem> problems;
  /// Rows whose name nobody knows, as they stand, with the nearest names.
  std::vector<base::RowProblem> unmatched;
  /// The same with what can be read of each, to be completed.
  std::vector<NewGood> new_goods;

  /// Lines above the titles.
  std::vector<std::string> letterhead;
  /// By line: the row's own words, so that nothing of what is not used is lost.
  std::map<std::size_t, std::string> row_words;

  /// Both, in the order of their lines.
  std::vector<base::RowProblem> unused() const;
};

/// Reads a supplier's price list: names, packs as suppliers write them (`pack_words.h`), packs in a column of
/// their own, prices without tax of the pack or of one, codes. `currency` counts where neither the cell nor a
/// column says one.
PriceListFile read_price_list(std::string_view bytes, const House& house, const std::string& currency);
/// The list as a Gill declaration: `prices NAME` with the day from which it counts, what could not be used as
/// comments, and declarations of what the house does not know yet, as comments too.
std::string price_list_text(const PriceListFile& list, const House& house, const std::string& name,
                            std::chrono::sys_days from);

}  // namespace gill::stock

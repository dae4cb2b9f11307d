#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "plan/costing.h"
#include "plan/csv.h"

namespace gill::plan {

/// Up to three names that a misspelt or foreign one may mean: those that share most words with it, then the
/// nearest in spelling.
class NameFinder {
 public:
  NameFinder(const House& house, names::NameSpace space);
  /// The declaration's index in its table; nothing when no name or `aka` fits.
  std::optional<std::uint32_t> find(std::string_view name) const;
  std::vector<std::string> nearest(std::string_view name) const;
  /// `nothing here is called X; near it: a, b`.
  std::string unmatched(std::string_view name, std::string_view noun) const;

 private:
  const House& house_;
  names::NameSpace space_;
  struct Known {
    std::string folded, shown;
    std::vector<std::string> words;
  };
  std::vector<Known> known_;
};

/// A count of the stock (or what came in): how much of each, in grams, and in pieces of what nobody weighs.
struct Counts {
  std::map<StockId, double> grams, pieces;
  std::map<StockId, std::string> places;
  std::vector<RowProblem> problems;
};

/// Reads `name, amount, unit, place` in any order and wording: an amount with its unit (`1.5 l`, `3 bottles`,
/// `2 cases`), or a number whose unit stands in a column of its own, else bottles of what is poured and
/// pieces of what is counted.
Counts read_counts(std::string_view bytes, const House& house);

/// Portions sold by drink.
struct Sales {
  std::map<DrinkId, double> portions;
  std::vector<RowProblem> problems;
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
  std::vector<RowProblem> problems;
  /// Rows whose name nobody knows, as they stand, with the nearest names.
  std::vector<RowProblem> unmatched;

  /// Both, in the order of their lines.
  std::vector<RowProblem> unused() const;
};

/// Reads a supplier's price list: names, sizes (`70cl`, `6 x 700 ml`, or packs in a column of their own),
/// prices, codes. `currency` counts where neither the cell nor a column says one.
PriceListFile read_price_list(std::string_view bytes, const House& house, const std::string& currency);
/// The list as a Gill declaration: `prices NAME`, what could not be used as comments.
std::string price_list_text(const PriceListFile& list, const House& house, const std::string& name);

}  // namespace gill::plan

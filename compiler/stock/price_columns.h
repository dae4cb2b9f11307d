#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv_reader.h"

/// Which columns of a supplier's list tell what a pack costs.
namespace gill::stock {

/// What a price is of: the whole pack; a case, as the title says; one of what the pack holds; a kilo or a
/// litre of it; so much of a measure, so many pieces, as a cell beside it says (`PricedBy`).
enum class PriceOf : std::uint8_t { pack, whole_case, one, kilo, litre, measure, pieces };

struct PriceColumn {
  std::size_t column = 0;
  bool has_tax = false;
  PriceOf of = PriceOf::pack;
};

struct PriceColumns {
  /// The best first.
  std::vector<PriceColumn> columns;
  /// Why no price can be read, as a full sentence: a title whose words nobody knows, or two columns that
  /// nothing tells apart. Empty where they can be read, or where no title speaks of a price.
  std::string problem;
};

/// The columns with prices, by the words of their titles in five languages: without tax before with it, the
/// price of the case before the price of one, that of one before that of a kilo, plain words before more of
/// them. A title with other words than these (`Price group`) counts for nothing.
PriceColumns find_price_columns(const base::CsvTable& table);

/// The column that says what the price beside it is of: `per`, `Price unit`.
std::optional<std::size_t> find_price_unit_column(const base::CsvTable& table);

/// The column of per cents that are neither a tax nor a strength: a discount or a surcharge, by whatever
/// name.
std::optional<std::size_t> find_share_column(const base::CsvTable& table,
                                             const std::vector<PriceColumn>& prices);

/// What a title says of the numbers below it: how many of a pack come together, or perhaps that.
enum class CountTitle : std::uint8_t { none, per_pack, unclear };
CountTitle count_title(std::string_view title);
/// False where small whole numbers below a title are known for something else: a row, a stock, a vintage, a
/// tax.
bool may_title_counts(std::string_view title);

/// The words of a title in small letters, its marks as spaces; an article that leans on the next word is one
/// of its own: `l'unité`.
std::vector<std::string> words_of_title(std::string_view title);

/// How to title a column of prices.
extern const std::string_view what_to_title;

}  // namespace gill::stock

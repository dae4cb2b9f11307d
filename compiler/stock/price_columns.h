#pragma once
#include <string>
#include <vector>

#include "base/csv_reader.h"

/// Which columns of a supplier's list tell what a pack costs.
namespace gill::stock {

/// What a price in a column is of: the whole pack; a case, as the title says; one of what the pack holds; a
/// kilo or a litre of it.
enum class PriceOf : std::uint8_t { pack, whole_case, one, kilo, litre };

struct PriceColumn {
  std::size_t column = 0;
  bool has_tax = false;
  PriceOf of = PriceOf::pack;
};

/// The columns with prices, by the words of their titles in five languages, the best first: without tax
/// before with it, the price of the case before the price of one, that of one before that of a kilo.
std::vector<PriceColumn> find_price_columns(const base::CsvTable& table);

}  // namespace gill::stock

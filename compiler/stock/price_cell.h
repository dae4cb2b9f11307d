#pragma once
#include <optional>
#include <string>
#include <variant>

#include "base/csv_reader.h"
#include "stock/price_columns.h"

/// One cell of a supplier's list that tells a price.
namespace gill::stock {

struct CellPrice {
  base::Exact amount;
  /// ISO 4217, by code, sign or word; empty where the cell tells none.
  std::string currency;
  /// What the cell says that it is the price of: `34.00 each`, `9.60/kg`.
  std::optional<PriceOf> of = {};
};

/// Why a cell is no price that a bar can reckon with.
enum class NoPrice : std::uint8_t {
  not_read,
  negative,
  nothing,               ///< it is 0
  too_much,              ///< more than a bar pays for a pack: a slip of the file
  holds_tax,             ///< `21.00 incl. VAT`
  may_hold_tax,          ///< `13.50 VAT`
  holds_deposit,         ///< `98.40 inkl. Pfand`
  of_several_countries,  ///< `$13.50` in a house that reckons in none of their moneys
};

/// `13.50`, `£12`, `24.-`, `24.00 GBP + VAT`, `34.00 each`, `9.60/kg`. `at_home`: the house's currency.
std::variant<CellPrice, NoPrice> read_price_cell(const std::string& cell, const base::CsvTable& table,
                                                 std::string_view at_home);

/// What is wrong with that price of that thing and what to write, as a full sentence.
std::string no_price_message(NoPrice why, const std::string& cell, const std::string& name);

}  // namespace gill::stock

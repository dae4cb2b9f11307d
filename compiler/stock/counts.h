#pragma once
#include <chrono>
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
  /// What of it a row dates (`made`): so many grams of that day.
  std::map<StockId, std::vector<std::pair<std::chrono::sys_days, double>>> made_g;
  /// House bottles of batched drinks, in grams, and what of them a row dates.
  std::map<DrinkId, double> bottled_g;
  std::map<DrinkId, std::vector<std::pair<std::chrono::sys_days, double>>> bottled_made_g;
  std::vector<base::RowProblem> problems;
};

/// Reads `name, amount, unit, place, made` in any order and wording: an amount with its unit (`1.5 l`, `3
/// bottles`, `2 cases`), or a number whose unit stands in a column of its own, else so many of what the sheet
/// counts it by
/// (`AmountReader::usual_unit`). The name of a batched drink is its house bottle. A row that cannot be read
/// is left out and told in `problems`; where a column is missing that it needs, no row is read.
Counts read_counts(std::string_view bytes, const House& house);

/// The same of a list of what is on hand, which names columns that hold days and are not those on which
/// things were made as well: what is past its days must not pass for fresh in silence.
Counts read_on_hand(std::string_view bytes, const House& house);

/// Portions sold by drink.
struct Sales {
  std::map<DrinkId, double> portions;
  /// Of these, those whose row names the menu on which they were sold.
  std::map<DrinkId, std::map<analysis::MenuId, double>> on_menu;
  std::vector<base::RowProblem> problems;
};
/// What was thrown away: goods and preps by amount, drinks by the portion.
struct Waste {
  Counts stock;
  Sales drinks;
  std::vector<base::RowProblem> problems;
};
/// Reads `name, amount, unit`; a name that is a drink's counts portions, and in ml a share of one, where the
/// unit is none in which goods or house bottles of that name are measured. Rows are left out and told as in a
/// count.
Waste read_waste(std::string_view bytes, const House& house);
/// Reads `drink, sold, unit, menu`; rows are left out and told as in a count.
Sales read_sales(std::string_view bytes, const House& house);

/// Portions of a drink that somebody has booked for a day.
struct BookedPortions {
  std::chrono::sys_days date;
  DrinkId drink;
  double portions = 0;
};
struct BookedList {
  std::vector<BookedPortions> rows;
  std::vector<base::RowProblem> problems;
};
/// Reads `date, drink, portions`; rows are left out and told as in a count, and so is a drink that nobody
/// serves: retired, or a draft where the plan is not `with_drafts`.
BookedList read_bookings(std::string_view bytes, const House& house, bool with_drafts);

}  // namespace gill::stock

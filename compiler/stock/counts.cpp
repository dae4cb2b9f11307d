#include "stock/counts.h"

#include <fmt/format.h>

#include "stock/list_columns.h"

namespace gill::stock {
namespace {

const Titles amount_titles = {"on hand", "counted",       "count",    "amount", "quantity", "qty",
                              "closing", "stock on hand", "received", "menge",  "quantité"};
const Titles unit_titles = {"unit", "uom", "measure", "unit of measure", "einheit", "unité"};
const Titles place_titles = {"place", "location", "area", "shelf", "where", "storage"};
const Titles sold_titles = {"sold", "portions", "serves", "qty sold", "quantity sold", "quantity",
                            "qty",  "count",    "units",  "sales",    "menge"};

}  // namespace

Counts read_counts(std::string_view bytes, const House& house) {
  base::CsvTable table = base::read_csv(bytes);
  Counts counts;
  counts.problems = table.problems;
  NameColumn names(table, house, symbols::NameSpace::stock, name_titles);
  auto amount = table.column(amount_titles), unit = table.column(unit_titles);
  auto place = table.column(place_titles), size = table.column(size_titles);
  if (lacks(table, names.column(), "`name` or `item`", counts.problems) ||
      lacks(table, amount, "`count` or `amount`", counts.problems))
    return counts;
  Costing costing(house);
  AmountReader reader(house, costing);
  for (const auto& row : table.rows) {
    auto fail = [&](std::string message) { counts.problems.push_back({row.line, std::move(message)}); };
    auto id =
        names.find(row, "This row names nothing.", "ingredient or prep", counts.problems, counts.problems);
    if (!id) continue;
    StockId stock{*id};
    std::string text = table.cell(row, amount);
    auto& here = counts.by_place[stock][table.cell(row, place)];
    if (text.empty()) continue;
    auto parts = split_number(table, text);
    if (!parts) {
      fail(fmt::format("`{}` is no amount of `{}`; write a number.", text, names.written(row)));
      continue;
    }
    auto counted =
        reader.read(stock, parts->number, parts->words.empty() ? table.cell(row, unit) : parts->words,
                    table.cell(row, size), table);
    if (auto* failure = std::get_if<std::string>(&counted)) {
      fail(*failure);
      continue;
    }
    auto [grams, pieces] = std::get<CountedAmount>(counted);
    if (!here) here = CountedAmount{};
    here->grams += grams;
    here->pieces += pieces;
    // A thing that stands in two places is counted twice: both count.
    counts.grams[stock] += grams;
    if (pieces > 0) counts.pieces[stock] += pieces;
  }
  return counts;
}

Sales read_sales(std::string_view bytes, const House& house) {
  base::CsvTable table = base::read_csv(bytes);
  Sales sales;
  sales.problems = table.problems;
  Titles titles = {"drink"};
  titles.insert(titles.end(), name_titles.begin(), name_titles.end());
  NameColumn names(table, house, symbols::NameSpace::drink, titles);
  auto sold = table.column(sold_titles);
  if (lacks(table, names.column(), "`drink` or `item`", sales.problems) ||
      lacks(table, sold, "`sold` or `quantity`", sales.problems))
    return sales;
  for (const auto& row : table.rows) {
    auto id = names.find(row, "This row names no drink.", "drink", sales.problems, sales.problems);
    if (!id) continue;
    std::string text = table.cell(row, sold);
    // A return is written as less than nothing.
    if (auto number = table.number(text))
      sales.portions[DrinkId{*id}] += base::to_double(*number);
    else
      sales.problems.push_back({row.line, fmt::format("`{}` is no number of portions.", text)});
  }
  return sales;
}

}  // namespace gill::stock

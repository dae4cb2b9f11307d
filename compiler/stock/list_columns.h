#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv_reader.h"
#include "costing/name_finder.h"

/// What counts, sales and price lists have in common: columns by their titles, rows by the names in them.
namespace gill::stock {

using namespace costing;

/// Titles of a column in plain words, the likeliest first.
using Titles = std::vector<std::string_view>;
extern const Titles name_titles, size_titles;

/// True where a file lacks a column that it needs, which is told then; `what` names its likeliest titles.
bool lacks(const base::CsvTable& table, std::optional<std::size_t> column, std::string_view what,
           std::vector<base::RowProblem>& problems);

/// The names of a file's rows, and what they mean.
class NameColumn {
 public:
  NameColumn(const base::CsvTable& table, const House& house, symbols::NameSpace space, const Titles& titles);

  std::optional<std::size_t> column() const { return column_; }
  /// The known name that shares words with a row's name; empty where none does.
  std::string relation(const base::CsvRow& row) const;
  std::string written(const base::CsvRow& row) const { return table_.cell(row, column_); }
  /// The index of what a row names. Nothing where it names nothing (`unnamed` is told in `problems`) or
  /// nothing that is known (told in `unmatched`, with the nearest names; `noun` says what is looked for).
  std::optional<std::uint32_t> find(const base::CsvRow& row, std::string_view unnamed, std::string_view noun,
                                    std::vector<base::RowProblem>& problems,
                                    std::vector<base::RowProblem>& unmatched) const;

 private:
  const base::CsvTable& table_;
  std::optional<std::size_t> column_;
  NameFinder finder_;
};

}  // namespace gill::stock

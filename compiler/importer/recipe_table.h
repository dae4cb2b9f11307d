#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "importer/phrase_reader.h"

namespace gill::importer {

/// What the head of a table says of a column.
enum class ColumnKind : std::uint8_t {
  other,
  name,
  part,        ///< something that goes in, with its amount: `Spirit`, `Ingredients`
  ingredient,  ///< one ingredient a row, its amount in columns of their own
  quantity,
  unit,
  labelled  ///< a label's own words: `Glass`, `Method`
};

/// A head without the number that counts columns alike: `Ingredient 2`.
std::string without_number(const std::string& head);

ColumnKind column_kind_of(const std::string& head);

/// A row of a table that names its drinks, by its columns. Each part holds in the place of its line the
/// column in which it stands, from 1.
struct TableRow {
  std::string name;
  /// What goes in, and what is said of it or of the drink.
  std::vector<OldPart> amounts, said;
  /// Both in the order of the columns, but amounts that have columns of their own first.
  std::vector<OldPart> parts;
  /// One ingredient of its drink, whose other rows stand beside it.
  bool is_one_ingredient = false;

  bool empty() const { return parts.empty(); }
};
/// Empty where the head names no drinks, or where the row says nothing but a name.
TableRow table_row(const std::vector<std::string>& head, const std::vector<std::string>& cells,
                   PhraseReader& reader);

}  // namespace gill::importer

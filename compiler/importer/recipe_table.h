#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "importer/named_list.h"

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

/// A row of a table that names its drinks: the name, and what its other cells say. Empty where the head names
/// no drinks, or where the row says nothing but a name.
struct TableRow {
  NamedList spec;
  /// One ingredient of its drink, whose other rows stand beside it; its name may be left out.
  bool is_one_ingredient = false;
};
TableRow table_row(const std::vector<std::string>& head, const std::vector<std::string>& cells,
                   PhraseReader& reader);

}  // namespace gill::importer

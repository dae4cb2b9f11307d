#pragma once
#include <optional>
#include <string>

#include "symbols/symbol_table.h"
#include "tidy/spelling.h"

namespace gill::tidy {

/// One body line in two columns.
struct ColumnLine {
  /// The quantity with its unit, the verb, the keyword, or the name of a priced thing.
  std::string lead;
  /// What stands in the second column; empty where the lead is the whole line.
  std::string rest;
  /// In which of a declaration's columns it stands.
  enum class Column : std::uint8_t {
    main,
    entry,    ///< of a menu's drinks, below their section
    overflow  ///< a lead too long for the column: it is laid out with its neighbours alone
  } column = Column::main;
  /// A glass or an ice, or another property: what a recipe begins with.
  bool is_property = false;
};

/// A body line of a declaration of that kind, spelled and parted in two.
ColumnLine part_in_columns(const syntax::LineView& line, symbols::DeclarationKind kind, Extent extent,
                           const Terms& terms);

/// A declaration's first line.
std::string header_text(const syntax::LineView& line, symbols::DeclarationKind kind, Extent extent,
                        const Terms& terms);

/// The kind of declaration that the line begins; nothing where it begins none.
std::optional<symbols::DeclarationKind> kind_of(const syntax::LineView& header);

/// The characters that the first column takes at least, and the longest lead that may widen it.
std::size_t least_width(symbols::DeclarationKind kind, ColumnLine::Column column);
std::size_t longest_lead(symbols::DeclarationKind kind, ColumnLine::Column column);

}  // namespace gill::tidy

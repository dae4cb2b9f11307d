#pragma once
#include <vector>

#include "importer/raw_lines.h"

namespace gill::importer {

/// The lines are headed by one that is no amount, and two of them or more are amounts.
bool holds_a_drink(const std::vector<RawLine>& column);

/// Drinks that stand side by side, as on a card of two columns, one below the other. Columns are what three
/// lines or more part by a wide gap or a tab at about the same place, where each column begins with a line
/// that is no amount and holds lines that are: `Gin     50 ml` is one line.
std::vector<RawLine> with_columns_apart(std::vector<RawLine> lines);

}  // namespace gill::importer

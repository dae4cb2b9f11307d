#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "importer/raw_lines.h"

namespace gill::importer {

/// The cells of a row that the sign parts; quotes around a cell hold what it would part.
std::vector<std::string> sheet_cells_of(std::string_view line, char sign);

/// The same, of a row of Markdown without the bars around it.
std::vector<std::string> cells_between(const std::string& line, char sign);

/// True of words that say a glass or how a drink is served, and are no name above a column.
using SaysWhatIsServed = std::function<bool(const std::string&)>;

/// Sheets with a drink a column. Where the first cells say what a row is (`Glass`, `Ingredient 1`), the sheet
/// is turned, so that each drink is a row of its cells. Where each column is a list of its own below a name,
/// they stand one below the other.
std::vector<RawLine> with_sheet_columns_apart(std::vector<RawLine> lines, const SaysWhatIsServed& is_served);

}  // namespace gill::importer

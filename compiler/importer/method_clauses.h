#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace gill::importer {

/// Without the abbreviations of a note: `dbl strain` is a double strain, `w/` is with.
std::string in_full(std::string_view line);

/// True of a place in brackets that hold a remark and no number: `(laminated, do not remove)`. Signs there
/// part nothing.
bool is_in_remark(std::string_view text, std::size_t at);

/// What full stops and semicolons part.
std::vector<std::string> sentences_of(std::string_view line);

/// What stands between the signs that part steps, in its order: `dry shake/shake/strain` is three.
std::vector<std::string> clauses_of(std::string_view line);

/// What stands between bars, arrows and dots in the middle of a line: `50 ml vodka/20 ml lime/shake`.
std::vector<std::string> parted_at_bars(std::string_view line);

}  // namespace gill::importer

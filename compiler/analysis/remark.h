#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/line_reader.h"

namespace gill::analysis {

/// The remark from the cursor to `end`, behind a comma; nothing when it is refused (reported). In quotes it
/// is a remark whatever it says. Without quotes it must hold nothing that would be lost there: no number with
/// a unit, no name of an ingredient, prep, glass or ice, no allergen, no step.
/// True where the words from `first` to `end` would be a remark behind a comma, with nothing in them that
/// would be lost there, and do not say where the drink goes.
bool is_plain_remark(const LineReader& reader, std::size_t first, std::size_t end);

/// `, chilld`: one slip away from a modifier, alone behind its comma, where it would be lost as a remark.
/// Reported as no word of what `of` says; true where it was.
bool report_misspelt_modifier(LineReader& reader, const std::vector<std::string_view>& modifiers,
                              std::string_view of);

/// Every ingredient and prep that the words from `first` to `end` name, but for those that they deny
/// (`without the almonds`).
std::vector<Use> uses_named(const LineReader& reader, std::size_t first, std::size_t end);

std::optional<std::string> read_remark(LineReader& reader, std::size_t end);

}  // namespace gill::analysis

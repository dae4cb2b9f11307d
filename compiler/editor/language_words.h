#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "symbols/symbol_table.h"
#include "units/unit_table.h"

/// The language's own words, as the readers' tables have them: for completion, and for editors that colour a
/// text without asking a server.
namespace gill::editor {

/// Begins a line of any declaration that says which finding is meant.
inline constexpr std::string_view allow_word = "allow";

bool is_recipe(symbols::DeclarationKind kind);

/// The words that begin a line in the body of such a declaration; the steps of a recipe aside.
std::vector<std::string_view> line_words(symbols::DeclarationKind kind);

/// All of them, one a line behind what it is: `declaration drink`, `line drink glass`, `step dry shake`,
/// `unit dashes`.
std::string dump_words(const units::UnitTable& units);

}  // namespace gill::editor

#pragma once
#include <span>
#include <string_view>

namespace gill::editor {

/// A declaration to start from, with holes (`${1:words}`) for what only its writer knows.
struct DeclarationSnippet {
  std::string_view keyword;
  std::string_view words;
  std::string_view text;
};

/// One for each kind of declaration. With the words of its holes left as they are, none but the names in them
/// is unknown.
std::span<const DeclarationSnippet> declaration_snippets();

}  // namespace gill::editor

#pragma once
#include <string_view>
#include <vector>

#include "editor/house_view.h"

namespace gill::editor {

/// What a stretch of a text is, by what the analysis made of it. In the order of `token_names`.
enum class TokenType : std::uint8_t {
  comment,
  keyword,   ///< what begins a declaration
  property,  ///< what begins a line that says something of it
  step,      ///< a method
  number,
  unit,
  text,      ///< words for people
  declared,  ///< the name of what a header declares
  named,     ///< the name of what is used
};
/// The names by which the protocol's editors colour them.
inline constexpr std::string_view token_names[] = {"comment", "keyword", "property", "function", "number",
                                                   "type",    "string",  "class",    "variable"};

struct ColouredToken {
  std::uint32_t begin = 0, end = 0;
  TokenType type = TokenType::text;
};

/// Every stretch of a file that has a meaning, in order; none overlaps another or spans lines.
std::vector<ColouredToken> coloured_tokens(const HouseView& view, const syntax::File& file);

}  // namespace gill::editor

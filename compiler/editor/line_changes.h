#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace gill::editor {

/// Whole lines of a text with what stands there instead.
struct LineChange {
  /// From this byte to that one.
  std::uint32_t begin = 0, end = 0;
  std::uint32_t first_line = 0,
                last_line = 0;  ///< the lines (from 0) before the change, `last_line` not included
  std::string text;
};

/// What makes one text of the other, in as few lines as are easily found; from the first to the last.
std::vector<LineChange> line_changes(std::string_view before, std::string_view after);

}  // namespace gill::editor

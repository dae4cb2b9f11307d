#pragma once
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace gill::importer {

/// A line as it was typed, and where it stands.
struct RawLine {
  std::string text;
  std::size_t number = 0;
  /// It stands apart from the line above, as behind a blank one.
  bool begins_paragraph = false;
  /// `12.10.26, 18:05 - Bea:`: who said, and when, what stands below.
  bool is_message_head = false;
  /// Of a sheet that was turned: what stands in the line's columns, where each cell was written, and whether
  /// the line names the columns.
  std::vector<std::string> cells = {};
  std::vector<std::size_t> cell_numbers = {};
  bool is_sheet_head = false;
};

/// The lines of a text before any of them is judged: a cell of a sheet that was typed on several lines is on
/// one, who wrote a message stands on a line above it, and of columns side by side the left one stands first.
/// `is_served` is true of words that say a glass or how a drink is served.
std::vector<RawLine> raw_lines(std::string_view text,
                               const std::function<bool(const std::string&)>& is_served);

}  // namespace gill::importer

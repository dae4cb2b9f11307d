#pragma once
#include <string>
#include <vector>

namespace gill::render::terminal {

/// A table in plain text: columns as wide as they must be, numbers to the right. A row may be shorter than
/// the titles.
struct TextColumn {
  std::string title;
  bool to_the_right = false;
};
std::string text_table(const std::vector<TextColumn>& columns,
                       const std::vector<std::vector<std::string>>& rows);

/// Sentences as a block of lines no wider than 100 columns, later lines set in by two.
std::string text_notes(const std::vector<std::string>& notes);

}  // namespace gill::render::terminal

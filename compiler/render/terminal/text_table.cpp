#include "render/terminal/text_table.h"

#include <algorithm>

#include "base/text.h"

namespace gill::render::terminal {

std::string text_table(const std::vector<TextColumn>& columns,
                       const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& column : columns) widths.push_back(base::display_width(column.title));
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], base::display_width(row[i]));
  std::string text;
  auto add = [&](const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      std::string space(widths[i] - base::display_width(cells[i]), ' ');
      line += (i > 0 ? "  " : "") + (columns[i].to_the_right ? space + cells[i] : cells[i] + space);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  };
  std::vector<std::string> titles;
  for (const auto& column : columns) titles.push_back(column.title);
  if (std::any_of(titles.begin(), titles.end(), [](const std::string& title) { return !title.empty(); }))
    add(titles);
  for (const auto& row : rows) add(row);
  return text;
}

std::string text_notes(const std::vector<std::string>& notes) {
  constexpr std::size_t widest = 100;
  std::string text;
  for (const auto& note : notes) {
    std::string line = "-";
    std::size_t at = 0;
    while (at < note.size()) {
      auto end = std::min(note.find(' ', at), note.size());
      std::string word = note.substr(at, end - at);
      if (base::display_width(line) + 1 + base::display_width(word) > widest) {
        text += line + "\n";
        line = " ";
      }
      line += " " + word;
      at = end + 1;
    }
    text += line + "\n";
  }
  return text;
}

}  // namespace gill::render::terminal

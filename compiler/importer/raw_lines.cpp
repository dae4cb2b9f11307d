#include "importer/raw_lines.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "importer/list_marks.h"
#include "importer/message_heads.h"
#include "importer/sheet_columns.h"
#include "importer/side_by_side.h"

namespace gill::importer {
namespace {

/// Marks that say which way a text runs, and show nothing.
void drop_hidden_marks(std::string& text) {
  for (std::string_view mark : {"\u200B", "\u200E", "\u200F", "\u202A", "\u202B", "\u202C", "\u202D",
                                "\u202E", "\u2066", "\u2067", "\u2068", "\u2069", "\uFE0F", "\uFEFF"})
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at))
      text.erase(at, mark.size());
}

/// What a page's signs within a line mean: `gin<br>20 ml lemon juice` is a list, `<b>shake</b>` a word.
void drop_tags(std::string& text) {
  static constexpr auto breaks = std::to_array<std::string_view>({"<br>", "<br/>", "<br />", "<BR>"});
  static constexpr auto looks = std::to_array<std::string_view>(
      {"<b>", "</b>", "<i>", "</i>", "<em>", "</em>", "<strong>", "</strong>", "<u>", "</u>", "<p>", "</p>"});
  for (auto sign : breaks)
    for (auto at = text.find(sign); at != std::string::npos; at = text.find(sign)) {
      const bool is_between = at > 0 && text.find_first_not_of(" |\t", at + sign.size()) != std::string::npos;
      text.replace(at, sign.size(), is_between ? "; " : " ");
    }
  for (auto sign : looks)
    for (auto at = text.find(sign); at != std::string::npos; at = text.find(sign))
      text.erase(at, sign.size());
}

/// `>> 60 ml gin`: a line of a mail that was answered more than once.
void drop_quoting(std::string& text) {
  if (!text.starts_with(">")) return;
  text.erase(0, std::min(text.find_first_not_of("> "), text.size()));
}

std::vector<RawLine> typed_lines(std::string_view text) {
  std::vector<RawLine> lines;
  for (std::size_t at = 0; at < text.size();) {
    auto end = std::min(text.find_first_of("\r\n", at), text.size());
    lines.push_back({std::string(text.substr(at, end - at)), lines.size() + 1});
    drop_hidden_marks(lines.back().text);
    drop_quoting(lines.back().text);
    drop_tags(lines.back().text);
    at = end + (text.substr(end).starts_with("\r\n") ? 2 : 1);
  }
  return lines;
}

bool parts_cells(char c) { return c == '\t' || c == ';' || c == ','; }

/// The quote that ends a cell; a doubled one is a sign in it.
std::size_t closing_quote_at(std::string_view line, std::size_t at) {
  for (; at < line.size(); ++at) {
    if (line[at] != '"') continue;
    if (at + 1 == line.size() || parts_cells(line[at + 1])) return at;
    if (line[at + 1] == '"') ++at;
  }
  return std::string_view::npos;
}

/// The quote that begins a cell which does not end on the line.
std::size_t open_quote_at(std::string_view line) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (line[i] != '"' || !parts_cells(line[i - 1])) continue;
    auto close = closing_quote_at(line, i + 1);
    if (close == std::string_view::npos) return i;
    i = close;
  }
  return std::string_view::npos;
}

/// The line on which the open cell of a text ends; `from` where none is open, or where nothing closes it.
std::size_t end_of_cell(std::string_view text, const std::vector<RawLine>& lines, std::size_t from) {
  if (open_quote_at(text) == std::string_view::npos) return from;
  constexpr std::size_t max_lines = 60;
  for (auto i = from + 1; i < lines.size() && i <= from + max_lines; ++i)
    if (closing_quote_at(lines[i].text, 0) != std::string_view::npos) return i;
  return from;
}

/// The next line of a cell, as one of its list.
void join_line_of_cell(std::string& text, std::string line) {
  strip_list_marks(line);
  if (line.empty()) return;
  while (!text.empty() && std::string_view(" ,;").find(text.back()) != std::string_view::npos)
    text.pop_back();
  text += (text.ends_with('"') ? "" : "; ") + line;
}

/// Lines that were typed into one cell, `"60 ml gin` and `20 ml lime juice"`, as one with `; ` between them.
std::vector<RawLine> with_whole_cells(std::vector<RawLine> lines) {
  std::vector<RawLine> whole;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    RawLine line = std::move(lines[i]);
    for (auto end = end_of_cell(line.text, lines, i); end > i; end = end_of_cell(line.text, lines, i)) {
      const auto open = open_quote_at(line.text) + 1;
      std::string first = line.text.substr(open);
      strip_list_marks(first);
      line.text = line.text.substr(0, open) + first;
      while (i < end) join_line_of_cell(line.text, lines[++i].text);
    }
    whole.push_back(std::move(line));
  }
  return whole;
}

}  // namespace

std::vector<RawLine> raw_lines(std::string_view text,
                               const std::function<bool(const std::string&)>& is_served) {
  auto lines = with_message_heads_apart(with_whole_cells(typed_lines(text)));
  return with_columns_apart(with_sheet_columns_apart(std::move(lines), is_served));
}

}  // namespace gill::importer

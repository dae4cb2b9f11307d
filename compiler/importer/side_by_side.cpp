#include "importer/side_by_side.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <utility>

#include "base/characters.h"
#include "base/text.h"
#include "importer/list_marks.h"

namespace gill::importer {
namespace {

/// As far as a column may lie from its place in the line above.
constexpr std::size_t slack = 4;

/// A stretch of a line between wide gaps.
struct Stretch {
  std::size_t begin = 0;
  /// Where it begins and ends on the screen.
  std::size_t column = 0, end_column = 0;
  bool is_behind_tab = false;
};

/// Where the next letter stands: signs of several bytes count once, a tab reaches to the next stop.
std::size_t column_behind(char c, std::size_t column) {
  constexpr std::size_t tab_stop = 8;
  if (c == '\t') return (column / tab_stop + 1) * tab_stop;
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U ? column : column + 1;
}

std::vector<Stretch> stretches_of(const std::string& line) {
  constexpr std::size_t wide_gap = 3;
  std::vector<Stretch> stretches;
  std::size_t column = 0, spaces = wide_gap;
  bool has_tab = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool is_space = line[i] == ' ' || line[i] == '\t';
    if (!is_space) {
      if (spaces >= wide_gap || has_tab) stretches.push_back({i, column, column, has_tab});
      stretches.back().end_column = column + 1;
    }
    spaces = is_space ? spaces + 1 : 0;
    has_tab = is_space && (has_tab || line[i] == '\t');
    column = column_behind(line[i], column);
  }
  return stretches;
}

/// A line in two; either may be empty.
struct Halves {
  std::string left, right;
  /// The right one begins where its column does.
  bool is_in_place = false;
};

/// Where the right column of a stretch of lines stands.
struct Place {
  std::size_t column = 0;
  bool is_behind_tab = false;
};

/// Nothing where words stand across the place.
std::optional<Halves> halves_of(const std::string& line, Place place) {
  const auto stretches = stretches_of(line);
  if (stretches.empty()) return Halves{};
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const auto& one = stretches[i];
    const bool is_behind_same_tab = place.is_behind_tab && one.is_behind_tab;
    if (one.column + slack < place.column && !is_behind_same_tab) continue;
    if (i == 0 && one.begin == 0) continue;
    const bool is_in_place = is_behind_same_tab || one.column <= place.column + slack;
    const std::size_t indent = is_in_place ? 0 : one.column - place.column;
    return Halves{line.substr(0, i == 0 ? 0 : one.begin), std::string(indent, ' ') + line.substr(one.begin),
                  is_in_place};
  }
  if (!place.is_behind_tab && stretches.back().end_column > place.column + slack) return std::nullopt;
  return Halves{line, {}, false};
}

bool is_blank(const RawLine& line) { return base::trim(line.text).empty(); }

bool begins_with_figure(const std::string& text) {
  static constexpr auto fractions = std::to_array<std::string_view>({"½", "¼", "¾", "⅓", "⅔"});
  return base::is_digit(text.front()) ||
         std::any_of(fractions.begin(), fractions.end(), [&](auto sign) { return text.starts_with(sign); });
}

/// `50 ml gin`, `20 lime`: a number with its thing; `50 ml` and `1 2/3 oz` alone are half of a line.
bool is_amount_of_something(const std::string& text) {
  if (!begins_with_figure(text)) return false;
  std::size_t words = 0, letters = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!base::is_ascii_letter(text[i]) && static_cast<unsigned char>(text[i]) < 0xC3) continue;
    const bool begins = i == 0 || !base::is_ascii_letter(text[i - 1]);
    words += begins ? 1 : 0;
    ++letters;
  }
  constexpr std::size_t longer_than_unit = 3;
  return words >= 2 || letters >= longer_than_unit;
}

/// The lines from the first on whose columns stand apart, and what is in each; no lines where there are none.
struct Columns {
  std::size_t lines = 0;
  std::vector<RawLine> left, right;
};

/// Lines below each other that the place parts, with single blank ones between them.
Columns columns_at(const std::vector<RawLine>& lines, std::size_t first, Place place) {
  Columns columns;
  std::size_t in_place = 0;
  bool was_blank = false, is_left_going_on = true;
  constexpr std::size_t longest_card = 120;
  for (auto i = first; i < lines.size() && i < first + longest_card; ++i) {
    const bool blank = is_blank(lines[i]);
    if ((blank && was_blank) || lines[i].is_message_head) break;
    auto halves = halves_of(lines[i].text, place);
    if (!halves || lines[i].text.find('|') != std::string::npos) break;
    was_blank = blank;
    in_place += !halves->left.empty() && halves->is_in_place ? 1 : 0;
    is_left_going_on = !halves->right.empty() || (is_left_going_on && !blank);
    columns.left.push_back({std::move(halves->left), lines[i].number});
    columns.right.push_back({std::move(halves->right), lines[i].number});
    if (!blank && is_left_going_on) columns.lines = i + 1 - first;
  }
  columns.left.resize(columns.lines);
  columns.right.resize(columns.lines);
  constexpr std::size_t fewest_lines = 3;
  if (in_place < fewest_lines || !holds_a_drink(columns.left) || !holds_a_drink(columns.right)) return {};
  return columns;
}

}  // namespace

bool holds_a_drink(const std::vector<RawLine>& column) {
  std::size_t amounts = 0;
  bool is_headed = false, is_first = true;
  for (const auto& line : column) {
    std::string text(base::trim(line.text));
    strip_list_marks(text);
    if (text.empty()) continue;
    if (is_first) is_headed = !begins_with_figure(text);
    is_first = false;
    amounts += is_amount_of_something(text) ? 1 : 0;
  }
  return is_headed && amounts >= 2;
}

std::vector<RawLine> with_columns_apart(std::vector<RawLine> lines) {
  std::vector<RawLine> apart;
  bool is_below_columns = false;
  for (std::size_t i = 0; i < lines.size();) {
    const auto stretches = stretches_of(lines[i].text);
    Columns columns;
    if (stretches.size() > 1 && !lines[i].is_message_head)
      columns = columns_at(lines, i, {stretches[1].column, stretches[1].is_behind_tab});
    if (columns.lines == 0) {
      apart.push_back(std::move(lines[i++]));
      apart.back().begins_paragraph = apart.back().begins_paragraph || is_below_columns;
      is_below_columns = false;
      continue;
    }
    // On the right there may be columns once more.
    for (auto* column : {&columns.left, &columns.right}) {
      if (column == &columns.right) *column = with_columns_apart(std::move(*column));
      column->front().begins_paragraph = true;
      std::move(column->begin(), column->end(), std::back_inserter(apart));
    }
    i += columns.lines;
    is_below_columns = true;
  }
  return apart;
}

}  // namespace gill::importer

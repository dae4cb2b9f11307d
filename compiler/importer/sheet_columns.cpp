#include "importer/sheet_columns.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

#include "base/characters.h"
#include "base/text.h"
#include "importer/recipe_table.h"
#include "importer/side_by_side.h"

namespace gill::importer {
namespace {

using Cells = std::vector<std::string>;

bool is_figure(const std::string& cell) { return !cell.empty() && base::is_digit(cell.front()); }

/// `|---|---|`
bool is_rule_of_cells(const Cells& cells) {
  return std::all_of(cells.begin(), cells.end(), [](const std::string& cell) {
    return !cell.empty() && cell.find_first_not_of("-:= ") == std::string::npos;
  });
}

bool says_nothing_at_all(const Cells& cells) {
  return std::all_of(cells.begin(), cells.end(), [](const std::string& cell) { return cell.empty(); });
}

/// Two names or more: no figures, no words of a table's head.
bool are_names(Cells::const_iterator begin, Cells::const_iterator end) {
  return std::count_if(begin, end, [](const auto& cell) { return !cell.empty(); }) >= 2 &&
         std::none_of(begin, end, [](const std::string& cell) {
           return is_figure(cell) || (!cell.empty() && column_kind_of(cell) != ColumnKind::other);
         });
}

/// Lines of a sheet below each other, from the one that names the drinks on.
struct SheetBlock {
  std::vector<Cells> rows;
  std::vector<std::size_t> numbers;
  /// The lines that it takes, with those that say nothing.
  std::size_t lines = 0;
};

// ---- a sheet whose first column says what each row is

/// `Glass,coupe,rocks`; or `gin,50 ml,`, so much of a thing for each drink.
bool is_row_of_drinks(const Cells& cells) {
  if (cells.size() < 2 || is_figure(cells.front())) return false;
  if (cells.front().empty() || column_kind_of(cells.front()) != ColumnKind::other) return true;
  return std::all_of(cells.begin() + 1, cells.end(),
                     [](const auto& cell) { return cell.empty() || is_figure(cell); });
}

std::optional<SheetBlock> labelled_block_at(const std::vector<RawLine>& lines, std::size_t first, char sign) {
  SheetBlock block;
  std::size_t labelled = 0;
  for (auto i = first; i < lines.size(); ++i) {
    auto cells = cells_between(lines[i].text, sign);
    const bool is_head = i == first;
    if (is_head) {
      const bool is_named = cells.front().empty() || column_kind_of(cells.front()) == ColumnKind::name;
      if (cells.size() < 3 || !is_named || !are_names(cells.begin() + 1, cells.end())) return std::nullopt;
    }
    if (!is_head && (is_rule_of_cells(cells) || (says_nothing_at_all(cells) && cells.size() > 1))) continue;
    if (!is_head && (cells.size() > block.rows.front().size() || !is_row_of_drinks(cells))) break;
    const auto kind = column_kind_of(cells.front());
    labelled += !is_head && kind != ColumnKind::other && kind != ColumnKind::name ? 1 : 0;
    cells.resize(is_head ? cells.size() : block.rows.front().size());
    block.rows.push_back(std::move(cells));
    block.numbers.push_back(lines[i].number);
    block.lines = i + 1 - first;
  }
  if (labelled == 0 || block.rows.size() < 3) return std::nullopt;
  return block;
}

/// A row a drink, below a row of what the first cells say.
std::vector<RawLine> turned(const SheetBlock& block) {
  RawLine head;
  head.number = block.numbers.front();
  head.is_sheet_head = head.begins_paragraph = true;
  for (const auto& row : block.rows) {
    const std::string above = head.cells.size() < 2 ? "Ingredients" : head.cells.back();
    const std::string own = head.cells.empty() ? "Name" : above;
    head.cells.push_back(row.front().empty() ? own : row.front());
  }
  std::vector<RawLine> lines{head};
  for (std::size_t column = 1; column < block.rows.front().size(); ++column) {
    RawLine drink;
    drink.number = head.number;
    drink.cell_numbers = block.numbers;
    for (const auto& row : block.rows) drink.cells.push_back(row[column]);
    if (!says_nothing_at_all(drink.cells)) lines.push_back(std::move(drink));
  }
  return lines;
}

// ---- a sheet whose columns are lists

/// Where every line has as many cells; a list in a sentence has a space behind its comma.
std::optional<SheetBlock> block_of_lists_at(const std::vector<RawLine>& lines, std::size_t first, char sign,
                                            const SaysWhatIsServed& is_served) {
  SheetBlock block;
  for (auto i = first; i < lines.size(); ++i) {
    const auto& text = lines[i].text;
    const bool is_sentence =
        sign == ',' && text.find('"') == std::string::npos && text.find(", ") != std::string::npos;
    if (text.find(sign) == std::string::npos || is_sentence) break;
    auto cells = cells_between(text, sign);
    if (i == first &&
        (cells.size() < 2 || is_rule_of_cells(cells) || !are_names(cells.begin(), cells.end()) ||
         std::any_of(cells.begin(), cells.end(), is_served)))
      return std::nullopt;
    if (i > first && cells.size() > block.rows.front().size()) break;
    cells.resize(i == first ? cells.size() : block.rows.front().size());
    block.lines = i + 1 - first;
    if (is_rule_of_cells(cells)) continue;
    block.rows.push_back(std::move(cells));
    block.numbers.push_back(lines[i].number);
  }
  if (block.rows.empty()) return std::nullopt;
  return block;
}

std::vector<RawLine> column_of(const SheetBlock& block, std::size_t column) {
  std::vector<RawLine> lines;
  for (std::size_t row = 0; row < block.rows.size(); ++row)
    if (!block.rows[row][column].empty()) lines.push_back({block.rows[row][column], block.numbers[row]});
  if (!lines.empty()) lines.front().begins_paragraph = true;
  return lines;
}

/// One below the other; nothing where one of them is no drink.
std::vector<RawLine> lists_of(const SheetBlock& block) {
  std::vector<RawLine> all;
  for (std::size_t column = 0; column < block.rows.front().size(); ++column) {
    auto list = column_of(block, column);
    if (list.empty()) continue;
    if (!holds_a_drink(list)) return {};
    std::move(list.begin(), list.end(), std::back_inserter(all));
  }
  return all;
}

}  // namespace

std::vector<std::string> cells_between(const std::string& line, char sign) {
  auto text = base::trim(line);
  if (sign == '|' && text.starts_with("|")) text.remove_prefix(1);
  if (sign == '|' && text.ends_with("|")) text.remove_suffix(1);
  return sheet_cells_of(sign == '|' ? text : std::string_view(line), sign);
}

std::vector<std::string> sheet_cells_of(std::string_view line, char sign) {
  std::vector<std::string> cells(1);
  bool is_quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"' && is_quoted && i + 1 < line.size() && line[i + 1] == '"')
      cells.back() += line[i++];
    else if (line[i] == '"' && (is_quoted || base::trim(cells.back()).empty()))
      is_quoted = !is_quoted;
    else if (line[i] == sign && !is_quoted)
      cells.emplace_back();
    else
      cells.back() += line[i];
  }
  for (auto& cell : cells) cell = std::string(base::trim(cell));
  return cells;
}

std::vector<RawLine> with_sheet_columns_apart(std::vector<RawLine> lines, const SaysWhatIsServed& is_served) {
  std::vector<RawLine> apart;
  for (std::size_t i = 0; i < lines.size();) {
    std::vector<RawLine> found;
    std::size_t taken = 0;
    for (char sign : {'\t', ';', ',', '|'}) {
      if (taken > 0 || lines[i].is_message_head || lines[i].text.find(sign) == std::string::npos) continue;
      if (auto block = labelled_block_at(lines, i, sign)) {
        found = turned(*block);
        taken = block->lines;
      } else if (auto lists = block_of_lists_at(lines, i, sign, is_served); lists && sign != '\t') {
        found = lists_of(*lists);
        taken = found.empty() ? 0 : lists->lines;
      }
    }
    if (taken == 0) found.push_back(std::move(lines[i]));
    std::move(found.begin(), found.end(), std::back_inserter(apart));
    i += std::max<std::size_t>(taken, 1);
  }
  return apart;
}

}  // namespace gill::importer

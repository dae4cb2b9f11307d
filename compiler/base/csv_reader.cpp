#include "base/csv_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "base/characters.h"
#include "base/file_kind.h"
#include "base/text.h"

namespace gill::base {

void append_utf8(std::string& out, char32_t code) {
  auto byte = [&](char32_t value) { out += static_cast<char>(static_cast<unsigned char>(value)); };
  if (code < 0x80) {
    byte(code);
  } else if (code < 0x800) {
    byte(0xC0 | (code >> 6));
    byte(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    byte(0xE0 | (code >> 12));
    byte(0x80 | ((code >> 6) & 0x3F));
    byte(0x80 | (code & 0x3F));
  } else {
    byte(0xF0 | (code >> 18));
    byte(0x80 | ((code >> 12) & 0x3F));
    byte(0x80 | ((code >> 6) & 0x3F));
    byte(0x80 | (code & 0x3F));
  }
}

namespace {

/// Windows-1252 from 0x80 to 0x9F as Unicode (Unicode Consortium, mapping file CP1252.TXT, from memory); 0 is
/// unassigned.
constexpr std::array<char32_t, 32> windows_1252 = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

std::string from_utf16(std::string_view bytes, bool little) {
  std::string out;
  auto unit = [&](std::size_t i) {
    auto a = static_cast<unsigned char>(bytes[i]), b = static_cast<unsigned char>(bytes[i + 1]);
    return static_cast<char32_t>(little ? a | (b << 8) : (a << 8) | b);
  };
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    char32_t code = unit(i);
    if (code >= 0xD800 && code < 0xDC00 && i + 3 < bytes.size()) {
      char32_t low = unit(i + 2);
      if (low >= 0xDC00 && low < 0xE000) {
        code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
        i += 2;
      }
    }
    append_utf8(out, code >= 0xD800 && code < 0xE000 ? 0xFFFD : code);
  }
  return out;
}

std::string from_utf32(std::string_view bytes, bool little) {
  std::string out;
  for (std::size_t i = 0; i + 3 < bytes.size(); i += 4) {
    char32_t code = 0;
    for (std::size_t k = 0; k < 4; ++k)
      code = (code << 8) | static_cast<unsigned char>(bytes[i + (little ? 3 - k : k)]);
    append_utf8(out, code > 0x10FFFF || (code >= 0xD800 && code < 0xE000) ? 0xFFFD : code);
  }
  return out;
}

bool is_utf8(std::string_view text) {
  // Control characters are no reason to think of another encoding.
  std::string shown(text);
  std::replace_if(
      shown.begin(), shown.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; },
      ' ');
  return !first_bad_byte(shown);
}

constexpr std::array<char, 4> separators = {',', ';', '\t', '|'};

/// How often each separator stands in a line, quotes aside, and whether one does that is no mark within a
/// number.
struct SeparatorCounts {
  std::array<std::size_t, separators.size()> count = {};
  std::array<bool, separators.size()> parts_words = {};
};

/// Those of the first lines.
std::vector<SeparatorCounts> count_separators(std::string_view text) {
  constexpr std::size_t lines_looked_at = 200;
  std::vector<SeparatorCounts> lines(1);
  bool quoted = false;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] == '"') quoted = !quoted;
    if (quoted) continue;
    if (text[at] == '\n' || text[at] == '\r') {
      if (lines.size() == lines_looked_at) break;
      lines.emplace_back();
    }
    const bool in_number = at > 0 && is_digit(text[at - 1]) && at + 1 < text.size() && is_digit(text[at + 1]);
    for (std::size_t i = 0; i < separators.size(); ++i) {
      if (text[at] != separators[i]) continue;
      ++lines.back().count[i];
      if (!in_number) lines.back().parts_words[i] = true;
    }
  }
  return lines;
}

/// The separator that parts the most lines into the same number of cells, and the more cells the better; of
/// two alike the one that is less often within numbers. A letterhead above the titles has none.
char find_separator(std::string_view text) {
  const auto lines = count_separators(text);
  char best = ',';
  std::pair<std::size_t, std::size_t> best_score;
  for (std::size_t i = 0; i < separators.size(); ++i) {
    std::map<std::size_t, std::size_t> lines_by_count;
    std::size_t parted_lines = 0;
    for (const auto& line : lines) {
      if (line.count[i] > 0) ++lines_by_count[line.count[i]];
      if (line.parts_words[i]) ++parted_lines;
    }
    std::size_t cells = 0;
    for (auto [count, alike] : lines_by_count) cells = std::max(cells, count * alike);
    if (std::pair score(cells, parted_lines); score > best_score) best = separators[i], best_score = score;
  }
  return best;
}

/// One pass over the text, a row at a time.
class RowReader {
 public:
  RowReader(std::string_view text, char separator, std::size_t first_line, std::vector<RowProblem>& problems)
      : text_(text), separator_(separator), problems_(problems), line_(first_line) {}

  bool done() const { return at_ >= text_.size(); }

  /// The next row; nothing (and a problem) when it cannot be read.
  std::optional<CsvRow> next() {
    CsvRow row{line_, {}};
    bool valid = true;
    std::string cell;
    for (;;) {
      cell.clear();
      valid = read_cell(cell, row.line) && valid;
      row.cells.push_back(cell);
      if (done()) break;
      char c = text_[at_];
      if (c == separator_) {
        ++at_;
        continue;
      }
      end_line();
      break;
    }
    if (!valid) return std::nullopt;
    return row;
  }

 private:
  void end_line() {
    if (at_ < text_.size() && text_[at_] == '\r') ++at_;
    if (at_ < text_.size() && text_[at_] == '\n') ++at_;
    ++line_;
  }

  bool read_cell(std::string& cell, std::size_t line) {
    std::size_t look = at_;
    while (look < text_.size() && text_[look] == ' ' && separator_ != ' ') ++look;
    if (look >= text_.size() || text_[look] != '"') {
      while (at_ < text_.size() && text_[at_] != separator_ && text_[at_] != '\n' && text_[at_] != '\r')
        cell += text_[at_++];
      return true;
    }
    at_ = look + 1;
    for (;;) {
      if (done()) {
        problems_.push_back(
            {line, "A quotation mark opens a cell here and is never closed; nothing after it can be read."});
        return false;
      }
      char c = text_[at_++];
      if (c == '"') {
        if (at_ < text_.size() && text_[at_] == '"') {
          cell += '"';
          ++at_;
          continue;
        }
        break;
      }
      if (c == '\n') ++line_;
      cell += c;
    }
    bool valid = true;
    std::size_t first = at_;
    while (at_ < text_.size() && text_[at_] != separator_ && text_[at_] != '\n' && text_[at_] != '\r') ++at_;
    if (!trim(text_.substr(first, at_ - first)).empty()) {
      problems_.push_back({line,
                           "Something stands after the closing quotation mark of a cell; double the "
                           "quotation marks that belong to it."});
      valid = false;
    }
    return valid;
  }

  std::string_view text_;
  char separator_;
  std::vector<RowProblem>& problems_;
  std::size_t line_;
  std::size_t at_ = 0;
};

bool is_empty(const CsvRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(),
                     [](const std::string& cell) { return trim(cell).empty(); });
}

/// A title as words: no case, no signs, nothing that stands in brackets.
std::string plain_title(std::string_view title) {
  std::string words;
  int depth = 0;
  for (char c : title) {
    if (c == '(' || c == '[') ++depth;
    bool word = std::isalnum(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) >= 0x80;
    words += depth == 0 && word ? c : ' ';
    if (c == ')' || c == ']') --depth;
  }
  return fold_without_accents(words);
}

/// True where spaces between digits stand before groups of three: `1 234`, and no `12 50`.
bool groups_by_space(std::string_view text) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    if (text[i] != ' ' || !is_digit(text[i - 1])) continue;
    std::size_t from = i + 1, to = from;
    while (to < text.size() && is_digit(text[to])) ++to;
    if (to > from && to - from != 3) return false;
  }
  return true;
}

/// The digits and marks of a number, without currency signs, codes and spaces; nothing where anything else
/// stands.
std::optional<std::string> bare_number(std::string_view text) {
  std::string bare;
  std::string letters;
  for (std::size_t i = 0; i < text.size();) {
    auto c = static_cast<unsigned char>(text[i]);
    if (c >= 0x80) {
      // Currency signs, non-breaking and thin spaces, the minus sign.
      static constexpr std::array<std::string_view, 9> passed = {
          "€", "£", "¥", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89", "₹", "₺", "’"};
      if (text.substr(i).starts_with("−")) {
        bare += '-';
        i += 3;
        continue;
      }
      auto found = std::find_if(passed.begin(), passed.end(),
                                [&](std::string_view sign) { return text.substr(i).starts_with(sign); });
      if (found == passed.end()) return std::nullopt;
      i += found->size();
      continue;
    }
    ++i;
    if (c == ' ' || c == '\'' || c == '$') continue;
    if (is_digit(static_cast<char>(c)) || c == '.' || c == ',' || c == '-' || c == '+') {
      bare += static_cast<char>(c);
    } else if (std::isalpha(c)) {
      letters += static_cast<char>(c);
    } else {
      return std::nullopt;
    }
  }
  bool code = letters.empty() ||
              (letters.size() == 3 &&
               std::all_of(letters.begin(), letters.end(), [](char c) { return c >= 'A' && c <= 'Z'; }));
  if (!code || bare.find_first_of("0123456789") == std::string::npos) return std::nullopt;
  // A sign stands before the first digit: `2+1` is a sum, and no 21.
  if (bare.find_last_of("+-") != std::string::npos && bare.find_last_of("+-") > 0) return std::nullopt;
  return groups_by_space(text) ? std::optional(bare) : std::nullopt;
}

/// What the marks in a bare number say of the file: nothing where it could be either.
std::optional<DecimalMark> mark_shown_by(const std::string& bare) {
  auto points = std::count(bare.begin(), bare.end(), '.'), commas = std::count(bare.begin(), bare.end(), ',');
  if (points > 0 && commas > 0)
    return bare.rfind('.') > bare.rfind(',') ? DecimalMark::point : DecimalMark::comma;
  if (points > 1) return DecimalMark::comma;
  if (commas > 1) return DecimalMark::point;
  if (points + commas == 0) return std::nullopt;
  auto at = bare.find_first_of(".,");
  if (bare.size() - at - 1 == 3 && at > 0 && bare[0] != '0') return std::nullopt;  // `1,234`
  return bare[at] == '.' ? DecimalMark::point : DecimalMark::comma;
}

/// True where the other mark stands only before groups of three digits of the whole part (of two and three,
/// as lakhs are written) and the decimal mark once: `0.8.0` is no number.
bool groups_thousands(const std::string& bare, DecimalMark mark) {
  const char decimal = mark == DecimalMark::point ? '.' : ',', group = mark == DecimalMark::point ? ',' : '.';
  std::size_t end = std::min(bare.find(decimal), bare.size());
  if (bare.find_first_of(".,", end + (end < bare.size() ? 1 : 0)) < bare.size() && end < bare.size())
    return false;
  std::size_t from = bare.find(group);
  if (from >= end) return true;
  if (from == 0) return false;
  for (std::size_t at = from; at < end;) {
    std::size_t next = std::min(bare.find(group, at + 1), end), digits = next - at - 1;
    bool is_last = next == end;
    if (digits != 3 && (is_last || digits != 2)) return false;
    at = next;
  }
  return true;
}

std::size_t filled_cells(const CsvRow& row) {
  return static_cast<std::size_t>(std::count_if(row.cells.begin(), row.cells.end(),
                                                [](const std::string& cell) { return !trim(cell).empty(); }));
}

/// Takes a letterhead off: rows of one cell above the first that has more.
void take_letterhead(std::vector<CsvRow>& rows, CsvTable& table) {
  auto wide = std::find_if(rows.begin(), rows.end(), [](const CsvRow& row) { return filled_cells(row) > 1; });
  if (wide == rows.end()) return;
  for (auto row = rows.begin(); row != wide; ++row)
    table.letterhead.push_back(collapse_space(join(row->cells, " ")));
  rows.erase(rows.begin(), wide);
}

/// The first row is the titles; one with more cells than those is told.
void add_row(CsvTable& table, CsvRow row) {
  if (table.header.empty()) {
    table.header = std::move(row.cells);
    table.header_line = row.line;
    return;
  }
  const auto titles = static_cast<std::ptrdiff_t>(std::min(table.header.size(), row.cells.size()));
  if (!std::all_of(row.cells.begin() + titles, row.cells.end(),
                   [](const std::string& cell) { return trim(cell).empty(); })) {
    table.problems.push_back(
        {row.line,
         fmt::format("This row has {} cells and the titles are {}; put cells that hold a "
                     "separator between quotation marks.",
                     row.cells.size(), table.header.size()),
         collapse_space(join(row.cells, " | "))});
    return;
  }
  table.rows.push_back(std::move(row));
}

/// What most numbers that can only be read one way say; a file with semicolons writes decimal commas.
DecimalMark mark_of(const CsvTable& table) {
  int points = 0, commas = 0;
  for (const auto& row : table.rows)
    for (const auto& cell : row.cells) {
      auto bare = bare_number(trim(cell));
      if (!bare) continue;
      if (auto mark = mark_shown_by(*bare)) ++(*mark == DecimalMark::point ? points : commas);
    }
  return commas > points || (commas == points && table.separator == ';') ? DecimalMark::comma
                                                                         : DecimalMark::point;
}

}  // namespace

std::string to_utf8(std::string_view bytes) {
  if (bytes.starts_with("\xEF\xBB\xBF")) return std::string(bytes.substr(3));
  if (bytes.starts_with(utf32_mark_little)) return from_utf32(bytes.substr(4), true);
  if (bytes.starts_with(utf32_mark_big)) return from_utf32(bytes.substr(4), false);
  if (bytes.starts_with("\xFF\xFE")) return from_utf16(bytes.substr(2), true);
  if (bytes.starts_with("\xFE\xFF")) return from_utf16(bytes.substr(2), false);
  if (is_utf8(bytes)) return std::string(bytes);
  std::string out;
  for (char c : bytes) {
    auto byte = static_cast<unsigned char>(c);
    char32_t code = byte;
    if (byte >= 0x80 && byte < 0xA0) code = windows_1252[byte - 0x80] ? windows_1252[byte - 0x80] : 0xFFFD;
    append_utf8(out, code);
  }
  return out;
}

std::optional<std::size_t> CsvTable::column(const std::vector<std::string_view>& titles) const {
  std::vector<std::string> plain;
  for (const auto& title : header) plain.push_back(plain_title(title));
  std::vector<std::string> wanted;
  for (auto title : titles) wanted.push_back(fold_without_accents(title));
  for (const auto& title : wanted)
    for (std::size_t i = 0; i < plain.size(); ++i)
      if (plain[i] == title) return i;
  for (const auto& title : wanted)
    for (std::size_t i = 0; i < plain.size(); ++i)
      if ((" " + plain[i] + " ").find(" " + title + " ") != std::string::npos) return i;
  return std::nullopt;
}

std::string CsvTable::cell(const CsvRow& row, std::optional<std::size_t> column) const {
  if (!column || *column >= row.cells.size()) return {};
  return collapse_space(row.cells[*column]);
}

std::optional<Exact> CsvTable::number(std::string_view text) const {
  auto bare = bare_number(trim(text));
  if (!bare) return std::nullopt;
  DecimalMark mark = mark_shown_by(*bare).value_or(decimal_mark);
  if (!groups_thousands(*bare, mark)) return std::nullopt;
  std::string digits;
  for (char c : *bare) {
    if (c == '.' || c == ',') {
      if ((c == '.') == (mark == DecimalMark::point)) digits += '.';
    } else if (c != '+') {
      digits += c;
    }
  }
  if (digits.starts_with("-.")) digits = "-0" + digits.substr(1);
  if (digits.ends_with('.')) digits.pop_back();
  return parse_exact(digits);
}

CsvTable read_csv(std::string_view bytes) {
  CsvTable table;
  std::string text = to_utf8(bytes);
  std::string_view body = text;
  std::size_t first_line = 1;
  if (body.size() > 4 && equals_ignoring_case(body.substr(0, 4), "sep=")) {
    // Some exports say their separator in a line of its own.
    table.separator = body[4];
    auto end = body.find('\n');
    body.remove_prefix(end == std::string_view::npos ? body.size() : end + 1);
    first_line = 2;
  } else {
    table.separator = find_separator(body);
  }
  RowReader reader(body, table.separator, first_line, table.problems);
  std::vector<CsvRow> rows;
  while (!reader.done())
    if (auto row = reader.next(); row && !is_empty(*row)) rows.push_back(std::move(*row));
  take_letterhead(rows, table);
  for (auto& row : rows) add_row(table, std::move(row));
  std::stable_sort(table.problems.begin(), table.problems.end(),
                   [](const RowProblem& a, const RowProblem& b) { return a.line < b.line; });
  table.decimal_mark = mark_of(table);
  return table;
}

}  // namespace gill::base

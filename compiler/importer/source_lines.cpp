#include "importer/source_lines.h"

#include <algorithm>
#include <array>
#include <iterator>

#include "base/characters.h"
#include "base/text.h"
#include "costing/words.h"
#include "importer/list_marks.h"
#include "importer/raw_lines.h"
#include "importer/recipe_table.h"
#include "importer/sheet_columns.h"
#include "importer/spec_labels.h"

namespace gill::importer {
namespace {

constexpr int bold_heading = 7;

/// `~ 40 ml rum ~`, `★ Kiln ★`: the same sign on both sides is for the look. One before a number alone means
/// about so much.
void strip_flourish(std::string& text) {
  for (std::string_view sign : {"~", "★", "☆", "✦", "=", "-", "–", "—", "•", "*", ":", "+"}) {
    if (!text.starts_with(sign) || !text.ends_with(sign) || text.size() <= 2 * sign.size() + 1) continue;
    while (text.starts_with(sign)) text = std::string(base::trim(std::string_view(text).substr(sign.size())));
    while (text.ends_with(sign))
      text = std::string(base::trim(std::string_view(text).substr(0, text.size() - sign.size())));
  }
}

/// `shake *hard*`: a sign before a word and one behind it.
void strip_slants_within(std::string& text) {
  for (std::size_t open = text.find(" *"); open != std::string::npos; open = text.find(" *", open + 1)) {
    auto close = text.find('*', open + 2);
    if (close == std::string::npos || text[open + 2] == ' ' || text[close - 1] == ' ') continue;
    text.erase(close, 1);
    text.erase(open + 1, 1);
  }
}

/// `Glass ........ coupe`, `45 ml ........ gin`: the dots lead from one to the other.
void strip_leaders(std::string& text) {
  for (std::string_view dots : {"...", "…", "___"}) {
    auto at = text.find(dots);
    if (at == std::string::npos || at == 0) continue;
    auto end = at;
    while (std::string_view(text).substr(end).starts_with(dots.substr(0, dots == "…" ? dots.size() : 1)))
      end += dots == "…" ? dots.size() : 1;
    const std::string before(base::trim(std::string_view(text).substr(0, at))),
        behind(base::trim(std::string_view(text).substr(end)));
    if (before.empty() || behind.empty()) continue;
    // `1) Reed ..... coupe` begins with no amount.
    std::string plain = before;
    strip_list_marks(plain);
    const bool is_amount = !plain.empty() && base::is_digit(plain.front());
    text = before + (is_amount ? " " : ": ") + behind;
  }
}

/// Without the signs that make words bold or slanted; true where all of the line was bold.
bool strip_emphasis(std::string& text) {
  bool is_bold = false;
  for (std::string_view sign : {"**", "__"}) {
    auto last = text.find_last_not_of(": ");
    is_bold = is_bold || (text.starts_with(sign) && last != std::string::npos && last >= 2 * sign.size() &&
                          std::string_view(text).substr(0, last + 1).ends_with(sign));
    for (auto at = text.find(sign); at != std::string::npos; at = text.find(sign))
      text.erase(at, sign.size());
  }
  strip_slants_within(text);
  for (char sign : {'*', '_'})
    if (text.size() > 2 && text.front() == sign && text.back() == sign)
      text = text.substr(1, text.size() - 2);
  return is_bold;
}

/// The cells of `| 60 ml | gin |`, empty ones as well; none where it is no row.
std::vector<std::string> row_of(const std::string& text) {
  std::vector<std::string> cells;
  if (!text.starts_with("|") || text.find('|', 1) == std::string::npos) return cells;
  for (std::size_t at = 1; at < text.size();) {
    auto end = std::min(text.find('|', at), text.size());
    std::string cell(base::trim(std::string_view(text).substr(at, end - at)));
    strip_emphasis(cell);
    cells.push_back(std::move(cell));
    at = end + 1;
  }
  return cells;
}

/// The signs of a wiki's table as those of Markdown: `! Drink !! Glass` names its columns, `| a || b` is a
/// row.
bool take_wiki_signs(std::string& text) {
  if (text.starts_with("{|") || text.starts_with("|}") || text.starts_with("|+")) {
    text = std::string(base::trim(std::string_view(text).substr(2)));
    return !text.empty();
  }
  const bool is_head = text.starts_with("! ") && text.find("!!") != std::string::npos;
  if (is_head) text.front() = '|';
  for (std::string_view sign : {"!!", "||"})
    for (auto at = text.find(sign); text.starts_with("|") && at != std::string::npos; at = text.find(sign))
      text.replace(at, sign.size(), "|");
  return is_head;
}

/// A sheet saved as text: a line names three columns or more, parted by a semicolon, a tab or a comma; else
/// no sign.
char separator_of(std::string_view line) {
  for (char sign : {';', '\t', '|', ','}) {
    auto cells = cells_between(std::string(line), sign);
    // A number counts columns at most: `Ingredient 2`.
    if (std::any_of(cells.begin(), cells.end(), [](const std::string& cell) {
          const auto words = without_number(cell);
          return std::any_of(words.begin(), words.end(), base::is_digit);
        }))
      continue;
    auto named = std::count_if(cells.begin(), cells.end(),
                               [](const auto& cell) { return column_kind_of(cell) != ColumnKind::other; });
    bool names_drinks = std::any_of(cells.begin(), cells.end(), [](const auto& cell) {
      return column_kind_of(cell) == ColumnKind::name;
    });
    if (named >= 3 && (names_drinks || sign != ',')) return sign;
  }
  return '\0';
}

/// Three cells or more that tabs part, or four with wide gaps between them, with no head above them.
std::string with_bars_for_gaps(const std::string& line) {
  if (line.find('|') != std::string::npos) return line;
  constexpr std::string_view gap = "   ";
  std::string with_tabs(base::trim(line));
  std::size_t fewest = 3;
  if (with_tabs.find('\t') == std::string::npos) {
    fewest = 4;
    for (auto at = with_tabs.find(gap); at != std::string::npos; at = with_tabs.find(gap, at))
      with_tabs.replace(at, with_tabs.find_first_not_of(' ', at) - at, "\t");
  }
  auto cells = sheet_cells_of(with_tabs, '\t');
  std::erase_if(cells, [](const auto& cell) { return cell.empty(); });
  return cells.size() < fewest ? line : "| " + base::join(cells, " | ") + " |";
}

/// `"Lily","50 ml gin, 20 ml lemon juice","coupe"`, with no head above it, as a row; else nothing.
std::string row_of_quotes(const std::string& line) {
  for (char sign : {',', ';'}) {
    const std::string between = {'"', sign, '"'};
    auto cells = sheet_cells_of(line, sign);
    if (!line.starts_with("\"") || line.find(between) == std::string::npos || cells.size() < 3) continue;
    for (auto& cell : cells) std::replace(cell.begin(), cell.end(), '|', '/');
    std::erase_if(cells, [](const auto& cell) { return cell.empty(); });
    return "| " + base::join(cells, " | ") + " |";
  }
  return {};
}

/// `Winter list;;;;` above the head of a sheet: the signs at the end part nothing.
std::string without_empty_cells(const std::string& line) {
  const auto end = line.find_last_not_of(";,\t ");
  if (end == std::string::npos) return {};
  const bool is_title = end + 2 < line.size() && line.find_first_of(";,\t") > end;
  return is_title ? line.substr(0, end + 1) : line;
}

/// Reads the lines of a text one by one, and knows the table in which it is.
class LineSource {
 public:
  /// A row of a sheet saved as text as one of Markdown; else the line as it is.
  std::string with_bars(const std::string& line) {
    is_sheet_head_ = is_sheet_row_ = false;
    if (char sign = separator_of(line); sign != '\0') {
      separator_ = sign;
      columns_ = cells_between(line, sign).size();
      is_sheet_head_ = true;
      is_behind_blank_ = false;
    }
    if (separator_ == '\0' || line.find(separator_) == std::string::npos) {
      is_behind_blank_ = is_behind_blank_ || base::trim(line).empty();
      if (auto row = row_of_quotes(line); !row.empty()) return row;
      return with_bars_for_gaps(separator_ == '\0' ? without_empty_cells(line) : line);
    }
    auto cells = cells_between(line, separator_);
    // Below a blank line stands a row of it, or text with a sign in it.
    if (is_behind_blank_ && cells.size() != columns_) return line;
    is_sheet_row_ = true;
    for (auto& cell : cells) std::replace(cell.begin(), cell.end(), '|', '/');
    return "| " + base::join(cells, " | ") + " |";
  }
  bool is_sheet_head() const { return is_sheet_head_; }
  bool is_sheet_row() const { return is_sheet_row_; }

 private:
  char separator_ = '\0';
  std::size_t columns_ = 0;
  bool is_sheet_head_ = false, is_sheet_row_ = false, is_behind_blank_ = false;
};

bool is_rule(const std::string& text) { return text.find_first_not_of("-=_*|:+~ #•>") == std::string::npos; }

SourceLine line_of(std::string text) {
  SourceLine line;
  line.row = row_of(text);
  std::copy_if(line.row.begin(), line.row.end(), std::back_inserter(line.cells),
               [](const auto& cell) { return !cell.empty(); });
  if (!line.cells.empty()) {
    line.text = base::join(line.cells, " | ");
    return line;
  }
  while (text.starts_with("#") || text.starts_with("|")) {
    if (text.front() == '#') ++line.heading;
    text = std::string(base::trim(std::string_view(text).substr(1)));
  }
  // `== Harbour list ==`
  if (text.starts_with("==") && text.ends_with("==") && text.find_first_not_of("= ") != std::string::npos)
    line.heading = 1;
  if (!text.starts_with("*")) strip_flourish(text);
  strip_leaders(text);
  bool is_slanted = text.size() > 2 && text.front() == '*' && text.back() == '*' && text[1] != ' ';
  if (!is_slanted) strip_list_marks(text);
  if (strip_emphasis(text) && line.heading == 0) line.heading = bold_heading;
  strip_list_marks(text);
  line.text = std::move(text);
  return line;
}

/// The head of the table in which each row stands.
void name_columns(std::vector<SourceLine>& lines) {
  std::vector<std::string> columns;
  for (auto& line : lines) {
    if (line.cells.empty()) columns.clear();
    line.columns = columns;
    if (line.is_table_head) columns = line.row;
  }
}

/// `Date: Tue`, `Betreff: die neuen`.
bool is_of_mail_head(const std::string& line) {
  static constexpr auto words = std::to_array<std::string_view>(
      {"from", "to",    "cc",      "bcc",      "date", "sent", "subject", "reply-to", "von",
       "an",   "datum", "betreff", "gesendet", "de",   "à",    "objet",   "envoyé",   "asunto",
       "para", "fecha", "enviado", "oggetto",  "da",   "a",    "data",    "inviato"});
  auto colon = line.find(':');
  return colon != std::string::npos &&
         std::find(words.begin(), words.end(), base::fold_name(base::trim(line.substr(0, colon)))) !=
             words.end();
}

/// Two lines or more of a mail's head, one below the other.
void mark_mail_heads(std::vector<SourceLine>& lines) {
  for (std::size_t i = 0; i < lines.size();) {
    auto end = i;
    while (end < lines.size() && is_of_mail_head(lines[end].text) && (end == i || !lines[end].after_blank))
      ++end;
    if (end > i + 1)
      for (auto k = i; k < end; ++k) lines[k].is_mail_head = true;
    i = std::max(end, i + 1);
  }
}

/// `Method<TAB>Stir, strain`: the gap parts a label from what it labels, unless both name columns.
std::string with_colon_for_gap(const std::string& line) {
  constexpr std::string_view wide = "   ";
  const std::string text(base::trim(line));
  auto gap = std::min(text.find('\t'), text.find(wide));
  if (gap == std::string::npos) return line;
  const std::string before(base::trim(text.substr(0, gap))), behind(base::trim(text.substr(gap)));
  if (behind.find('\t') != std::string::npos || behind.find(wide) != std::string::npos) return line;
  const auto labelled = label_of(before + ": " + behind);
  // `Ice<TAB>200 g`
  const bool is_weighed = labelled.role == LabelRole::ice && base::is_digit(behind.front());
  if (labelled.role == LabelRole::none || is_weighed || before.find(':') != std::string::npos ||
      column_kind_of(behind) != ColumnKind::other)
    return line;
  return before + ": " + behind;
}

/// `Reed Warbler<TAB>coupe` as `Reed Warbler - coupe`; empty where no such gap stands.
std::string with_dash_for_gap(const std::string& line) {
  const std::string text(base::trim(line));
  const auto gap = std::min(text.find('\t'), text.find("   "));
  if (gap == std::string::npos) return {};
  std::string before(base::trim(text.substr(0, gap)));
  const std::string behind(base::trim(text.substr(gap)));
  strip_list_marks(before);
  return costing::one_line(before + " - " + behind);
}

/// A line of a sheet that was turned.
SourceLine line_of_cells(const RawLine& raw) {
  SourceLine line;
  line.number = raw.number;
  line.after_blank = raw.begins_paragraph;
  line.is_table_head = raw.is_sheet_head;
  for (const auto& cell : raw.cells) line.row.push_back(costing::one_line(cell));
  line.row_numbers = raw.cell_numbers;
  std::copy_if(line.row.begin(), line.row.end(), std::back_inserter(line.cells),
               [](const auto& cell) { return !cell.empty(); });
  line.text = base::join(line.cells, " | ");
  return line;
}

SourceLine message_head_of(const RawLine& raw) {
  SourceLine line;
  line.text = costing::one_line(raw.text);
  line.number = raw.number;
  line.after_blank = line.is_mail_head = true;
  return line;
}

}  // namespace

std::vector<SourceLine> source_lines(std::string_view text,
                                     const std::function<bool(const std::string&)>& is_served) {
  std::vector<SourceLine> lines;
  LineSource source;
  bool after_blank = true;
  for (const auto& raw : raw_lines(text, is_served)) {
    after_blank = after_blank || raw.begins_paragraph;
    if (raw.is_message_head) {
      lines.push_back(message_head_of(raw));
      continue;
    }
    if (!raw.cells.empty()) {
      lines.push_back(line_of_cells(raw));
      after_blank = false;
      continue;
    }
    std::string written = costing::one_line(source.with_bars(with_colon_for_gap(raw.text)));
    // What parts the rows of a wiki's table.
    if (written == "|-") continue;
    const bool is_wiki_head = !source.is_sheet_row() && take_wiki_signs(written);
    auto line = written.empty() || is_rule(written) ? SourceLine{} : line_of(written);
    line.is_table_head = is_wiki_head || source.is_sheet_head();
    // A rule of a table stands within it; any other parts what stands above and below.
    if (!line.text.empty()) {
      line.number = raw.number;
      line.after_blank = after_blank;
      if (line.cells.empty()) line.parted = with_dash_for_gap(raw.text);
      lines.push_back(std::move(line));
      after_blank = false;
    } else if (!written.starts_with("|") || written.find_first_of("-=") == std::string::npos) {
      // A row of a sheet that says nothing parts as a blank line does.
      after_blank = true;
    } else if (!lines.empty() && lines.back().cells.size() > 1 && lines.back().number + 1 == raw.number) {
      lines.back().is_table_head = true;
    }
  }
  name_columns(lines);
  mark_mail_heads(lines);
  return lines;
}

}  // namespace gill::importer

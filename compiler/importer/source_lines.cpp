#include "importer/source_lines.h"

#include <algorithm>
#include <array>

#include "base/characters.h"
#include "base/text.h"
#include "costing/words.h"

namespace gill::importer {
namespace {

constexpr int bold_heading = 7;

/// `-18 C` is no bullet before a number.
bool is_degrees(std::string_view text) {
  auto end = text.find_first_not_of("-0123456789. ");
  return end != std::string_view::npos &&
         (text.substr(end).starts_with("°") || text.substr(end).starts_with("C") ||
          text.substr(end).starts_with("F")) &&
         (end + 1 >= text.size() || !base::is_ascii_letter(text[end + 1]));
}

/// The bytes of a bullet at the start; 0 where none stands.
std::size_t bullet_at(std::string_view text) {
  for (std::string_view sign :
       {"•", "·", "▪", "▫", "◦", "○", "●", "■", "□", "☐", "☑", "☒", "✓", "→", "‣", "[ ]", "[x]", "[X]"})
    if (text.starts_with(sign)) return sign.size();
  for (std::string_view sign : {"-", "*", "–", "—", "+", ">"})
    if (text.starts_with(sign) && text.size() > sign.size()) {
      char next = text[sign.size()];
      bool glued = base::is_ascii_letter(next) || base::is_digit(next);
      if (next == ' ' || (glued && sign != "+" && !is_degrees(text))) return sign.size();
    }
  return 0;
}

/// The bytes of a number that counts the lines: `2. `, `3) `, `(4) `.
std::size_t list_number_at(std::string_view text) {
  constexpr std::size_t max_digits = 3;
  std::size_t at = text.starts_with("(") ? 1 : 0, digits = at;
  while (digits < text.size() && base::is_digit(text[digits])) ++digits;
  if (digits == at || digits - at > max_digits || digits + 2 >= text.size()) return 0;
  bool ends = text[digits] == ')' || (at == 0 && text[digits] == '.');
  return ends && text[digits + 1] == ' ' ? digits + 2 : 0;
}

void strip_list_marks(std::string& text) {
  for (std::size_t bytes = 1; bytes > 0;) {
    bytes = bullet_at(text);
    if (bytes == 0) bytes = list_number_at(text);
    text = std::string(base::trim(std::string_view(text).substr(bytes)));
  }
}

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
  for (char sign : {'*', '_'})
    if (text.size() > 2 && text.front() == sign && text.back() == sign)
      text = text.substr(1, text.size() - 2);
  return is_bold;
}

/// The cells of `| 60 ml | gin |`; none where it is no row.
std::vector<std::string> cells_of(const std::string& text) {
  std::vector<std::string> cells;
  if (!text.starts_with("|") || text.find('|', 1) == std::string::npos) return cells;
  for (std::size_t at = 1; at < text.size();) {
    auto end = std::min(text.find('|', at), text.size());
    std::string cell(base::trim(std::string_view(text).substr(at, end - at)));
    strip_emphasis(cell);
    if (!cell.empty()) cells.push_back(std::move(cell));
    at = end + 1;
  }
  return cells;
}

bool is_rule(const std::string& text) { return text.find_first_not_of("-=_*|:+~ #•>") == std::string::npos; }

SourceLine line_of(std::string text) {
  SourceLine line;
  line.cells = cells_of(text);
  if (!line.cells.empty()) {
    line.text = base::join(line.cells, " | ");
    return line;
  }
  while (text.starts_with("#") || text.starts_with("|")) {
    if (text.front() == '#') ++line.heading;
    text = std::string(base::trim(std::string_view(text).substr(1)));
  }
  if (!text.starts_with("*")) strip_flourish(text);
  bool is_slanted = text.size() > 2 && text.front() == '*' && text.back() == '*' && text[1] != ' ';
  if (!is_slanted) strip_list_marks(text);
  if (strip_emphasis(text) && line.heading == 0) line.heading = bold_heading;
  strip_list_marks(text);
  line.text = std::move(text);
  return line;
}

}  // namespace

std::vector<SourceLine> source_lines(std::string_view text) {
  std::vector<SourceLine> lines;
  bool after_blank = true;
  std::size_t number = 0;
  for (std::size_t at = 0; at < text.size();) {
    auto end = std::min(text.find_first_of("\r\n", at), text.size());
    std::string written = costing::one_line(text.substr(at, end - at));
    at = end + (text.substr(end).starts_with("\r\n") ? 2 : 1);
    ++number;
    auto line = written.empty() || is_rule(written) ? SourceLine{} : line_of(written);
    // A rule of a table stands within it; any other parts what stands above and below.
    if (!line.text.empty()) {
      line.number = number;
      line.after_blank = after_blank;
      lines.push_back(std::move(line));
      after_blank = false;
    } else if (!written.starts_with("|")) {
      after_blank = true;
    } else if (!lines.empty() && lines.back().cells.size() > 1 && lines.back().number + 1 == number) {
      lines.back().is_table_head = true;
    }
  }
  return lines;
}

}  // namespace gill::importer

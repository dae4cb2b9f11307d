#include "render/markdown/escape.h"

#include "base/characters.h"

namespace gill::render::markdown {
namespace {

/// What is markup wherever it stands, in CommonMark or in its common extensions.
bool is_markup(char c) { return std::string_view("\\`*_[]<>|~").find(c) != std::string_view::npos; }

/// Where a character that is markup only at a line's start needs its backslash, or the text's end.
std::size_t markup_at_start(std::string_view text) {
  if (text.empty()) return text.size();
  if (std::string_view("#+-=").find(text[0]) != std::string_view::npos) return 0;
  std::size_t digits = 0;
  while (digits < text.size() && base::is_digit(text[digits])) ++digits;
  bool is_item = digits > 0 && digits < text.size() && (text[digits] == '.' || text[digits] == ')') &&
                 (digits + 1 == text.size() || text[digits + 1] == ' ');
  return is_item ? digits : text.size();
}

}  // namespace

std::string escape(std::string_view text, bool at_line_start) {
  std::string result;
  result.reserve(text.size() + 8);
  std::size_t start = at_line_start ? markup_at_start(text) : text.size();
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    bool begins_reference =
        c == '&' && i + 1 < text.size() && (base::is_ascii_letter(text[i + 1]) || text[i + 1] == '#');
    if (c == '\n' || c == '\r') {
      result += ' ';
      continue;
    }
    if (is_markup(c) || begins_reference || i == start) result += '\\';
    result += c;
  }
  return result;
}

}  // namespace gill::render::markdown

#include "tidy/trade_words.h"

#include <algorithm>
#include <set>

#include "base/characters.h"
#include "base/exact.h"
#include "base/text.h"

namespace gill::tidy {

using syntax::LineView;
using syntax::TokenKind;

namespace {

bool is_letter(char c) {
  return !base::is_digit(c) &&
         (static_cast<unsigned char>(c) >= 0x80 || std::isalpha(static_cast<unsigned char>(c)));
}

/// The words of a text in small letters, signs and numbers aside.
std::multiset<std::string> words_of(std::string_view text) {
  std::multiset<std::string> words;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && is_letter(text[end])) ++end;
    if (end > at) words.insert(base::lower_ascii(text.substr(at, end - at)));
    at = std::max(end, at + 1);
  }
  return words;
}

std::string joined(const std::vector<std::string>& lines) { return base::join(lines, "\n"); }

/// Every number of the line stands in the text, as a number of its own.
bool holds_numbers(const LineView& written, const std::string& text) {
  for (std::size_t i = 0; i < written.size(); ++i) {
    if (written.kind(i) != TokenKind::number) continue;
    auto number = std::string(written.text(i));
    bool is_found = false;
    for (auto at = text.find(number); at != std::string::npos && !is_found; at = text.find(number, at + 1)) {
      auto end = at + number.size();
      bool begins = at == 0 || !(base::is_digit(text[at - 1]) || text[at - 1] == '.' || text[at - 1] == '/');
      bool ends = end >= text.size() || !(base::is_digit(text[end]) || text[end] == '/');
      is_found = begins && ends;
    }
    if (!is_found) return false;
  }
  return true;
}

bool holds_strings(const LineView& written, const std::string& text) {
  for (std::size_t i = 0; i < written.size(); ++i)
    if (written.kind(i) == TokenKind::string && text.find(written.text(i)) == std::string::npos) return false;
  return true;
}

/// The text without commas and quotes, in small letters.
std::string without_remark_signs(std::string_view text) {
  std::string plain;
  for (char c : text)
    if (c != ',' && c != '"') plain += c;
  return base::lower_ascii(base::collapse_space(plain));
}

bool has_same_signs(std::string_view a, std::string_view b) {
  std::string signs[] = {without_remark_signs(a), without_remark_signs(b)};
  for (auto& one : signs) std::sort(one.begin(), one.end());
  return signs[0] == signs[1];
}

std::string first_word(std::string_view text) {
  return base::lower_ascii(text.substr(0, std::min(text.find_first_of(" ,"), text.size())));
}

bool holds_all(const std::multiset<std::string>& all, const std::multiset<std::string>& some) {
  return std::includes(all.begin(), all.end(), some.begin(), some.end());
}

}  // namespace

bool is_better_as(const LineView& written, const std::vector<std::string>& lines) {
  std::string text = joined(lines), raw(written.raw(0, written.size()));
  if (!holds_numbers(written, text) || !holds_strings(written, text)) return false;
  if (lines.size() != 1 || first_word(raw) != first_word(text)) return true;
  // `stir until smooth` says as much as `stir, "until smooth"`.
  if (without_remark_signs(raw) == without_remark_signs(text)) return false;
  auto comma = std::min(text.find(','), text.size());
  bool had_comma = raw.find(',') != std::string::npos;
  // The same in another order: a remark that moves behind a comma is better there.
  if (has_same_signs(raw, text)) return !had_comma && comma < text.size();
  return !holds_all(words_of(raw), words_of(text.substr(0, comma))) ||
         holds_all(words_of(raw), words_of(text));
}

std::string with_small_first_word(std::string text, const LineView& written) {
  std::string_view word = written.kind(0) == TokenKind::word ? written.text(0) : std::string_view();
  auto is_capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  bool is_capitalised =
      word.size() > 1 && is_capital(word[0]) && std::none_of(word.begin() + 1, word.end(), is_capital);
  // `Campari Soda`: a name of capitals.
  if (!is_capitalised || (written.kind(1) == TokenKind::word && is_capital(written.text(1)[0]))) return text;
  auto at = text.find(" " + std::string(word));
  if (at == std::string::npos || text.find('"') < at) return text;
  text[at + 1] = static_cast<char>(text[at + 1] - 'A' + 'a');
  return text;
}

}  // namespace gill::tidy

#include "importer/list_marks.h"

#include <string_view>

#include "base/characters.h"
#include "base/text.h"
#include "importer/spec_labels.h"

namespace gill::importer {
namespace {

/// `-18 C` is no bullet before a number.
bool is_degrees(std::string_view text) {
  auto end = text.find_first_not_of("-0123456789. ");
  return end != std::string_view::npos &&
         (text.substr(end).starts_with("°") || text.substr(end).starts_with("C") ||
          text.substr(end).starts_with("F")) &&
         (end + 1 >= text.size() || !base::is_ascii_letter(text[end + 1]));
}

/// The bytes of a picture or a drawn sign at the start (U+2460 to U+24FF, U+2580 to U+2BFF, U+1F000 and on)
/// with a space behind it, as chats and phones write bullets.
std::size_t picture_at(std::string_view text) {
  std::size_t at = 0;
  auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  while (at < text.size()) {
    const bool is_picture = byte(at) == 0xF0U && byte(at + 1) == 0x9FU;
    const bool is_drawn = byte(at) == 0xE2U && ((byte(at + 1) >= 0x91U && byte(at + 1) <= 0x93U) ||
                                                (byte(at + 1) >= 0x96U && byte(at + 1) <= 0xAFU));
    const bool joins = byte(at) == 0xE2U && byte(at + 1) == 0x80U && byte(at + 2) == 0x8DU;
    if (!is_picture && !is_drawn && !(joins && at > 0)) break;
    at += is_picture ? 4 : 3;
  }
  return at > 0 && at < text.size() && text[at] == ' ' ? at : 0;
}

/// The bytes of a bullet at the start; 0 where none stands.
std::size_t bullet_at(std::string_view text) {
  if (auto bytes = picture_at(text); bytes > 0) return bytes;
  for (std::string_view sign :
       {"•", "·", "▪", "▫", "◦", "○", "●", "■", "□", "☐", "☑", "☒", "✓", "→", "‣", "[ ]", "[x]", "[X]"})
    if (text.starts_with(sign)) return sign.size();
  for (std::string_view sign : {"--", "-", "*", "–", "—", "+", ">"})
    if (text.starts_with(sign) && text.size() > sign.size()) {
      char next = text[sign.size()];
      bool glued = base::is_ascii_letter(next) || base::is_digit(next);
      if (next == ' ' || (glued && sign != "+" && !is_degrees(text))) return sign.size();
    }
  return 0;
}

/// The bytes of a number that counts the lines: `2. `, `3) `, `(4) `, `5/ `.
std::size_t list_number_at(std::string_view text) {
  constexpr std::size_t max_digits = 3;
  std::size_t at = text.starts_with("(") ? 1 : 0, digits = at;
  while (digits < text.size() && base::is_digit(text[digits])) ++digits;
  if (digits == at || digits - at > max_digits || digits + 2 >= text.size()) return 0;
  bool ends = text[digits] == ')' || (at == 0 && text[digits] == '.') ||
              (at == 0 && text[digits] == '/' && base::is_ascii_letter(text[digits + 2]));
  return ends && text[digits + 1] == ' ' ? digits + 2 : 0;
}

}  // namespace

void strip_list_marks(std::string& text) {
  for (std::size_t bytes = 1; bytes > 0;) {
    bytes = bullet_at(text);
    if (bytes == 0) bytes = list_number_at(text);
    text = std::string(base::trim(std::string_view(text).substr(bytes)));
  }
}

std::string without_step_number(std::string step) {
  strip_list_marks(step);
  const auto label = label_of(step);
  return label.role == LabelRole::place && !label.rest.empty() ? label.rest : step;
}

}  // namespace gill::importer

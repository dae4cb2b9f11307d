#include "language_server/text_positions.h"

#include <algorithm>

namespace gill::language_server {
namespace {

/// How many bytes the character takes that begins here; 1 for a byte that begins none.
std::uint32_t bytes_at(std::string_view text, std::size_t at) {
  auto first = static_cast<unsigned char>(text[at]);
  std::uint32_t wanted = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : first >= 0xc0 ? 2 : 1;
  for (std::uint32_t i = 1; i < wanted; ++i)
    if (at + i >= text.size() || (static_cast<unsigned char>(text[at + i]) & 0xc0) != 0x80) return 1;
  return wanted;
}

/// Code units of a character of so many bytes.
std::uint32_t units_of(std::uint32_t bytes, Encoding encoding) {
  switch (encoding) {
    case Encoding::utf8:
      return bytes;
    case Encoding::utf16:
      return bytes == 4 ? 2 : 1;
  }
  return bytes;
}

}  // namespace

TextPositions::TextPositions(std::string_view text, Encoding encoding) : text_(text), encoding_(encoding) {
  starts_.push_back(0);
  for (std::size_t i = 0; i < text.size(); ++i)
    if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n')))
      starts_.push_back(static_cast<std::uint32_t>(i + 1));
}

std::uint32_t TextPositions::end_of(std::size_t line) const {
  auto end = line + 1 < starts_.size() ? starts_[line + 1] : static_cast<std::uint32_t>(text_.size());
  if (line + 1 < starts_.size() && end > starts_[line]) {
    --end;
    if (text_[end] == '\n' && end > starts_[line] && text_[end - 1] == '\r') --end;
  }
  return end;
}

Position TextPositions::position(std::uint32_t offset) const {
  offset = std::min(offset, static_cast<std::uint32_t>(text_.size()));
  auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  auto line = static_cast<std::size_t>(after - starts_.begin()) - 1;
  Position position{static_cast<std::uint32_t>(line), 0};
  auto end = std::min(offset, end_of(line));
  for (auto at = starts_[line]; at < end;) {
    auto bytes = bytes_at(text_, at);
    if (at + bytes > end) break;
    position.character += units_of(bytes, encoding_);
    at += bytes;
  }
  return position;
}

std::uint32_t TextPositions::offset(Position position) const {
  if (position.line >= starts_.size()) return static_cast<std::uint32_t>(text_.size());
  auto at = starts_[position.line], end = end_of(position.line);
  for (std::uint32_t left = position.character; at < end && left > 0;) {
    auto bytes = bytes_at(text_, at);
    auto units = units_of(bytes, encoding_);
    if (units > left) break;
    left -= units;
    at += bytes;
  }
  return at;
}

}  // namespace gill::language_server

#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace gill::language_server {

/// In what a position counts the characters of its line.
enum class Encoding : std::uint8_t { utf8, utf16 };

/// A place as the protocol says it: line and character, both from 0.
struct Position {
  std::uint32_t line = 0, character = 0;
  bool operator==(const Position&) const = default;
};

/// Turns offsets of one text into positions and back. Lines end with LF, CRLF or CR, as the protocol has it.
/// Nothing is out of range: what lies behind the end of a line is its end, what lies behind the text its end,
/// and what lies inside a character its beginning.
class TextPositions {
 public:
  /// The text outlives this.
  TextPositions(std::string_view text, Encoding encoding);
  Position position(std::uint32_t offset) const;
  std::uint32_t offset(Position position) const;
  std::size_t line_count() const { return starts_.size(); }

 private:
  /// The end of a line without its line end.
  std::uint32_t end_of(std::size_t line) const;
  std::string_view text_;
  Encoding encoding_;
  std::vector<std::uint32_t> starts_;
};

}  // namespace gill::language_server

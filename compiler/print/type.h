#pragma once
#include <cstdint>
#include <string>
#include <vector>

/// The look of print: its inks and its type.
namespace gill::print {

struct Ink {
  double red = 0, green = 0, blue = 0;
  bool operator==(const Ink&) const = default;
};

// The book's own colours: each dark enough to read in grey.
namespace inks {
inline constexpr Ink text{0x1d / 255.0, 0x26 / 255.0, 0x22 / 255.0};
inline constexpr Ink green{0x1d / 255.0, 0x54 / 255.0, 0x41 / 255.0};
inline constexpr Ink soft{0x56 / 255.0, 0x61 / 255.0, 0x59 / 255.0};
inline constexpr Ink faint{0x8b / 255.0, 0x93 / 255.0, 0x8c / 255.0};
inline constexpr Ink rule{0xc9 / 255.0, 0xca / 255.0, 0xbf / 255.0};
inline constexpr Ink paper{1, 1, 1};
}  // namespace inks

/// What a letter is cut like.
enum class Letter : std::uint8_t { sans, serif };

struct TextStyle {
  Letter letter = Letter::sans;
  double size_pt = 9;
  bool bold = false;
  bool italic = false;
  Ink ink = inks::text;
};

inline TextStyle sans(double size_pt, bool bold = false, Ink ink = inks::text, bool italic = false) {
  return {Letter::sans, size_pt, bold, italic, ink};
}
inline TextStyle serif(double size_pt, bool bold = false, Ink ink = inks::text, bool italic = false) {
  return {Letter::serif, size_pt, bold, italic, ink};
}

/// Words in one style.
struct StyledWords {
  std::string words;
  TextStyle style;
};

/// A paragraph whose parts may differ in style.
using StyledText = std::vector<StyledWords>;

enum class Side : std::uint8_t { start, middle, end };

}  // namespace gill::print

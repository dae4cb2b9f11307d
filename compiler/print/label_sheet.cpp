#include "print/label_sheet.h"

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

namespace gill::print {
namespace {

constexpr double mm_per_inch = 25.4;
// Smaller than this nothing can be read on it, larger no label is.
constexpr double min_mm = 12, max_mm = 300;
constexpr int max_labels = 100;

struct Pair {
  double first = 0, second = 0;
};

/// Two numbers with an `x` between them, as `63.5x38.1`; takes what it read off the text.
std::optional<Pair> take_pair(std::string_view& text) {
  Pair pair;
  auto take = [&](double& value) {
    auto [end, error] =
        std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    if (error != std::errc() || !std::isfinite(value) || value < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return true;
  };
  if (!take(pair.first) || text.empty() || text[0] != 'x') return std::nullopt;
  text.remove_prefix(1);
  if (!take(pair.second)) return std::nullopt;
  return pair;
}

bool take(std::string_view& text, std::string_view word) {
  if (!text.starts_with(word)) return false;
  text.remove_prefix(word.size());
  return true;
}

std::optional<Pair> take_lengths(std::string_view& text) {
  auto pair = take_pair(text);
  if (!pair) return std::nullopt;
  if (take(text, "in")) return Pair{pair->first * mm_per_inch, pair->second * mm_per_inch};
  return take(text, "mm") ? pair : std::nullopt;
}

/// The gaps of sheets that are sold everywhere. Common practice, no source.
struct UsualGap {
  double width_mm, height_mm, column_gap_mm;
};
constexpr std::array<UsualGap, 6> usual_gaps = {{{63.5, 38.1, 2.5},
                                                 {63.5, 46.6, 2.5},
                                                 {99.1, 38.1, 2.5},
                                                 {99.1, 67.7, 2.5},
                                                 {66.675, 25.4, 3.2},
                                                 {101.6, 50.8, 4.8}}};

double usual_gap(const Paper& label) {
  for (const auto& usual : usual_gaps)
    if (std::abs(usual.width_mm - label.width_mm) < 0.1 && std::abs(usual.height_mm - label.height_mm) < 0.1)
      return usual.column_gap_mm;
  return 0;
}

bool fits(const LabelSheet& sheet) {
  constexpr double rounding_mm = 0.6;
  double wide = sheet.columns * sheet.label.width_mm + (sheet.columns - 1) * sheet.column_gap_mm;
  double high = sheet.rows * sheet.label.height_mm + (sheet.rows - 1) * sheet.row_gap_mm;
  return wide <= sheet.page.width_mm + rounding_mm && high <= sheet.page.height_mm + rounding_mm;
}

bool is_label(const Paper& label) {
  return label.width_mm >= min_mm && label.height_mm >= min_mm && label.width_mm <= max_mm &&
         label.height_mm <= max_mm;
}

}  // namespace

std::optional<LabelSheet> read_label_sheet(const std::string& text) {
  std::string_view rest = text;
  auto size = take_lengths(rest);
  if (!size) return std::nullopt;
  LabelSheet sheet;
  sheet.label = {size->first, size->second};
  sheet.column_gap_mm = 0;
  if (!is_label(sheet.label)) return std::nullopt;
  if (rest.empty()) {
    sheet.page = sheet.label;
    sheet.columns = sheet.rows = 1;
    return sheet;
  }
  if (!take(rest, "/")) return std::nullopt;
  auto grid = take_pair(rest);
  if (!grid || grid->first < 1 || grid->second < 1 || grid->first > max_labels || grid->second > max_labels)
    return std::nullopt;
  sheet.columns = static_cast<int>(grid->first);
  sheet.rows = static_cast<int>(grid->second);
  if (sheet.columns != grid->first || sheet.rows != grid->second) return std::nullopt;
  bool has_gap = take(rest, "+");
  if (has_gap) {
    auto gaps = take_lengths(rest);
    if (!gaps) return std::nullopt;
    sheet.column_gap_mm = gaps->first;
    sheet.row_gap_mm = gaps->second;
  } else {
    sheet.column_gap_mm = usual_gap(sheet.label);
  }
  if (take(rest, "@")) {
    if (take(rest, "letter"))
      sheet.page = letter;
    else if (!take(rest, "a4"))
      return std::nullopt;
  }
  if (!rest.empty() || !fits(sheet)) return std::nullopt;
  return sheet;
}

}  // namespace gill::print

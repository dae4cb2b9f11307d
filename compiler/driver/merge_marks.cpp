#include "driver/merge_marks.h"

namespace gill::driver {

std::optional<std::string> first_side_of_merge(std::string_view text) {
  enum class Part : std::uint8_t { of_both, first, other } part = Part::of_both;
  std::string kept;
  bool has_marks = false;
  while (!text.empty()) {
    const auto end = text.find('\n');
    const auto line = text.substr(0, end == std::string_view::npos ? end : end + 1);
    text.remove_prefix(line.size());
    if (part == Part::of_both && line.starts_with("<<<<<<<")) {
      part = Part::first;
    } else if (part == Part::first && (line.starts_with("|||||||") || line.starts_with("======="))) {
      part = Part::other;
    } else if (part == Part::other && line.starts_with(">>>>>>>")) {
      part = Part::of_both;
      has_marks = true;
    } else if (part != Part::other) {
      kept += line;
    }
  }
  return has_marks && part == Part::of_both ? std::optional(std::move(kept)) : std::nullopt;
}

}  // namespace gill::driver

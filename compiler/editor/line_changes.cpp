#include "editor/line_changes.h"

#include <algorithm>

namespace gill::editor {
namespace {

using Lines = std::vector<std::string_view>;

/// The lines with their ends.
Lines lines_of(std::string_view text) {
  Lines lines;
  while (!text.empty()) {
    auto end = text.find('\n');
    auto length = end == std::string_view::npos ? text.size() : end + 1;
    lines.push_back(text.substr(0, length));
    text.remove_prefix(length);
  }
  return lines;
}

/// How far ahead the same line is looked for: a layout moves no line farther.
constexpr std::size_t horizon = 64;

struct Step {
  std::size_t of_before = 0, of_after = 0;
};

/// True for lines that differ in white space alone and hold anything else.
bool say_the_same(std::string_view a, std::string_view b) {
  auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  std::size_t i = 0, j = 0, said = 0;
  for (;; ++i, ++j, ++said) {
    while (i < a.size() && is_space(a[i])) ++i;
    while (j < b.size() && is_space(b[j])) ++j;
    if (i == a.size() || j == b.size()) return i == a.size() && j == b.size() && said > 0;
    if (a[i] != b[j]) return false;
  }
}

/// The nearest two lines that say the same, in front of which as few as can be are passed over.
Step to_next_same(const Lines& before, std::size_t i, const Lines& after, std::size_t j) {
  for (std::size_t passed = 0; passed <= 2 * horizon; ++passed)
    for (std::size_t a = 0; a <= passed; ++a) {
      std::size_t b = passed - a;
      if (i + a < before.size() && j + b < after.size() && say_the_same(before[i + a], after[j + b]))
        return {a, b};
    }
  return {before.size() - i, after.size() - j};
}

}  // namespace

std::vector<LineChange> line_changes(std::string_view before, std::string_view after) {
  Lines old_lines = lines_of(before), new_lines = lines_of(after);
  std::vector<LineChange> changes;
  std::size_t i = 0, j = 0;
  std::uint32_t offset = 0;
  while (i < old_lines.size() || j < new_lines.size()) {
    if (i < old_lines.size() && j < new_lines.size() && old_lines[i] == new_lines[j]) {
      offset += static_cast<std::uint32_t>(old_lines[i].size());
      ++i, ++j;
      continue;
    }
    auto step = to_next_same(old_lines, i, new_lines, j);
    // As many lines as before: each is a change of its own.
    if (step.of_before == step.of_after) step = {1, 1};
    // What is put in stands in one change with the line behind it: two at one place come out in either order.
    if (step.of_before == 0 && i < old_lines.size()) step = {1, step.of_after + 1};
    LineChange change{
        offset, offset, static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(i + step.of_before), {}};
    for (std::size_t n = 0; n < step.of_before; ++n)
      change.end += static_cast<std::uint32_t>(old_lines[i + n].size());
    for (std::size_t n = 0; n < step.of_after; ++n) change.text += new_lines[j + n];
    offset = change.end;
    i += step.of_before, j += step.of_after;
    changes.push_back(std::move(change));
  }
  return changes;
}

}  // namespace gill::editor

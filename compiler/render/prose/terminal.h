#pragma once
#include <functional>
#include <string>
#include <string_view>

namespace gill::render::prose {

/// How CommonMark is set on a terminal.
struct TerminalStyle {
  /// Columns to write in; code blocks keep their lines whatever they measure.
  std::size_t width = 80;
  /// Headings and strong words in bold, emphasis underlined; no word changes.
  bool styled = false;
  /// What to print in brackets after a link's words; nothing for nothing.
  std::function<std::string(std::string_view url)> after_link = {};
};

/// CommonMark of our own pages as text for a terminal: paragraphs wrapped, code set in as it stands and kept
/// in backquotes inside a line, headings on lines of their own, lists with their marks.
std::string to_terminal(std::string_view text, const TerminalStyle& style);

}  // namespace gill::render::prose

#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace gill::importer {

/// One line of a plain text without what only marks it: its bullet or number, the signs of Markdown.
struct SourceLine {
  std::string text;
  std::size_t number = 0;
  /// Marked as a heading: how deep (`##` is 2; bold is the deepest), or 0.
  int heading = 0;
  bool after_blank = false;
  /// Of two words or more with a tab or a wide gap between them: the same with a dash there.
  std::string parted;
  /// The cells of a table's row.
  std::vector<std::string> cells;
  /// The same with those that say nothing, so that each stands in its column.
  std::vector<std::string> row;
  /// Where each of them was written, if not on the line itself.
  std::vector<std::size_t> row_numbers;
  /// What the head of the table says of its columns; empty where it has none.
  std::vector<std::string> columns;
  /// The row that says what stands in a table's columns.
  bool is_table_head = false;
  /// `From: Bea`, above what a mail says.
  bool is_mail_head = false;
};

/// The lines that say something. `is_served` is true of words that say a glass or how a drink is served.
std::vector<SourceLine> source_lines(std::string_view text,
                                     const std::function<bool(const std::string&)>& is_served);

}  // namespace gill::importer

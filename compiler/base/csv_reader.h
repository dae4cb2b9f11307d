#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/csv_writer.h"
#include "base/exact.h"

/// Tables as plain text (RFC 4180) that tills and suppliers send in.
namespace gill::base {

/// Something that is wrong with a row of a table: its line (from 1) and what to do, as a full sentence.
struct RowProblem {
  std::size_t line = 0;
  std::string message;
  /// The row's own, where a table leaves it out.
  std::string words = {};
};

struct CsvRow {
  std::size_t line = 0;
  std::vector<std::string> cells;
};

/// How a file writes its numbers.
enum class DecimalMark : std::uint8_t { point, comma };

/// A table that came in.
struct CsvTable {
  std::vector<std::string> header;
  std::vector<CsvRow> rows;
  std::vector<RowProblem> problems;
  /// Where the titles stand.
  std::size_t header_line = 1;
  /// Lines of one cell above the titles: a letterhead.
  std::vector<std::string> letterhead;
  char separator = ',';
  DecimalMark decimal_mark = DecimalMark::point;

  /// The column whose title is one of these words (compared without case, accents, signs and what
  /// stands in brackets);
  /// an exact title wins over one that holds it as a word. Nothing where no title fits.
  std::optional<std::size_t> column(const std::vector<std::string_view>& titles) const;
  /// The cell, trimmed; empty where the row is short or `column` is nothing.
  std::string cell(const CsvRow& row, std::optional<std::size_t> column) const;
  /// A number as people and exports write it: `1,234.50`, `1.234,50`, `1 234,5`, `£12.50`, `12,50 EUR`.
  /// Nothing when the text is no number.
  std::optional<Exact> number(std::string_view text) const;
};

/// Puts a character behind a text, in UTF-8.
void append_utf8(std::string& text, char32_t code);

/// A file's text as UTF-8 without a byte order mark: UTF-8, UTF-16 and UTF-32 with a mark, else Windows-1252.
std::string to_utf8(std::string_view bytes);

/// Reads a table: UTF-8 with or without a byte order mark, UTF-16 and UTF-32 with one, else Windows-1252;
/// comma, semicolon or tab between cells; quoted cells may hold line ends. The first row that is not empty
/// holds the titles, lines of one cell above a wider row left aside. Rows that cannot be read are reported in
/// `problems` and left out.
CsvTable read_csv(std::string_view bytes);

}  // namespace gill::base

#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/exact.h"

namespace gill::base {

/// A table on its way to a spreadsheet (RFC 4180, with CRLF at the line ends), in UTF-8. A word that a
/// spreadsheet would take for a formula (it begins with `=`, `+`, `-`, `@`, a tab or a return) gets an
/// apostrophe in front; numbers go out as numbers, with a point.
class CsvWriter {
 public:
  explicit CsvWriter(const std::vector<std::string_view>& header);
  CsvWriter& text(std::string_view words);
  /// At most so many decimals, no trailing zeros; nothing gives an empty cell.
  CsvWriter& number(const std::optional<Exact>& value, unsigned places);
  CsvWriter& number(std::optional<double> value, unsigned places);
  /// As many digits as it takes to read the same number back; nothing, and what is no number, gives an empty
  /// cell.
  CsvWriter& unrounded(std::optional<double> value);
  CsvWriter& blank(int cells = 1);
  CsvWriter& end_row();
  const std::string& str() const { return out_; }

 private:
  void cell(std::string_view words);
  std::string out_;
  bool at_row_start_ = true;
};

}  // namespace gill::base

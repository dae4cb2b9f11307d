#pragma once
#include <string>
#include <vector>

/// What the library's `source` lines quote of a table: `IFCT 2017 A015 (water 9.93, starch 75.7 g per 100
/// g)`.
namespace gill::accuracy {

struct QuotedFigure {
  std::string code;  ///< the row, as the table numbers it: the word before the bracket
  std::string part;  ///< `sugar`, `water`
  double g = 0;      ///< in 100 g
};

std::vector<QuotedFigure> quoted_figures(const std::string& source);

}  // namespace gill::accuracy

#pragma once
#include <optional>
#include <string>

#include "print/paper.h"

namespace gill::print {

/// A sheet of labels by its dimensions, or a roll: one label a page. The labels stand in the middle of the
/// sheet.
struct LabelSheet {
  Paper label{63.5, 38.1};
  /// The sheet; the label itself for a roll.
  Paper page = a4;
  int columns = 3, rows = 7;
  /// Between labels.
  double column_gap_mm = 2.5, row_gap_mm = 0;

  int count() const { return columns * rows; }
};

/// Reads `WIDTHxHEIGHTmm` (a roll) or `WIDTHxHEIGHTmm/COLUMNSxROWS`, then `+GAPxGAPmm` for the gaps between
/// columns and rows and `@a4` or `@letter` for the sheet; `in` may stand for `mm`. Where no gap is given, the
/// one that is usual for labels of that size is taken (common practice, no source), else none. Nothing where
/// it cannot be read, or the labels do not go on the sheet.
std::optional<LabelSheet> read_label_sheet(const std::string& text);

}  // namespace gill::print

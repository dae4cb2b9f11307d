#pragma once
#include <optional>
#include <string>
#include <vector>

#include "render/wording/measures.h"
#include "render/wording/recipe_context.h"

namespace gill::render::wording {

/// One line of a build as it is printed.
struct BuildLine {
  /// One measure a column of the house; nothing where a column does not apply.
  std::vector<std::optional<Measure>> columns;
  /// True for a column that the writer did not give, but that is turned into from what was given.
  std::vector<bool> converted;
  /// What is printed across all columns instead: a count, a dash, a mass where the columns are volumes.
  std::optional<Measure> whole;
  bool is_about = false;
  /// True where the amount was evaluated rather than written.
  bool is_solved = false;
  std::string name;
  analysis::StockId stock;
  /// `chilled`, `float`, `or maple syrup`, `until acid 6 % w/v` …
  std::vector<std::string> remarks;
  /// CommonMark that stands below the line.
  std::string text;
};

/// The lines of a build in the order of pouring: amounts, and what is topped, floated, rinsed and misted.
std::vector<BuildLine> build_lines(const RecipeContext& context);

/// `optional`, `at 20 °C`, `or maple syrup` … of one amount line.
std::vector<std::string> remarks_of(const analysis::Amount& amount, const RecipeContext& context);

/// `until acid 6 % w/v`, `to 1 l` of a line whose amount is evaluated; empty for a measured one.
std::string target_of(const analysis::Amount& amount, const RecipeContext& context);

}  // namespace gill::render::wording

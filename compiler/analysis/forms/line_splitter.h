#pragma once
#include <vector>

#include "analysis/read_recipe.h"
#include "analysis/trade_forms.h"

namespace gill::analysis {

/// True where a step begins, also one that the language has no verb for: its form says what it means.
bool begins_form_of_step(const syntax::LineView& line, std::size_t i);

/// A stretch of a line: its tokens from `first` up to and without `last`.
struct Stretch {
  std::size_t first = 0, last = 0;
};

/// Takes a line apart where it holds several amounts or steps: `30 ml lime juice, 15 ml orgeat`, `shake and
/// strain`. What stands behind a comma, `and` or `then` is a line of its own exactly when it would read as
/// one. The stretches in their order, as places of the line; the whole line where it is one.
std::vector<Stretch> split_line(const syntax::LineView& line, const Context& context, bool in_prep,
                                const RecipeState& state);

}  // namespace gill::analysis

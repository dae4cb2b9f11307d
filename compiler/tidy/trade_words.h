#pragma once
#include <string>
#include <vector>

#include "syntax/line_view.h"

namespace gill::tidy {

/// True where a line in the trade's own words is better written as the lines that it was read as: they hold
/// every number and every quoted word of it, and say more than its words in another order or other words
/// behind a comma.
bool is_better_as(const syntax::LineView& written, const std::vector<std::string>& lines);

/// The reading of a line that began with a capital: where its first word stands inside now, in a small
/// letter.
std::string with_small_first_word(std::string text, const syntax::LineView& written);

}  // namespace gill::tidy

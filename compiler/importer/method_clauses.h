#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace gill::importer {

/// True for a folded line that begins with a step: `shake`, `dbl strain`, `top w/ soda`.
bool begins_with_verb(std::string_view folded);

/// True where `clauses_of` puts words of the line in others.
bool is_reworded(std::string_view line);

/// The steps of a line of method, in their order, each in words that the language reads: `dry
/// shake/shake/strain` is three, `dbl strain` a double strain, `w/` is with.
std::vector<std::string> clauses_of(std::string_view line);

}  // namespace gill::importer

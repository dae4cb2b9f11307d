#pragma once
#include "lint/lint.h"

/// `judge` in parts, for who judges again what an edit reaches.
namespace gill::lint {

/// The hazards that the name of one thing in stock speaks of, for `House::hazards`.
std::vector<const Hazard*> hazards_of(const analysis::Stock& stock);

/// By stock, for `House::uses`.
std::vector<int> count_uses(const analysis::Specs& specs);
/// Adds what one recipe uses so many times; what is no more is not counted.
void count_uses(const analysis::Recipe& recipe, int times, std::vector<int>& uses);

// Each adds what its rules find; nothing of the library is judged.

/// Every rule that looks at one drink, its parts and what they are made of.
void check_drink(const House& house, std::size_t index, std::vector<diagnostics::Diagnostic>& findings);
/// The same of a prep.
void check_prep(const House& house, std::size_t index, std::vector<diagnostics::Diagnostic>& findings);
/// Every rule that looks across declarations.
void check_house(const House& house, std::vector<diagnostics::Diagnostic>& findings);

/// Lets `allow` lines suppress what they name, once all is found.
LintResult suppress(const House& house, std::vector<diagnostics::Diagnostic> findings);

}  // namespace gill::lint

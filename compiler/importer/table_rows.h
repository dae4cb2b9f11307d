#pragma once
#include <vector>

#include "importer/line_judge.h"

namespace gill::importer {

/// The rows of a table with those that go on with their drink taken into its first, as a list of its own:
/// what goes in stands before how it is made, wherever the rows say it, and what each row says again stands
/// once.
std::vector<JudgedLine> with_rows_joined(std::vector<JudgedLine> lines, PhraseReader& reader);

}  // namespace gill::importer

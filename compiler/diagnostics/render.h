#pragma once
#include <string>
#include <vector>

#include "diagnostics/diagnostic.h"

namespace gill::diagnostics {

/// Findings as text: the first line in the GNU form `file:line:column: severity: message [rule]`, then the
/// source line with a marker, then what to do. `colour` adds terminal colours and changes no word.
std::string render_text(const std::vector<Diagnostic>& findings, const source::SourceSet& sources,
                        bool colour);

/// Findings as JSON: an object with the array `findings` (keys fixed: rule, severity, message, file, line,
/// column, length, help, drink).
std::string render_json(const std::vector<Diagnostic>& findings, const source::SourceSet& sources);

}  // namespace gill::diagnostics

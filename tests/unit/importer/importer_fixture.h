#pragma once
#include "diagnostics/diagnostic.h"
#include "importer/import_specs.h"
#include "unit/plan/plan_fixture.h"

namespace gill::testing {

/// What is wrong in a text, with the lines on which it was written.
inline std::vector<base::RowProblem> errors_in(const std::string& text) {
  EvaluatedHouse house(text);
  auto findings = house.compiled.sink.all();
  diagnostics::sort_by_place(findings, house.compiled.sources);
  std::vector<base::RowProblem> errors;
  for (const auto& finding : findings)
    if (finding.severity == diagnostics::Severity::error)
      errors.push_back(
          {house.compiled.sources[finding.span.file_id].place_of(finding.span).line, finding.message});
  return errors;
}

}  // namespace gill::testing

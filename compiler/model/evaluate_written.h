#pragma once
#include "model/facts.h"

namespace gill::model {

/// As `evaluate`, but of tolerances only what is written, which is all that findings reckon with: what hands
/// do is half of the work.
HouseFacts evaluate_written(const analysis::Specs& specs, const units::UnitTable& units,
                            diagnostics::DiagnosticSink& sink);

}  // namespace gill::model

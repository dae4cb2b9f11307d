#pragma once
#include "model/measured_runs.h"

namespace gill::model {

/// Finds the factors of hands, and the ice's own temperature where the measurements decide it, by Gauss and
/// Newton's steps over weighted least squares; fills in the findings and what each point says of them. What
/// lies too far from a fit of the others is left out, one at a time; where nothing is decided, nothing is
/// found.
void fit_calibration(const MeasuredRuns& runs, double house_ice_c, Calibration& result);

}  // namespace gill::model

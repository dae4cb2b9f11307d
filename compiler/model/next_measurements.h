#pragma once
#include "model/calibration.h"

namespace gill::model {

/// The drinks whose measuring would tell most of the strength of all the house's drinks, the best first.
std::vector<NextMeasurement> next_measurements(const analysis::Specs& specs, const units::UnitTable& units,
                                               const HouseFacts& facts,
                                               const std::vector<CalibrationFinding>& findings);

}  // namespace gill::model

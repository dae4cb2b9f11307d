#pragma once
#include <string>

#include "model/calibration.h"
#include "source/source_file.h"

/// What a calibration found, in words, for every form of it.
namespace gill::render::wording {

/// `shake`, `solids in a strain`, `ice`.
std::string name_of(const model::CalibrationFinding& finding);
/// `1.08 ± 0.06`, `-2.5 ± 0.8 C`.
std::string value_of(const model::CalibrationFinding& finding);
/// `Shakes melt 1.08 times what is usual (± 0.06), by 7 measurements.`
std::string sentence_of(const model::CalibrationFinding& finding);
/// `Harbour Light, 2026-09-12`.
std::string name_of(const model::MeasuredOf& measured, const analysis::Specs& specs);
/// `drinks.gill:31`, `shakes.csv:4`.
std::string place_of(const model::MeasuredOf& measured, const source::SourceSet& sources,
                     const std::string& table);
/// `169 g after`, `-5 C`, `14.2 brix`.
std::string amount_of(const model::CalibrationPoint& point, double value);
/// `Weigh a Night Ferry before the stir and after it: …`
std::string sentence_of(const model::NextMeasurement& next, const analysis::Specs& specs);

}  // namespace gill::render::wording

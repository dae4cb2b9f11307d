#pragma once
#include <string>

#include "batch/batch.h"

namespace gill::batch {

/// `gill-batch` version 1, unrounded.
std::string batch_json(const Batch& batch, const House& house);
/// The batch as a person makes it: amounts that can be measured, bottles, freezing, keeping, and what is
/// added at service.
std::string batch_text(const Batch& batch, const House& house);

/// `28 days`, `12 h`: how long a batch keeps.
std::string days_text(double days);

/// An amount as it can be measured for a batch: as `wording::measure_in`, and from a litre or kilogram on to
/// five, from ten on to ten.
double batch_measurable(double base_value);

}  // namespace gill::batch

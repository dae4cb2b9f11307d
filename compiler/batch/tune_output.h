#pragma once
#include <string>

#include "costing/costing.h"
#include "model/tune.h"

namespace gill::batch {

using namespace costing;

/// A request as it was written: single values as they stand, before the width within which they count as met.
struct TuneTask {
  model::TuneRequest request;
  std::array<std::optional<double>, model::tune_property_count> wanted;
};

/// `gill-tune` version 1. A target that is a range is an array of its two ends, `null` where it is open;
/// `unmet` lists the keys that no change brings in, `limits` what the drink has to keep to be served, and
/// `other` is a second answer, where there is one worth a choice.
std::string tune_json(const TuneTask& task, const model::Tuned& tuned, const House& house);
/// What was asked, what it came to, which amounts change, and in words what was done and what cannot be met.
std::string tune_text(const TuneTask& task, const model::Tuned& tuned, const House& house);

}  // namespace gill::batch

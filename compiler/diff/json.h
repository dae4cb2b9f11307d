#pragma once
#include <string>

#include "diff/changes.h"
#include "diff/staff_sheet.h"

namespace gill::diff {

/// The changes as JSON, `gill-diff` version 1. Every pair is `[old, new]`, null where one side has nothing;
/// numbers are not rounded. `facts` holds the figures that differ; of those that have a tolerance,
/// `difference_tolerance` says within what the difference lies and `beyond_tolerance` whether it is larger.
std::string to_json(const Changes& changes);

/// The retraining sheet as JSON: the same format and version, with `"for": "staff"`.
std::string to_json(const StaffSheet& sheet);

}  // namespace gill::diff

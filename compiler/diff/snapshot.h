#pragma once
#include <string>

#include "analysis/specs.h"
#include "model/facts.h"
#include "units/unit_table.h"

/// What changed between two houses: a value computed from two models, and the forms in which it is told.
namespace gill::diff {

/// One of the two houses as it stood. All of it outlives what is computed from it.
struct Snapshot {
  /// What the reader calls it: a folder, a file, a revision.
  std::string label;
  const analysis::Specs& specs;
  const model::HouseFacts& facts;
  const units::UnitTable& units;
};

/// Equal but for the rounding of the sums: within 1e-9 of the larger, and of one where both are small.
bool nearly_equal(double a, double b);

}  // namespace gill::diff

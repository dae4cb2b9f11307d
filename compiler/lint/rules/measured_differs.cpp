#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// What a bar's hydrometer, refractometer or scale reads to when a measured line states nothing: a share of
// the value. Common practice, no source.
constexpr double reading_error = 0.05;

}  // namespace

void measured_differs(const PrepCase& prep, Reporter& report) {
  for (const auto& reading : prep.facts.readings) {
    double width = std::max(reading.measured_tolerance.value_or(reading_error * std::abs(reading.measured)),
                            reading.computed_tolerance);
    if (std::abs(reading.measured - reading.computed) <= width) continue;
    report.add(reading.span,
               fmt::format("the {} is measured at {:.4g} {}, and what goes in makes {:.4g} {}", reading.what,
                           reading.measured, reading.unit, reading.computed, reading.unit),
               "The measured value counts. Measure again, or correct an amount, a yield or an ingredient.");
  }
}

}  // namespace gill::lint

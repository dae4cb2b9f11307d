#include <fmt/format.h>

#include <cmath>

#include "lint/rules.h"
#include "model/prep_readings.h"

namespace gill::lint {

namespace {

using model::Reading;

constexpr std::string_view what_counts =
    "The measured value counts. Measure again, or correct an amount, a yield or an ingredient.";

// A reading this much nearer to what the usual instrument would show than to the thing itself is the
// instrument's.
constexpr double nearer_share = 0.5;

double width_of(const Reading& reading) {
  return std::hypot(reading.measured_tolerance.value_or(reading.instrument_error),
                    reading.computed_tolerance);
}

std::string amount(double value, const Reading& reading) {
  return fmt::format("{:.4g}{}{}", value, reading.unit.empty() ? "" : " ", reading.unit);
}

std::string message_of(const Reading& reading) {
  switch (reading.of) {
    case Reading::Of::refractometer:
    case Reading::Of::hydrometer:
      return fmt::format("the {} showed {}, and of what goes in it would show {}", name_of(reading.of),
                         amount(reading.measured, reading), amount(reading.computed, reading));
    case Reading::Of::strength:
    case Reading::Of::sugar:
    case Reading::Of::acid:
    case Reading::Of::density:
      return fmt::format("the {} is measured at {}, and what goes in makes {}", name_of(reading.of),
                         amount(reading.measured, reading), amount(reading.computed, reading));
  }
  return {};
}

/// Where the usual instrument would show what is written, it was not the thing itself that was measured.
std::string help_of(const Reading& reading) {
  bool is_nearer = reading.shown && std::abs(reading.measured - *reading.shown) <
                                        nearer_share * std::abs(reading.measured - reading.computed);
  if (!is_nearer) return std::string(what_counts);
  if (reading.of == Reading::Of::sugar)
    return fmt::format(
        "A refractometer would show {:.1f} brix of it, since it reads acid, alcohol and extract as sugar. If "
        "that is what you read, write `refractometer {:.4g} brix`.",
        *reading.shown, reading.measured);
  return fmt::format(
      "An alcoholmeter would show {:.1f} % abv in it, since sugar and acid float it higher. If that is what "
      "you "
      "read, write `hydrometer {:.4g} % abv`.",
      *reading.shown, reading.measured);
}

}  // namespace

void measured_differs(const PrepCase& prep, Reporter& report) {
  for (const auto& reading : prep.facts.readings)
    if (std::abs(reading.measured - reading.computed) > width_of(reading))
      report.add(reading.span, message_of(reading), help_of(reading));
}

}  // namespace gill::lint

#include <fmt/format.h>

#include <algorithm>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// A yield over what went in by more than this share cannot be a reading error. Common practice, no source.
constexpr double yield_reading_error = 0.02;

}  // namespace

void yield_over_input(const PrepCase& prep, Reporter& report) {
  const auto& makes = prep.prep.makes;
  const auto& facts = prep.facts;
  if (!makes) return;
  bool by_volume = makes->kind == units::Kind::volume;
  double stated = by_volume ? facts.yield_ml : facts.yield_g;
  double would_be = by_volume ? facts.would_be_ml : facts.would_be_g;
  if (stated <= would_be * (1 + std::max(yield_reading_error, makes->relative_tolerance()))) return;
  std::string_view unit = by_volume ? "ml" : "g";
  report.add(makes->span,
             fmt::format("`{}` is said to make {:.4g} {}, and what goes in comes to {:.4g} {}",
                         prep.prep.head.name, stated, unit, would_be, unit),
             "Measure the yield again, or add the amount that is missing.");
}

}  // namespace gill::lint

#include <fmt/format.h>

#include <cmath>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// A line drawn by eye is good to this share. Common practice, no source.
constexpr double line_error = 0.1;

}  // namespace

void low_in_glass(const DrinkCase& drink, Reporter& report) {
  auto glass_id = drink.facts.drunk_from;
  if (!glass_id.valid() || drink.facts.entries.empty() || stays_in_vessel(drink)) return;
  const auto& glass = drink.house.specs[glass_id];
  if (!glass.line || !std::isfinite(glass.line->low)) return;
  double level = drink.facts.in_glass.level_ml, line = glass.line->low;
  if (level <= 0 || level + drink.facts.written_tolerance.volume_ml >= line * (1 - line_error)) return;
  report.add(drink.drink.glass_span.file_id.valid() ? drink.drink.glass_span : drink.name_span(),
             fmt::format("the drink comes to {:.0f} ml, and the {}'s line begins at {:g} ml", level,
                         glass.head.name, line),
             "It looks short. Use a smaller glass, more ice in it, or a larger build.");
}

}  // namespace gill::lint

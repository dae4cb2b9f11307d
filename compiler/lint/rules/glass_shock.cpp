#include <fmt/format.h>

#include "lint/rules.h"
#include "model/serving_glass.h"

namespace gill::lint {

namespace {

// A difference that cracks thin glass. Common practice, no source.
constexpr double cracking_difference_k = 60;

}  // namespace

void glass_shock(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.glass.valid() ||
      drink.house.specs[drink.drink.glass].material.find("glass") == std::string::npos)
    return;
  if (drink.drink.glass_warmed) return;
  const double glass = model::glass_temperature(drink.drink, drink.house.specs).value;
  for (const auto& trace : drink.facts.trace) {
    if (trace.poured_into_glass_c.value_or(glass) - glass < cracking_difference_k) continue;
    report.add(drink.span_of(trace),
               fmt::format("about {:.0f} C goes into a glass at {:.0f} C", *trace.poured_into_glass_c, glass),
               "Thin glass can crack in the hand. Warm it first (`glass mug, warmed`), or leave a metal "
               "spoon in it; throw away what has a chip. A trained person "
               "decides (common practice, no source).");
    return;
  }
}

}  // namespace gill::lint

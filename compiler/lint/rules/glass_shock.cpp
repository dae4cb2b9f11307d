#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// A difference that cracks thin glass. Common practice, no source.
constexpr double cracking_difference_k = 60;

}  // namespace

void glass_shock(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.glass.valid() ||
      drink.house.specs[drink.drink.glass].material.find("glass") == std::string::npos)
    return;
  const auto& house = drink.house.specs.house;
  for (const auto& note : drink.drink.glass_notes)
    if (note.find("warm") != std::string::npos || note.find("hot") != std::string::npos ||
        note.find("heat") != std::string::npos)
      return;
  double glass = drink.drink.glass_frozen    ? house.freezer_c
                 : drink.drink.glass_chilled ? house.fridge_c
                                             : house.room_c;
  for (const auto& trace : drink.facts.trace) {
    if (!trace.in_glass || trace.after.temperature_c - glass < cracking_difference_k) continue;
    report.add(drink.span_of(trace),
               fmt::format("about {:.0f} C goes into a glass at {:.0f} C", trace.after.temperature_c, glass),
               "Thin glass can crack in the hand. Warm it first (`glass mug, warmed`), or leave a metal "
               "spoon in it; throw away what has a chip. A trained person "
               "decides (common practice, no source).");
    return;
  }
}

}  // namespace gill::lint

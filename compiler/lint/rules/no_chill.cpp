#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// A drink above this and below what is hot reads as warm. Common practice, no source.
constexpr double warm_from_c = 12;
constexpr double hot_from_c = 40;

}  // namespace

void no_chill(const DrinkCase& drink, Reporter& report) {
  double temperature = drink.facts.served.temperature_c;
  if (drink.facts.entries.empty() || temperature < warm_from_c || temperature >= hot_from_c) return;
  if (drink.facts.served.volume_ml <= 0) return;
  report.add(drink.name_span(),
             fmt::format("the drink is handed over at about {:.0f} C: nothing chills it", temperature),
             "Shake or stir it with ice, build it on ice, or pour what is `chilled`.");
}

}  // namespace gill::lint

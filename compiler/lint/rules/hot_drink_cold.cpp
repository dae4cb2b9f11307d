#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void hot_drink_cold(const DrinkCase& drink, Reporter& report) {
  if (!is_hot_drink_gone_cold(drink)) return;
  double temperature = drink.facts.served.temperature_c;
  std::string_view long_one;
  double maximum = 0;
  for (const auto& entry : drink.facts.entries) {
    if (entry.role != model::Role::amount || entry.volume_ml.value_or(0) <= maximum) continue;
    maximum = *entry.volume_ml, long_one = entry.name;
  }
  report.add(
      drink.name_span(), fmt::format("a hot drink that comes to the guest at {:.0f} C", temperature),
      fmt::format("Say how hot the long one goes in: write `, at 90 C` behind `{}`, and stir without ice.",
                  long_one));
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/constants.h"

namespace gill::lint {

namespace {

/// The step that melts ice into what is hot; nothing where it was never hot.
const model::TraceStep* chilled_when_hot(const DrinkCase& drink) {
  for (const auto& trace : drink.facts.trace)
    if (!trace.is_amount && trace.melt_g > 0 && trace.before.temperature_c >= model::hot_drink_from_c)
      return &trace;
  return nullptr;
}

}  // namespace

void hot_drink_cold(const DrinkCase& drink, Reporter& report) {
  if (!is_hot_drink_gone_cold(drink)) return;
  double temperature = drink.facts.served.temperature_c;
  auto what = fmt::format("a hot drink that comes to the guest at {:.0f} C", temperature);
  if (const auto* step = chilled_when_hot(drink)) {
    report.add(drink.span_of(*step), what,
               fmt::format(
                   "It goes over ice. Write `stir` in place of `{}` and take out the line that strains it: a "
                   "hot drink is stirred in its glass, without ice.",
                   drink.step(*step).as_written));
    return;
  }
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

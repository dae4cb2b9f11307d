#include <fmt/format.h>

#include "analysis/groups.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// From here on the air and vapour in a closed tin push the lid off. Common practice, no source.
constexpr double lifts_lids_from_c = 50;

template <typename Case>
void check_hot_shake(const Case& build, Reporter& report) {
  for (const auto& trace : build.facts.trace) {
    if (trace.is_amount || !analysis::is_done_closed(build.step(trace).verb) ||
        trace.before.temperature_c < lifts_lids_from_c)
      continue;
    report.add(build.span_of(trace),
               fmt::format("about {:.0f} C goes into a closed vessel", trace.before.temperature_c),
               "Warm air and vapour lift the lid and scald. Let it cool first, stir it, or vent the lid "
               "under a cloth. A trained person decides "
               "(common practice, no source).");
    return;
  }
}

}  // namespace

void hot_shake(const DrinkCase& drink, Reporter& report) { check_hot_shake(drink, report); }
void hot_shake(const PrepCase& prep, Reporter& report) { check_hot_shake(prep, report); }

}  // namespace gill::lint

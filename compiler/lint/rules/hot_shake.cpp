#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// From here on the air and vapour in a closed tin push the lid off. Common practice, no source.
constexpr double hot_from_c = 50;

bool is_closed(analysis::Verb verb) {
  return verb == analysis::Verb::shake || verb == analysis::Verb::dry_shake || verb == analysis::Verb::whip ||
         verb == analysis::Verb::blend;
}

template <typename Case>
void check(const Case& build, Reporter& report) {
  for (const auto& trace : build.facts.trace) {
    if (trace.is_amount || !is_closed(build.step(trace).verb) || trace.before.temperature_c < hot_from_c)
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

void hot_shake(const DrinkCase& drink, Reporter& report) { check(drink, report); }
void hot_shake(const PrepCase& prep, Reporter& report) { check(prep, report); }

}  // namespace gill::lint

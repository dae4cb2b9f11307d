#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// Warmed to this, °C, anything of 20 % abv and more gives off vapour that a flame can catch (its flash point
// is about 36 °C; published flash points of ethanol and water), and ethanol boils at 78 °C.
constexpr double gives_vapour_from_c = 60;
constexpr double burns_from = 0.20;

template <typename Case>
void check_hot_spirit(const Case& build, Reporter& report) {
  for (const auto& trace : build.facts.trace) {
    if (trace.is_amount) continue;
    auto verb = build.step(trace).verb;
    bool heats =
        verb == analysis::Verb::heat || verb == analysis::Verb::simmer || verb == analysis::Verb::reduce;
    double strength = model::strength(trace.before.masses);
    if (!heats || !reaches_strength(strength, burns_from)) continue;
    double temperature = verb == analysis::Verb::reduce ? 100 : trace.after.temperature_c;
    if (temperature < gives_vapour_from_c) continue;
    report.add(build.span_of(trace),
               fmt::format("{:.0f} % abv is heated to about {:.0f} C", base::percent_of_share(strength),
                           temperature),
               fmt::format("Its vapour burns, and bursts a sealed jar or bag. No flame near it, the "
                           "extractor running, nothing sealed that is not made for "
                           "it; boiling spirit down may count as distilling, which wants a licence. {}",
                           who_decides));
    return;
  }
}

}  // namespace

void hot_spirit(const DrinkCase& drink, Reporter& report) { check_hot_spirit(drink, report); }
void hot_spirit(const PrepCase& prep, Reporter& report) { check_hot_spirit(prep, report); }

}  // namespace gill::lint

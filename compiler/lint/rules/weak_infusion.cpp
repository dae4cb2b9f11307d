#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// Time without cold: FDA Food Code 2022, 3-501.19 (from memory), four hours.
constexpr double warm_limit_s = 4 * 3600;
constexpr double cold_limit_s = 24 * 3600;
// Colder than this it stands in a fridge.
constexpr double cold_to_c = 8;

bool is_steeping(spec::Verb verb) {
  return verb == spec::Verb::infuse || verb == spec::Verb::steep || verb == spec::Verb::macerate;
}

}  // namespace

void weak_infusion(const PrepCase& prep, Reporter& report) {
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = prep.step(trace);
    bool with_spirit = trace.before.masses[model::Component::ethanol] > 0;
    if (!(is_steeping(step.verb) || (step.verb == spec::Verb::rest && with_spirit)) || !step.time) continue;
    double strength = model::strength(trace.before.masses);
    if (strength >= self_keeping_strength) continue;
    bool cold = trace.after.temperature_c <= cold_to_c;
    if (step.time->number() <= (cold ? cold_limit_s : warm_limit_s)) continue;
    for (auto id : trace.contents) {
      if (!is_fresh_plant(prep.house.specs[id])) continue;
      report.add(prep.span_of(trace),
                 fmt::format("`{}` steeps for {} at {:.3g} % abv and about {:.0f} C", prep.house.specs[id].head.name,
                             duration_words(step.time->number() / 86400), 100 * strength, trace.after.temperature_c),
                 fmt::format("Below 20 % abv (common practice) fresh plants can spoil or grow what makes people ill; studies saw only partial "
                             "falls at 10 to 30 % (Food Protection Trends 42(4), 2022). Steep it in the stronger spirit first, or cold and "
                             "short: {}. {}", cold_limit(prep.house.specs), who_decides));
      return;
    }
  }
}

}  // namespace gill::lint

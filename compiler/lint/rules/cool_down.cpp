#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

using analysis::Verb;

// FDA Food Code 2022, 3-501.14: from 57 to 21 °C within two hours.
constexpr double first_cooling_s = 2 * 3600;
// Denser than this (water activity) a syrup is no food of care by table B of the same code at any pH.
constexpr double no_care_to_activity = 0.88;

bool cools(Verb verb) { return verb == Verb::cool || verb == Verb::chill || verb == Verb::freeze; }

/// A line after which the vessel is hot: it heats, or something hot went in.
bool is_hot_after(const PrepCase& prep, const model::TraceStep& trace) {
  // Boiling down leaves the vessel at the boil.
  if (!trace.is_amount && prep.step(trace).verb == Verb::reduce) return true;
  return trace.after.temperature_c >= hot_holding_c;
}

/// True where the line itself is hot: not what is only done to a hot vessel, such as a strain.
bool heats(const PrepCase& prep, const model::TraceStep& trace) {
  return trace.is_amount || prep.step(trace).temperature ||
         trace.after.temperature_c > trace.before.temperature_c;
}

}  // namespace

void cool_down(const PrepCase& prep, Reporter& report) {
  const auto& masses = prep.facts.composition.per_gram;
  if (masses[model::Component::water] < dry_below_water || prep.facts.yield_count) return;
  if (reaches_strength(model::strength(masses), self_keeping_strength) ||
      water_activity(masses) <= no_care_to_activity)
    return;
  const model::TraceStep* hot = nullptr;
  const auto help = [&] {
    return fmt::format(
        "Between 57 and 5 C bacteria grow. Cool it from 57 to 21 C within 2 h and to 5 C within 6 h in all "
        "(FDA Food Code "
        "2022, 3-501.14): a shallow pan, an ice bath. Write `cool to 20 C within 2 h`, then `chill`. {}",
        who_decides);
  };
  for (const auto& trace : prep.facts.trace) {
    if (!trace.is_amount && hot && cools(prep.step(trace).verb)) {
      const auto& step = prep.step(trace);
      if (step.within && step.within->number() > first_cooling_s && trace.after.temperature_c >= 5) {
        report.add(step.within->span,
                   fmt::format("the cooling may take {}", duration_words(step.within->number() / 86400)),
                   help());
        return;
      }
      if (trace.after.temperature_c <= first_cooling_c) hot = nullptr;
      continue;
    }
    if (is_hot_after(prep, trace) && (!hot || heats(prep, trace))) hot = &trace;
  }
  if (!hot) return;
  report.add(prep.span_of(*hot),
             fmt::format("`{}` is heated here and kept, and no line cools it", prep.prep.head.name), help());
}

}  // namespace gill::lint

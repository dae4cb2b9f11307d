#include <fmt/format.h>

#include <algorithm>

#include "lint/rules.h"

namespace gill::lint {

namespace {

bool lacks_time(const analysis::Step& step) {
  return analysis::info(step.verb).time == analysis::VerbInfo::Time::should && !step.time;
}

/// The first trace of a step; nothing where the drink was not worked out. A swizzle has two: it goes into its
/// glass, and is worked there, so the one that melts counts.
const model::TraceStep* trace_of(const DrinkCase& drink, std::size_t index) {
  const model::TraceStep* found = nullptr;
  for (const auto& trace : drink.facts.trace)
    if (!trace.is_amount && trace.index == index && (!found || trace.assumed_time_s)) found = &trace;
  return found;
}

/// Without ice a stir is done when it is mixed.
bool only_mixes(const analysis::Step& step, const model::TraceStep* trace) {
  return step.verb == analysis::Verb::stir && trace && trace->in_glass && trace->melt_g <= 0;
}

}  // namespace

void no_time(const DrinkCase& drink, Reporter& report) {
  for (const auto& line : drink.drink.recipe.order) {
    if (line.is_amount || line.inherited) continue;
    const auto& step = drink.drink.recipe.steps[line.index];
    if (!lacks_time(step)) continue;
    const auto* trace = trace_of(drink, line.index);
    if (only_mixes(step, trace)) continue;
    auto name = analysis::info(step.verb).name;
    double usual =
        trace && trace->assumed_time_s ? *trace->assumed_time_s : analysis::info(step.verb).usual_s;
    report.add(step.span, fmt::format("the {} has no time, so everyone will make it differently", name),
               usual > 0
                   ? fmt::format("Write `{} {} s`: until then Gill uses that.", name, usual)
                   : fmt::format("Write how long: `{} 10 s`, say. Until then Gill uses a usual time.", name));
  }
}

void no_time(const PrepCase& prep, Reporter& report) {
  for (const auto& line : prep.prep.recipe.order) {
    if (line.is_amount || line.inherited) continue;
    const auto& step = prep.prep.recipe.steps[line.index];
    // Stirring and blending a prep are done when they are done.
    if (!lacks_time(step) || step.verb == analysis::Verb::stir || step.verb == analysis::Verb::blend ||
        step.verb == analysis::Verb::whip)
      continue;
    auto name = analysis::info(step.verb).name;
    report.add(step.span, fmt::format("the {} has no time, so every batch will differ", name),
               fmt::format("Write how long: `{} 4 h`, say.", name));
  }
}

}  // namespace gill::lint

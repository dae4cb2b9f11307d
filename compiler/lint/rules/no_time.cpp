#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

bool lacks_time(const analysis::Step& step) {
  return analysis::info(step.verb).time == analysis::VerbInfo::Time::should && !step.time;
}

}  // namespace

void no_time(const DrinkCase& drink, Reporter& report) {
  for (const auto& line : drink.drink.recipe.order) {
    if (line.is_amount || line.inherited || !lacks_time(drink.drink.recipe.steps[line.index])) continue;
    const auto& step = drink.drink.recipe.steps[line.index];
    auto [name, usual] = std::pair(analysis::info(step.verb).name, analysis::info(step.verb).usual_s);
    report.add(
        step.span, fmt::format("the {} has no time, so every hand will do it differently", name),
        usual > 0
            ? fmt::format("Write `{} {} s`: that is what is reckoned with until then.", name, usual)
            : fmt::format("Write how long: `{} 10 s`, say. A usual time is reckoned with until then.", name));
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

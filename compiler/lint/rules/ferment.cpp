#include <fmt/format.h>

#include <algorithm>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void ferment(const PrepCase& prep, Reporter& report) {
  const auto& steps = prep.prep.recipe.steps;
  bool bottled = std::any_of(steps.begin(), steps.end(),
                             [](const analysis::Step& step) { return step.verb == analysis::Verb::bottle; });
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount || prep.step(trace).verb != analysis::Verb::ferment) continue;
    report.add(
        prep.span_of(trace),
        fmt::format("`{}` ferments{}: gas builds up, and the strength rises beyond what is reckoned here",
                    prep.prep.head.name, bottled ? " and is bottled" : ""),
        fmt::format("Use vessels that vent, never sealed glass in the warm; keep it at {} once it is ready, "
                    "and measure pH and strength: "
                    "it can pass 0.5 % abv. Special processes may need approval (FDA Food Code 3-502.11, "
                    "from memory). {}",
                    cold_limit(prep.house.specs), who_decides));
    return;
  }
}

}  // namespace gill::lint

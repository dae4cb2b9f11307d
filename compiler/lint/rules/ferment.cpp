#include <fmt/format.h>

#include "analysis/groups.h"
#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void ferment(const PrepCase& prep, Reporter& report) {
  bool bottled = analysis::has_step(prep.prep.recipe, {analysis::Verb::bottle});
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

#include <fmt/format.h>

#include "base/text.h"
#include "lint/rules.h"
#include "model/allergen_words.h"

namespace gill::lint {

void allergen_carried(const PrepCase& prep, Reporter& report) {
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = prep.step(trace);
    bool takes_out = step.verb == analysis::Verb::remove || step.verb == analysis::Verb::skim ||
                     step.verb == analysis::Verb::clarify;
    if (!takes_out || !step.use) continue;
    const auto& allergens = prep.house.facts[step.use->stock].allergens;
    auto codes = allergens.present();
    if (codes.empty()) codes = allergens.possible();
    if (codes.empty()) continue;
    report.add(prep.span_of(trace),
               fmt::format("`{}` is taken out again, and {} counts as still there",
                           prep.house.specs[step.use->stock].head.name,
                           base::join_with_and(model::allergen_words(codes))),
               "Washing, straining and clarifying leave protein behind; only distilling on licensed plant "
               "removes it (Regulation (EU) No "
               "1169/2011, Annex II; washes: common practice, no source). Name it on the menu, the label and "
               "to the guest. Your local code "
               "and a trained person decide.");
  }
}

}  // namespace gill::lint

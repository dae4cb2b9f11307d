#include <fmt/format.h>

#include "base/text.h"
#include "lint/rules.h"
#include "model/allergen_words.h"

namespace gill::lint {

namespace {

/// What a step takes out: what it names, or the milk and egg that a clarification sets.
std::vector<analysis::StockId> taken_out(const PrepCase& prep, std::size_t place) {
  const auto& trace = prep.facts.trace[place];
  const auto& step = prep.step(trace);
  if (step.use) return {step.use->stock};
  std::vector<analysis::StockId> set;
  if (step.verb != analysis::Verb::clarify || place == 0) return set;
  for (auto id : prep.facts.trace[place - 1].contents) {
    auto kind = prep.house.specs[id].kind;
    if (kind == analysis::StockKind::dairy || kind == analysis::StockKind::egg) set.push_back(id);
  }
  return set;
}

}  // namespace

void allergen_carried(const PrepCase& prep, Reporter& report) {
  for (std::size_t i = 0; i < prep.facts.trace.size(); ++i) {
    const auto& trace = prep.facts.trace[i];
    if (trace.is_amount) continue;
    const auto& step = prep.step(trace);
    bool takes_out = step.verb == analysis::Verb::remove || step.verb == analysis::Verb::skim ||
                     step.verb == analysis::Verb::clarify;
    if (!takes_out) continue;
    for (auto id : taken_out(prep, i)) {
      const auto& allergens = prep.house.facts[id].allergens;
      auto codes = allergens.present();
      if (codes.empty()) codes = allergens.possible();
      if (codes.empty()) continue;
      report.add(
          prep.span_of(trace),
          fmt::format("`{}` is taken out again, and {} counts as still there", prep.house.specs[id].head.name,
                      base::join_with_and(model::allergen_words(codes))),
          "Washing, straining and clarifying leave protein behind; only distilling on licensed plant "
          "removes it (Regulation (EU) No "
          "1169/2011, Annex II; washes: common practice, no source). Name it on the menu, the label and "
          "to the guest. Your local code "
          "and a trained person decide.");
    }
  }
}

}  // namespace gill::lint

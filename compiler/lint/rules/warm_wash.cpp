#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/origin.h"

namespace gill::lint {

namespace {

/// Butter, cream, bacon fat: fat that an animal gave, or may have given; dairy that is surely of one.
bool is_animal_fat(const House& house, analysis::StockId id) {
  const auto& origins = house.facts[id].origins;
  auto kind = house.specs[id].kind;
  if (kind == analysis::StockKind::fat) return model::vegan(origins) != model::Answer::yes;
  return kind == analysis::StockKind::dairy && model::is_surely_of_animals(origins);
}

}  // namespace

void warm_wash(const PrepCase& prep, Reporter& report) {
  double warm_s = 0;
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = prep.step(trace);
    bool stands = step.verb == analysis::Verb::rest || step.verb == analysis::Verb::infuse ||
                  step.verb == analysis::Verb::macerate || step.verb == analysis::Verb::steep;
    if (!stands || !step.time || trace.after.temperature_c <= fridge_to_c) continue;
    for (auto id : trace.contents) {
      if (!is_animal_fat(prep.house, id)) continue;
      warm_s += step.time->number();
      if (warm_s <= max_without_cold_s) break;
      report.add(prep.span_of(trace),
                 fmt::format("`{}` stands in it for {} at about {:.0f} C", prep.house.specs[id].head.name,
                             duration_words(warm_s / 86400), trace.after.temperature_c),
                 fmt::format("Four hours are the usual limit without cold; then freeze it, strain it within "
                             "a day, and throw the fat away or keep it "
                             "cold (FDA Food Code 3-501.19, from memory; washes: common practice). {}",
                             who_decides));
      return;
    }
  }
}

}  // namespace gill::lint

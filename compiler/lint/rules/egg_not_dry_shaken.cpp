#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// Yolk holds this much fat (g in one g) and more: a whole egg gives body, not a standing head.

bool stands_as_foam(const DrinkCase& drink, analysis::StockId id) {
  const auto& stock = drink.house.specs[id];
  const auto& facts = drink.house.facts[id];
  bool is_foamer = stock.kind == analysis::StockKind::egg || stock.kind == analysis::StockKind::additive;
  return is_foamer && facts.foams && facts.composition.per_gram[model::Component::fat] < yolk_from_fat;
}

}  // namespace

void egg_not_dry_shaken(const DrinkCase& drink, Reporter& report) {
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount) continue;
    auto verb = drink.step(trace).verb;
    // A blender, or a whip with a little ice, makes the same foam.
    if (verb == analysis::Verb::dry_shake || verb == analysis::Verb::blend || verb == analysis::Verb::whip)
      return;
  }
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount || drink.step(trace).verb != analysis::Verb::shake) continue;
    for (auto id : trace.contents) {
      if (!stands_as_foam(drink, id)) continue;
      report.add(drink.span_of(trace),
                 fmt::format("`{}` is shaken with ice alone, so its foam is thin and short-lived",
                             drink.house.specs[id].head.name),
                 "Add `dry shake 15 s` before the shake, or after it with `strain to tin` between.");
      return;
    }
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

using analysis::StockKind;
using analysis::Verb;

bool beats(Verb verb) {
  return verb == Verb::shake || verb == Verb::dry_shake || verb == Verb::blend || verb == Verb::whip ||
         verb == Verb::charge || verb == Verb::throw_;
}

bool wants_beating(const DrinkCase& drink, analysis::StockId id) {
  auto kind = drink.house.specs[id].kind;
  return kind == StockKind::egg || (kind == StockKind::additive && drink.house.facts[id].foams);
}

}  // namespace

void egg_not_shaken(const DrinkCase& drink, Reporter& report) {
  const auto& trace = drink.facts.trace;
  // What is hot is tempered, not shaken: `hot-egg` speaks of it.
  if (drink.facts.is_hot) return;
  for (std::size_t i = 0; i < trace.size(); ++i) {
    if (!trace[i].is_amount) continue;
    const auto* entry = entry_of_amount(drink.facts.entries, trace[i].index);
    if (!entry || !wants_beating(drink, entry->use.stock)) continue;
    bool beaten = false;
    for (std::size_t later = i + 1; later < trace.size() && !beaten; ++later)
      beaten = !trace[later].is_amount && beats(drink.step(trace[later]).verb);
    if (beaten) continue;
    report.add(drink.span_of(trace[i]),
               fmt::format("no line below shakes `{}`: it stays stringy and gives no foam", entry->name),
               "Put it above the shake; `dry shake 15 s` and then `shake 12 s` give it its foam.");
    return;
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// Less juice than this (ml) is a seasoning, and stirs in. Common practice, no source.
constexpr double least_juice_ml = 5;

}  // namespace

void juice_stirred(const DrinkCase& drink, Reporter& report) {
  double juice_ml = 0;
  std::string name;
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount) {
      const auto* entry = entry_of_amount(drink.facts.entries, trace.index);
      if (!entry || trace.in_glass || drink.house.specs[entry->use.stock].kind != spec::StockKind::juice) continue;
      juice_ml += entry->volume_ml.value_or(0);
      name = entry->name;
    } else if (drink.step(trace).verb == spec::Verb::stir && !trace.in_glass && juice_ml >= least_juice_ml) {
      report.add(drink.span_of(trace), fmt::format("`{}` is stirred: {:.3g} ml of juice want air and a colder mix", name, juice_ml),
                 "Shake it (`shake 12 s`), or roll it if it must not foam.");
      return;
    }
  }
}

}  // namespace gill::lint

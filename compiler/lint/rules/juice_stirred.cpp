#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

/// What a thing that is stirred wants instead; empty for what stirs well.
std::string_view wants(analysis::StockKind kind) {
  if (kind == analysis::StockKind::juice) return "juice wants air and a colder mix";
  if (kind == analysis::StockKind::dairy) return "cream and milk want beating in";
  return {};
}

}  // namespace

void juice_stirred(const DrinkCase& drink, Reporter& report) {
  double all_ml = 0, max_ml = 0;
  std::string name;
  std::string_view why;
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount) {
      const auto* entry = entry_of_amount(drink.facts.entries, trace.index);
      auto wanted = entry ? wants(drink.house.specs[entry->use.stock].kind) : std::string_view();
      if (trace.in_glass || wanted.empty()) continue;
      double volume_ml = entry->volume_ml.value_or(0);
      all_ml += volume_ml;
      if (volume_ml > max_ml) max_ml = volume_ml, name = entry->name, why = wanted;
      continue;
    }
    auto verb = drink.step(trace).verb;
    // Mixed once with air it may be stirred after.
    if (verb == analysis::Verb::shake || verb == analysis::Verb::dry_shake || verb == analysis::Verb::blend ||
        verb == analysis::Verb::whip)
      return;
    if (verb != analysis::Verb::stir || trace.in_glass || all_ml < seasoning_below_ml ||
        trace.after.temperature_c > 40)
      continue;
    report.add(drink.span_of(trace), fmt::format("`{}` is stirred ({:.3g} ml): {}", name, max_ml, why),
               "Shake it (`shake 12 s`), or roll it if it must not foam.");
    return;
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// A strain and a filter take a tenth; more is money. Common practice, no source.
constexpr double large_from_percent = 15;

}  // namespace

void large_loss(const PrepCase& prep, Reporter& report) {
  if (!prep.facts.yield_measured || prep.facts.loss_percent < large_from_percent) return;
  report.add(prep.prep.makes ? prep.prep.makes->span : prep.name_span(),
             fmt::format("{:.0f} % of what is in the vessel is lost on the way to the bottle", prep.facts.loss_percent),
             "Measure the yield again, look for where it goes (filter, solids, pan), or allow it with the reason; the cost counts it all.");
}

}  // namespace gill::lint

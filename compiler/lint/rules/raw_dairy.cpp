#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

template <typename Case>
void check_raw_dairy(const Case& build, Reporter& report) {
  for (const auto& entry : build.facts.entries) {
    const auto& stock = build.house.specs[entry.use.stock];
    if (!is_raw_dairy(stock)) continue;
    report.add(entry.role == model::Role::amount ? build.span_of_amount(entry.index)
                                                 : build.span_of_step(entry.index),
               stock.treated.empty() ? fmt::format("nothing says that `{}` is pasteurised", entry.name)
                                     : fmt::format("`{}` is treated as `{}`, which is no heat treatment",
                                                   entry.name, stock.treated),
               fmt::format("Raw milk and cream can carry listeria, salmonella and worse; many places forbid "
                           "serving them (FDA Food Code "
                           "3-801.11 for guests at risk, from memory). Write `treated pasteurised` where the "
                           "label says so. {}",
                           who_decides));
    return;
  }
}

}  // namespace

void raw_dairy(const DrinkCase& drink, Reporter& report) { check_raw_dairy(drink, report); }
void raw_dairy(const PrepCase& prep, Reporter& report) { check_raw_dairy(prep, report); }

}  // namespace gill::lint

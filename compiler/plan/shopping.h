#pragma once
#include "plan/prep_plan.h"

namespace gill::plan {

/// Fills in what is to be bought, and its cost.
void add_shopping(PrepPlan& plan, const Costing& costing);
/// Fills in what each station sets up, day by day.
void add_stations(PrepPlan& plan, const House& house, const Costing& costing);

}  // namespace gill::plan

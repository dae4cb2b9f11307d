#pragma once
#include "plan/prep_plan.h"

namespace gill::plan {

/// Goes through a plan hour by hour, as if it were carried out: what is used must be there and must still
/// keep. One sentence for each thing that fails; nothing when all is there in time.
std::vector<std::string> replay(const PrepPlan& plan, const House& house);

}  // namespace gill::plan

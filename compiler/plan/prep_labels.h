#pragma once
#include <vector>

#include "plan/prep_plan.h"
#include "print/labels.h"

namespace gill::plan {

/// The labels of what a plan makes: one for each bottle with what that holds, one for what goes into no
/// bottle, each with the day on which it is made.
std::vector<print::Label> prep_labels(const PrepPlan& plan, const render::document::BookIndex& index);

}  // namespace gill::plan

#pragma once
#include <optional>
#include <string>

#include "plan/prep_plan.h"

namespace gill::plan {

/// The plan as a calendar (RFC 5545, iCalendar): an event for each piece of hands-on work and each service,
/// in the bar's own time. The same plan gives the same bytes. Nothing where no date is known.
std::optional<std::string> prep_ics(const PrepPlan& plan, const House& house);

}  // namespace gill::plan

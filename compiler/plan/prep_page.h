#pragma once
#include "plan/prep_plan.h"
#include "render/document/document.h"

namespace gill::plan {

/// The plan as a page with boxes to tick, for every form that is read by people.
render::document::Page prep_page(const PrepPlan& plan, const House& house);
/// What stands on every page of a plan.
render::document::Frame prep_frame(const House& house);

/// The amount in the measure that suits it: `540 ml`, `1.08 l`, `48`, `320 g`.
std::string amount_text(const Item& item, double grams);
std::string amount_text(std::optional<double> ml, double grams, double pieces);

/// `Thu 19 Mar`, or `day 1` where no date is known; negative days are before the first service.
std::string day_text(int day, const PrepPlan& plan);
/// `14:35`, on whatever day it is.
std::string clock_text(double hour, const PrepPlan& plan);

}  // namespace gill::plan

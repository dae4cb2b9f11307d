#pragma once
#include "plan/prep_plan.h"
#include "render/document/document.h"

namespace gill::plan {

/// The plan as a page with boxes to tick, for every form that is read by people.
render::document::Page prep_page(const PrepPlan& plan, const House& house);

/// The amount of a product in the measure that suits it.
std::string amount_of_product(const Product& product, double grams);

/// `Thu 19 Mar`, or `day 1` where no date is known; negative days are before the first service.
std::string day_text(int day, const PrepPlan& plan);
/// `14:35`, on whatever day it is.
std::string clock_text(double hour, const PrepPlan& plan);

}  // namespace gill::plan

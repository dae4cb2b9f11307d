#pragma once
#include "plan/prep_plan.h"
#include "render/document/document.h"

namespace gill::plan {

/// The plan as a page with boxes to tick, for every form that is read by people.
render::document::Page prep_page(const PrepPlan& plan, const House& house);

/// The amount of a product in the measure that suits it.
std::string amount_of_product(const Product& product, double grams);

/// One line of the timetable: hands-on work, or a service.
struct WorkLine {
  double from_h = 0, to_h = 0;
  std::string station, words;
  bool is_service = false;
};
/// All of the plan's, by the hour at which they begin.
std::vector<WorkLine> work_lines(const PrepPlan& plan, const House& house);

/// `bar` where none is named.
std::string station_text(const std::string& station);

/// `Thu 19 Mar`.
std::string date_text(std::chrono::sys_days date);
/// `Thu 19 Mar`, or `day 1` where no date is known; negative days are before the first service.
std::string day_text(int day, const PrepPlan& plan);
/// `14:35`, on whatever day it is.
std::string clock_text(double hour, const PrepPlan& plan);

}  // namespace gill::plan

#pragma once
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "plan/prep_plan.h"

namespace gill::plan {

using Interval = std::pair<double, double>;

/// How long several batches take, against one: each further one beside the first takes half as long. Common
/// practice, no source.
double hands_on_factor(int batches);

/// The most of the intervals that run at once between the two hours.
int most_at_once(const std::vector<Interval>& intervals, double from_h, double to_h);

/// Finds the hours for hands-on work, from the end backwards: as late as it may be, in the hours before a
/// service, and never two things at one station at once while that can be helped.
class Timetable {
 public:
  Timetable(const PlanOptions& options, const Calendar& calendar) : options_(options), calendar_(calendar) {}

  /// The stages of an item, one batch, as late as they can be to be ready by `ready_by`, whatever else is
  /// going on.
  std::vector<Interval> latest(const Product& product, double ready_by) const;
  /// The same with its real work, on the same bar days, at hours that its station has free, which it books.
  /// Sets the make's hours, and `needs_more_hands` where there were none, or where all hands are at work
  /// elsewhere.
  void book(Make& make, const Product& product, double ready_by, const std::vector<Interval>& latest);

 private:
  struct Placing;
  std::vector<Interval> place(const Product& product, Placing& placing) const;
  double free_end(double end, double hands_on_h, int day, Placing& placing) const;
  double fit_end(double bound, double hands_on_h, bool may_be_late) const;

  static void find_standing(Make& make, const Product& product);
  bool all_hands_are_busy(double from_h, double to_h) const;

  const PlanOptions& options_;
  const Calendar& calendar_;
  std::map<std::string, std::vector<Interval>> booked_;
  /// Of all stations.
  std::vector<Interval> at_work_;
};

}  // namespace gill::plan

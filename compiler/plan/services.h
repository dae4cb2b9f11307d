#pragma once
#include <set>
#include <string>

#include "plan/demands.h"
#include "plan/products.h"

namespace gill::plan {

/// What services could not count, by name, for the notes of the plan.
struct NotCounted {
  std::set<std::string> unsold, in_error, optional, unweighed;
  /// Days, as ISO 8601 writes them, on which no menu runs.
  std::set<std::string> without_menu;
  /// Bookings for days that are not planned for, or on which the bar is closed.
  std::set<std::string> other_days, closed_days;
};

/// The days of the plan: from the day that is asked for, else the first of the newest menu.
Calendar calendar_of(const House& house, const PlanOptions& options);

/// Portions of a drink that are made for so many that are sold: a bowl is made whole.
double portions_made(const analysis::Drink& drink, double portions);

/// Lays out the services of a plan, and what each of them uses.
class Services {
 public:
  Services(const House& house, const PlanOptions& options, const Calendar& calendar, const Products& products,
           PrepPlan& plan)
      : house_(house), options_(options), calendar_(calendar), products_(products), plan_(plan) {}

  /// Chooses days and menus: those asked for, else those that run on the day. A drink whose facts are in
  /// error is left out and noted.
  void choose_days();
  /// Adds what every service uses: to the demands where it is made ahead, else to the plan's consumption.
  void add_uses(Demands& demands);
  const NotCounted& not_counted() const { return not_counted_; }

 private:
  void add_day(int index);
  void add_bookings(ServiceDay& day);
  void note_other_bookings();
  void add_menu(const analysis::Menu& menu, ServiceDay& day);
  bool can_serve(DrinkId drink);
  void add_uses(std::size_t day, Demands& demands);

  const House& house_;
  const PlanOptions& options_;
  const Calendar& calendar_;
  const Products& products_;
  PrepPlan& plan_;
  NotCounted not_counted_;
};

}  // namespace gill::plan

#pragma once
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "plan/demands.h"
#include "plan/products.h"
#include "plan/timetable.h"

namespace gill::plan {

/// Decides how much of each item is made when: its days of use in windows that it keeps through, each filled
/// by one make, which may ask for other items in turn.
class Makes {
 public:
  Makes(const PlanOptions& options, const Calendar& calendar, const Products& products, Demands& demands,
        Timetable& timetable, PrepPlan& plan);

  /// Makes what is asked of an item; everything that it goes into must have been made before.
  void make(std::size_t product);

 private:
  struct Window;
  /// Some of an item that is there, and the first and the last bar day on which it may be used.
  struct OnHand {
    double grams = 0;
    int first_day = 0, last_day = 0;
    std::optional<std::chrono::sys_days> made;
  };

  void find_movable();
  Window window_from(const std::vector<Demand>& demands, std::size_t& at, std::size_t product) const;
  void fill(std::size_t product, Window window, std::vector<OnHand>& on_hand);
  static void use_on_hand(Make& make, const Window& window, std::vector<OnHand>& on_hand);
  void set_amount(Make& make, const Window& window, const std::vector<OnHand>& on_hand) const;
  double amount_to_make(const Product& product, double target_g, double used_while_it_keeps_g) const;
  void move_sooner(Make& make, Window& window) const;
  int days_sooner(const Make& make, const Product& product, int maximum) const;
  void book(Make& make, const Window& window, const std::vector<Interval>& latest);
  void use_ingredients(const Make& make, const std::vector<Interval>& latest);
  void use_made(std::size_t product, const Window& window);
  std::vector<Demand> split_service(const Product& product, const Demand& demand) const;
  std::vector<OnHand> on_hand(const Product& product) const;

  const PlanOptions& options_;
  const Calendar& calendar_;
  const Products& products_;
  Demands& demands_;
  PrepPlan& plan_;
  Timetable& timetable_;
  std::vector<bool> may_move_;
  /// Hands-on hours by station and bar day.
  std::map<std::pair<std::string, int>, double> load_h_;
  /// And of all stations, by bar day.
  std::map<int, double> day_load_h_;
};

}  // namespace gill::plan

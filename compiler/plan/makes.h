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
  Makes(const PlanOptions& options, const Products& products, Demands& demands, PrepPlan& plan);

  /// Makes what is asked of an item; everything that it goes into must have been made before.
  void make(std::size_t product);

 private:
  struct Window;

  void find_movable();
  Window window_from(const std::vector<Demand>& demands, std::size_t& at, std::size_t product) const;
  void fill(std::size_t product, Window window, double& on_hand_g);
  void set_amount(Make& make, const Window& window, double& on_hand_g) const;
  double amount_to_make(const Product& product, double target_g, double used_while_it_keeps_g) const;
  void move_sooner(Make& make, Window& window) const;
  int days_sooner(const Make& make, const Product& product, int maximum) const;
  void book(Make& make, const Window& window, const std::vector<Interval>& latest);
  void use_ingredients(const Make& make, const std::vector<Interval>& latest);
  void use_made(std::size_t product, const Window& window);
  std::vector<Demand> split_service(const Product& product, const Demand& demand) const;
  double on_hand(const Product& product) const;

  const PlanOptions& options_;
  const Products& products_;
  Demands& demands_;
  PrepPlan& plan_;
  Timetable timetable_;
  std::vector<bool> may_move_;
  /// Hands-on hours by station and bar day.
  std::map<std::pair<std::string, int>, double> load_h_;
};

}  // namespace gill::plan

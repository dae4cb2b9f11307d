#pragma once
#include <vector>

#include "plan/prep_plan.h"

namespace gill::plan {

/// A demand for an item: by a service (its day), or by a stage of a make (which must be laid out already).
struct Demand {
  int day = 0;
  double grams = 0;
  /// When it must be there at the latest: as the days are laid out, and (for what goes into a make) as
  /// booked.
  double latest_h = 0;
  bool by_service = false;
  std::size_t make = 0, stage = 0;
  double from_h = 0, to_h = 0;
  /// Hours from `latest_h` to the service that is waiting for it in the end.
  double lead_h = 0;
};

/// What is asked of every item, by its index among the products.
class Demands {
 public:
  Demands(std::size_t products, int days) : of_(products), used_per_day_(products, 0), days_(days) {}

  void add(std::size_t product, const Demand& demand) {
    used_per_day_[product] += demand.grams / days_;
    of_[product].push_back(demand);
  }
  const std::vector<Demand>& of(std::size_t product) const { return of_[product]; }
  /// Grams, over the days of the plan.
  double used_per_day(std::size_t product) const { return used_per_day_[product]; }

 private:
  std::vector<std::vector<Demand>> of_;
  std::vector<double> used_per_day_;
  int days_;
};

}  // namespace gill::plan

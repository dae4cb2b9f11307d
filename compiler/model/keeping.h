#pragma once
#include <algorithm>
#include <cmath>

/// Days and bottles of what is made ahead: one answer for labels, plans and batches.
namespace gill::model {

/// Whole days after the day of making on which something may still be used: what keeps for hours is never
/// given one more. The day of making is day 0; a local code may count otherwise.
inline int days_after_making(double keeps_days) {
  // What rounding may have taken off a whole day.
  constexpr double rounding = 1e-6;
  constexpr double max_days = 36500;
  return static_cast<int>(std::floor(std::clamp(keeps_days, 0.0, max_days) + rounding));
}

/// The days that a plan reckons with where no `keeps` states them: those of the shortest-lived part say
/// nothing of the mixture, so never more than the seven of what is mixed and held cold (FDA Food Code
/// 3-501.17).
inline double days_to_plan_with(double keeps_days, bool is_stated) {
  constexpr double max_unstated_days = 7;
  return is_stated ? keeps_days : std::min(keeps_days, max_unstated_days);
}

/// So much liquid in bottles of one size.
struct BottleSplit {
  double size_ml = 0;
  int count = 0;
  /// What is in each but the last, and in the last.
  double fill_ml = 0, last_ml = 0;

  /// All hold the same, and none is full.
  bool is_even() const { return count > 1 && fill_ml < size_ml * (1 - 1e-6); }
};

/// Full bottles and a last one; where that would be less than half full, all are filled alike.
inline BottleSplit split_into_bottles(double volume_ml, double size_ml) {
  if (size_ml <= 0 || volume_ml <= 0) return {};
  constexpr double brim = 1e-6, max_count = 1e9;
  double count = std::min(std::max(1.0, std::ceil(volume_ml / size_ml - brim)), max_count);
  double last_ml = volume_ml - (count - 1) * size_ml;
  if (count > 1 && last_ml < size_ml / 2)
    return {size_ml, static_cast<int>(count), volume_ml / count, volume_ml / count};
  return {size_ml, static_cast<int>(count), count > 1 ? size_ml : last_ml, last_ml};
}

}  // namespace gill::model

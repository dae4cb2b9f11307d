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
  /// What is left when all are full: too little for another one.
  double over_ml = 0;

  /// What pours and jugs are good to, as a share of a bottle. Common practice, no source.
  static constexpr double good_to_share = 0.02;

  /// All hold the same, and none is full.
  bool is_even() const { return count > 1 && fill_ml < size_ml * (1 - 1e-6); }
  bool last_is_full() const { return last_ml >= size_ml * (1 - good_to_share / 2); }
};

/// Full bottles and a last one; where that would be less than half full, all are filled alike, and what no
/// bottle is worth is left over.
inline BottleSplit split_into_bottles(double volume_ml, double size_ml) {
  if (size_ml <= 0 || volume_ml <= 0) return {};
  constexpr double brim = 1e-6, max_count = 1e9;
  if (double full = std::floor(volume_ml / size_ml); full >= 1 && full < max_count) {
    double over = volume_ml - full * size_ml;
    if (over > brim * size_ml && over <= BottleSplit::good_to_share * size_ml)
      return {size_ml, static_cast<int>(full), size_ml, size_ml, over};
  }
  double count = std::min(std::max(1.0, std::ceil(volume_ml / size_ml - brim)), max_count);
  double last_ml = volume_ml - (count - 1) * size_ml;
  if (count > 1 && last_ml < size_ml / 2)
    return {size_ml, static_cast<int>(count), volume_ml / count, volume_ml / count, 0};
  return {size_ml, static_cast<int>(count), count > 1 ? size_ml : last_ml, last_ml, 0};
}

}  // namespace gill::model

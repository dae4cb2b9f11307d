#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

/// The few numerical tools the physics needs.
namespace gill::model::numeric {

/// c0 + c1 x + c2 x² + …
template <std::size_t count>
constexpr double polynomial(const std::array<double, count>& coefficients, double x) noexcept {
  double sum = coefficients[count - 1];
  for (std::size_t i = count - 1; i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

/// A polynomial's value and slope.
struct ValueAndSlope {
  double value;
  double slope;
};
template <std::size_t count>
constexpr ValueAndSlope polynomial_with_slope(const std::array<double, count>& coefficients,
                                              double x) noexcept {
  double value = coefficients[count - 1];
  double slope = 0;
  for (std::size_t i = count - 1; i-- > 0;) {
    slope = slope * x + value;
    value = value * x + coefficients[i];
  }
  return {value, slope};
}

/// Straight-line interpolation in a table with a step of 1 from 0; beyond its end by its last slope, below 0
/// its first value.
template <std::size_t count>
constexpr double interpolate(const std::array<double, count>& table, double place) noexcept {
  if (!(place > 0)) return table[0];
  constexpr auto last = static_cast<double>(count - 2);
  const auto below = static_cast<std::size_t>(std::min(place, last));
  return table[below] + (place - static_cast<double>(below)) * (table[below + 1] - table[below]);
}

/// Zero of an increasing function between `low` and `high`, from a good guess and a rough slope: secant steps
/// held in a shrinking bracket, then halving should they ever crawl. Ends when a step is below `tolerance`;
/// the answer is then far closer than that (by how well the last slope fits: hundreds of times). Where the
/// function has no zero in between, the bound nearer to it.
template <class Function>
double zero_of_increasing(Function&& function, double low, double high, double guess, double slope,
                          double tolerance) noexcept {
  constexpr int secant_steps = 16;
  constexpr int all_steps = 80;
  double x = std::clamp(guess, low, high);
  double value = function(x);
  bool low_known = false;
  bool high_known = false;
  for (int step = 0; step < all_steps; ++step) {
    if (value == 0) return x;
    if (value > 0) {
      if (x <= low) return low;
      high = x;
      high_known = true;
    } else {
      if (x >= high) return high;
      low = x;
      low_known = true;
    }
    double next = x - value / slope;
    if (std::abs(next - x) <= tolerance) return std::clamp(next, low, high);
    if (!(next > low)) next = low_known ? 0.5 * (low + high) : low;
    if (!(next < high)) next = high_known ? 0.5 * (low + high) : high;
    if (step >= secant_steps) next = 0.5 * (low + high);
    const double next_value = function(next);
    const double new_slope = (next_value - value) / (next - x);
    if (new_slope > 0) slope = new_slope;
    x = next;
    value = next_value;
  }
  return x;
}

}  // namespace gill::model::numeric

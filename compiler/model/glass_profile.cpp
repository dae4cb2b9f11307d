#include "model/glass_profile.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gill::model {
namespace {

/// Volume in ml of a cone frustum, from diameters and height in mm.
double frustum_ml(double lower_mm, double upper_mm, double height_mm) {
  return std::numbers::pi / 12 * height_mm *
         (lower_mm * lower_mm + lower_mm * upper_mm + upper_mm * upper_mm) / 1000;
}

// What a glass that says nothing of its size holds: a double rocks glass. Common practice, no source.
constexpr double unstated_holds_ml = 300;

}  // namespace

GlassProfile::GlassProfile(const analysis::Glass& glass) : points_(glass.shape) {
  holds_ml_ = glass.holds && glass.holds->number() > 0 ? glass.holds->number() : unstated_holds_ml;
  if (points_.size() < 2) {
    // As wide as it is high: V = π/4 d³.
    double side = std::cbrt(holds_ml_ * 1000 * 4 / std::numbers::pi);
    points_ = {{side, 0}, {side, side}};
  }
  double drawn = 0;
  for (std::size_t i = 1; i < points_.size(); ++i)
    drawn += frustum_ml(points_[i - 1].diameter_mm, points_[i].diameter_mm,
                        points_[i].height_mm - points_[i - 1].height_mm);
  double stretch = drawn > 0 ? holds_ml_ / drawn : 1;
  double bottom = points_.front().height_mm;
  for (auto& point : points_) point.height_mm = (point.height_mm - bottom) * stretch;
  volumes_ml_.push_back(0);
  for (std::size_t i = 1; i < points_.size(); ++i)
    volumes_ml_.push_back(volumes_ml_.back() + frustum_ml(points_[i - 1].diameter_mm, points_[i].diameter_mm,
                                                          points_[i].height_mm - points_[i - 1].height_mm));
}

double GlassProfile::diameter_at_mm(double height_mm) const {
  if (height_mm <= 0) return points_.front().diameter_mm;
  for (std::size_t i = 1; i < points_.size(); ++i) {
    if (height_mm > points_[i].height_mm) continue;
    double span = points_[i].height_mm - points_[i - 1].height_mm;
    double share = span > 0 ? (height_mm - points_[i - 1].height_mm) / span : 1;
    return points_[i - 1].diameter_mm + share * (points_[i].diameter_mm - points_[i - 1].diameter_mm);
  }
  return points_.back().diameter_mm;
}

double GlassProfile::wetted_cm2(double volume_ml) const {
  const double surface_mm = height_of_ml(volume_ml);
  double mm2 = std::numbers::pi / 4 * points_.front().diameter_mm * points_.front().diameter_mm;
  for (std::size_t i = 1; i < points_.size() && points_[i - 1].height_mm < surface_mm; ++i) {
    const double top_mm = std::min(points_[i].height_mm, surface_mm);
    const double lower = points_[i - 1].diameter_mm, upper = diameter_at_mm(top_mm);
    const double slant_mm = std::hypot(top_mm - points_[i - 1].height_mm, (upper - lower) / 2);
    mm2 += std::numbers::pi / 2 * (lower + upper) * slant_mm;
  }
  return mm2 / 100;
}

double GlassProfile::volume_below_mm(double height_mm) const {
  for (std::size_t i = 1; i < points_.size(); ++i) {
    if (height_mm > points_[i].height_mm) continue;
    return volumes_ml_[i - 1] + frustum_ml(points_[i - 1].diameter_mm, diameter_at_mm(height_mm),
                                           std::max(0.0, height_mm - points_[i - 1].height_mm));
  }
  return volumes_ml_.back();
}

double GlassProfile::height_of_ml(double volume_ml) const {
  if (volume_ml <= 0) return 0;
  if (volume_ml >= volumes_ml_.back()) return height_mm();
  double low = 0, high = height_mm();
  // The volume grows with the height, so halving the bracket finds it; 40 halvings of a glass are below an
  // atom.
  for (int i = 0; i < 40; ++i) {
    double middle = (low + high) / 2;
    (volume_below_mm(middle) < volume_ml ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace gill::model

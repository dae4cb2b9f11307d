#pragma once
#include <vector>

#include "analysis/specs.h"

namespace gill::model {

/// The inside of a glass as a solid of revolution: cone frusta between the points of its `shape`, scaled in
/// height so that it holds what `holds` says. A glass without a shape is a cylinder as high as it is wide.
class GlassProfile {
 public:
  explicit GlassProfile(const analysis::Glass& glass);

  double holds_ml() const { return holds_ml_; }
  double height_mm() const { return points_.back().height_mm; }
  /// Height of the surface over the inside bottom when so much stands in it; the rim's for more than it
  /// holds.
  double height_of_ml(double volume_ml) const;
  /// Volume below a height.
  double volume_below_mm(double height_mm) const;
  /// Inside diameter at a height.
  double diameter_at_mm(double height_mm) const;
  /// Inside of the wall and the bottom that so much touches, cm².
  double wetted_cm2(double volume_ml) const;
  const std::vector<analysis::ProfilePoint>& points() const { return points_; }

 private:
  std::vector<analysis::ProfilePoint> points_;
  /// Volume below each point.
  std::vector<double> volumes_ml_;
  double holds_ml_ = 0;
};

}  // namespace gill::model

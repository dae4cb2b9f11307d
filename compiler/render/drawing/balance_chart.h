#pragma once
#include <optional>
#include <string>
#include <vector>

#include "render/drawing/scene.h"

namespace gill::render::drawing {

/// One drink on the chart: as served, with half the width within which each figure lies.
struct ChartPoint {
  /// What it is called in the key.
  std::string number;
  std::string name;
  double strength_percent = 0, strength_tolerance = 0;
  /// Sugar over acid; nothing where there is next to no acid.
  std::optional<double> balance;
  double balance_tolerance = 0;
  Link link;
};

/// What a family means by itself, a rectangle of the chart; ends may be infinite.
struct ChartArea {
  std::string name;
  double strength_low = 0, strength_high = 0;
  double balance_low = 0, balance_high = 0;
};

/// Strength from left to right, sugar over acid from bottom to top by equal ratios; a strip above for drinks
/// with next to no acid. Points are numbered, and named where there is room; bars show the tolerance,
/// outlines the families.
Scene draw_balance_chart(const std::vector<ChartPoint>& points, const std::vector<ChartArea>& areas);

}  // namespace gill::render::drawing

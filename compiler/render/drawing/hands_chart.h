#pragma once
#include <string>
#include <vector>

#include "render/drawing/scene.h"

/// What was measured beside what was found of it, a row a measurement.
namespace gill::render::drawing {

/// The factor that one measurement speaks for by itself, ±.
struct HandsMark {
  std::string name;
  double factor = 1, error = 0;
  /// Left out, since it lies too far from the others.
  bool is_outlier = false;
};

/// What was found of one step's hands, with the measurements that it rests on.
struct HandsRow {
  std::string name;
  double found = 1, width = 0;
  std::vector<HandsMark> marks;
};

/// Factors from left to right, the usual (1) as a dashed line, what was found as a band as wide as the next
/// drink may lie, every measurement as a dot with its error; what was left out is crossed.
Scene draw_hands_chart(const std::vector<HandsRow>& rows);

}  // namespace gill::render::drawing

#pragma once
#include <vector>

#include "render/drawing/drink_picture.h"

namespace gill::render::drawing {

/// Where a staff stands on the scene: its foot, its height, and the right edge for its labels.
struct StaffPlace {
  double left_mm = 0;
  double ground_mm = 0;
  double height_mm = 0;
  double right_mm = 0;
  /// Labels stay between these.
  double top_limit_mm = 0, bottom_limit_mm = 0;
};

/// The height that the labels of the parts take together.
double height_of_labels_mm(const std::vector<StaffPart>& parts, double label_width_mm);

/// A staff like a surveyor's: the parts of a build one on the other in the order of pouring, dark and light
/// by turns, with a scale in ml on its left and what each part is on its right.
void draw_staff(Scene& scene, const std::vector<StaffPart>& parts, const StaffPlace& place);

}  // namespace gill::render::drawing

#include "render/drawing/scene.h"

#include <algorithm>
#include <string_view>

#include "base/text.h"

namespace gill::render::drawing {

bool Scene::leads_on() const {
  return std::any_of(shapes.begin(), shapes.end(), [](const Shape& shape) {
    const auto* circle = std::get_if<Circle>(&shape);
    return circle && !circle->link.page.empty();
  });
}

Path polyline(const std::vector<Point>& points, bool closed, Paint fill, Line line) {
  Path path;
  path.closed = closed;
  path.fill = std::move(fill);
  path.line = std::move(line);
  if (points.empty()) return path;
  path.from = points.front();
  for (std::size_t i = 1; i < points.size(); ++i) path.segments.push_back({points[i], false, {}, {}});
  return path;
}

Path rectangle(Point corner, double width_mm, double height_mm, Paint fill, Line line) {
  double right = corner.x_mm + width_mm, bottom = corner.y_mm + height_mm;
  return polyline({corner, {right, corner.y_mm}, {right, bottom}, {corner.x_mm, bottom}}, true,
                  std::move(fill), std::move(line));
}

Path straight(Point from, Point to, Line line) {
  return polyline({from, to}, false, Paint::none(), std::move(line));
}

double estimated_width_mm(std::string_view words, double size_mm) {
  // Half an em a letter, a little more than the mean of common sans serif faces: labels never run over.
  constexpr double mean_letter = 0.54;
  return mean_letter * size_mm * static_cast<double>(base::display_width(words));
}

}  // namespace gill::render::drawing

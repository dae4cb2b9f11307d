#include "render/drawing/glass_section.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace gill::render::drawing {
namespace {

// A glass stands on more than its wall: the base of a tumbler is about twice as thick. Common practice, no
// source.
constexpr double base_walls = 2;
// What a stem and a foot look like; a spec says only how long and how wide. Common practice, no source.
constexpr double stem_radius_mm = 3.2;
constexpr double foot_thickness_mm = 2.4;
constexpr double foot_rise_mm = 7;
constexpr double bowl_foot_mm = 6;

double wall_of(const analysis::Glass& glass) { return std::clamp(glass.wall_mm, 0.5, 12.0); }

/// How far the ground is below the inside bottom.
double below_bottom_mm(const analysis::Glass& glass) {
  double base = base_walls * wall_of(glass);
  if (glass.stem_mm > 0) return std::max(glass.stem_mm, base + foot_thickness_mm + 2);
  return glass.foot_mm > 0 ? base + bowl_foot_mm : base;
}

double widest_radius(const analysis::Glass& glass, const model::GlassProfile& profile) {
  double widest = glass.foot_mm / 2;
  for (const auto& point : profile.points())
    widest = std::max(widest, point.diameter_mm / 2 + wall_of(glass));
  return widest;
}

/// Slopes for a cubic through the points that keeps to their order (Fritsch and Carlson's condition, as
/// textbooks of numerical analysis give it).
std::vector<double> monotone_slopes(const std::vector<analysis::ProfilePoint>& points) {
  std::size_t n = points.size();
  std::vector<double> secants, slopes(n);
  for (std::size_t i = 1; i < n; ++i) {
    double high = points[i].height_mm - points[i - 1].height_mm;
    secants.push_back(high > 0 ? (points[i].diameter_mm - points[i - 1].diameter_mm) / 2 / high : 0);
  }
  slopes.front() = secants.front();
  slopes.back() = secants.back();
  for (std::size_t i = 1; i + 1 < n; ++i)
    slopes[i] = secants[i - 1] * secants[i] <= 0 ? 0 : (secants[i - 1] + secants[i]) / 2;
  for (std::size_t i = 0; i + 1 < n; ++i) {
    if (secants[i] == 0) {
      slopes[i] = slopes[i + 1] = 0;
      continue;
    }
    double a = slopes[i] / secants[i], b = slopes[i + 1] / secants[i];
    double size = std::hypot(a, b);
    if (size > 3) {
      slopes[i] = 3 * a / size * secants[i];
      slopes[i + 1] = 3 * b / size * secants[i];
    }
  }
  return slopes;
}

/// One stretch of the cubic at a share `t` of its height: value and slope.
struct OnCurve {
  double radius, slope;
};
OnCurve on_curve(double t, double high, double r0, double r1, double s0, double s1) {
  double t2 = t * t, t3 = t2 * t;
  double radius = (2 * t3 - 3 * t2 + 1) * r0 + (t3 - 2 * t2 + t) * high * s0 + (3 * t2 - 2 * t3) * r1 +
                  (t3 - t2) * high * s1;
  double slope = ((6 * t2 - 6 * t) * r0 + (6 * t - 6 * t2) * r1) / high + (3 * t2 - 4 * t + 1) * s0 +
                 (3 * t2 - 2 * t) * s1;
  return {radius, slope};
}

OnCurve on_profile(const std::vector<analysis::ProfilePoint>& points, const std::vector<double>& slopes,
                   double height_mm) {
  if (height_mm <= points.front().height_mm) return {points.front().diameter_mm / 2, slopes.front()};
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (height_mm > points[i].height_mm && i + 1 < points.size()) continue;
    double high = points[i].height_mm - points[i - 1].height_mm;
    if (high <= 0) continue;
    double t = std::min(1.0, (height_mm - points[i - 1].height_mm) / high);
    return on_curve(t, high, points[i - 1].diameter_mm / 2, points[i].diameter_mm / 2, slopes[i - 1],
                    slopes[i]);
  }
  return {points.back().diameter_mm / 2, slopes.back()};
}

}  // namespace

double GlassSection::scale_for(const analysis::Glass& glass, double max_wide_mm, double max_high_mm) {
  model::GlassProfile profile(glass);
  double wide = 2 * widest_radius(glass, profile), high = profile.height_mm() + below_bottom_mm(glass);
  static constexpr std::array<double, 9> scales = {1, 2, 2.5, 3, 4, 5, 6, 8, 10};
  for (double scale : scales)
    if (wide <= max_wide_mm * scale && high <= max_high_mm * scale) return scale;
  return std::ceil(std::max(wide / max_wide_mm, high / max_high_mm));
}

GlassSection::GlassSection(const analysis::Glass& glass, double scale, double axis_mm, double ground_mm)
    : glass_(glass),
      profile_(glass),
      slopes_(monotone_slopes(profile_.points())),
      scale_(scale),
      axis_(axis_mm),
      bottom_y_(ground_mm - below_bottom_mm(glass) / scale),
      ground_y_(ground_mm) {}

double GlassSection::half_width() const { return widest_radius(glass_, profile_) / scale_; }

double GlassSection::radius_at(double height_mm) const {
  return on_profile(profile_.points(), slopes_, height_mm).radius;
}

double GlassSection::slope_at(double height_mm) const {
  return on_profile(profile_.points(), slopes_, height_mm).slope;
}

Point GlassSection::at(double radius_mm, double height_mm, int side) const {
  return {axis_ + side * radius_mm / scale_, y_at(height_mm)};
}

void GlassSection::add_side(Path& path, double from_mm, double to_mm, int side) const {
  std::vector<double> heights = {from_mm};
  for (const auto& point : profile_.points())
    if (point.height_mm > std::min(from_mm, to_mm) && point.height_mm < std::max(from_mm, to_mm))
      heights.push_back(point.height_mm);
  if (to_mm < from_mm) std::sort(heights.begin() + 1, heights.end(), std::greater<>());
  heights.push_back(to_mm);
  for (std::size_t i = 1; i < heights.size(); ++i) {
    double from = heights[i - 1], to = heights[i], third = (to - from) / 3;
    // The slopes at the ends of this very stretch: at a point the two stretches share one.
    path.segments.push_back({at(radius_at(to), to, side), true,
                             at(radius_at(from) + third * slope_at(from), from + third, side),
                             at(radius_at(to) - third * slope_at(to), to - third, side)});
  }
}

Path GlassSection::filling(double from_mm, double to_mm, Paint fill, Line line) const {
  Path path;
  path.closed = true;
  path.fill = std::move(fill);
  path.line = std::move(line);
  path.from = at(radius_at(from_mm), from_mm, -1);
  add_side(path, from_mm, to_mm, -1);
  path.segments.push_back({at(radius_at(to_mm), to_mm, 1), false, {}, {}});
  add_side(path, to_mm, from_mm, 1);
  return path;
}

/// Inside down one side and up the other, then the outside back: as thick as the wall everywhere.
Path GlassSection::wall() const {
  constexpr int samples = 40;
  double rim = profile_.height_mm(), thick = wall_of(glass_);
  bool stemmed = glass_.stem_mm > 0;
  auto outside = [&](double height, int side) {
    double slope = slope_at(height), length = std::sqrt(1 + slope * slope);
    return at(radius_at(height) + thick / length, height - thick * slope / length, side);
  };
  Path path;
  path.closed = true;
  path.from = at(radius_at(rim), rim, -1);
  add_side(path, rim, 0, -1);
  path.segments.push_back({at(radius_at(0), 0, 1), false, {}, {}});
  add_side(path, 0, rim, 1);
  auto to = [&](Point point) { path.segments.push_back({point, false, {}, {}}); };
  double lowest = -base_walls * thick;
  auto go_round = [&](int side, bool down) {
    for (int i = 0; i <= samples; ++i) {
      double share = static_cast<double>(down ? samples - i : i) / samples;
      // Closer together near the bottom, where it curves most.
      double height = rim * share * share;
      Point point = outside(height, side);
      if (!stemmed) point.y_mm = std::min(point.y_mm, y_at(lowest));
      to(point);
    }
  };
  go_round(1, true);
  double base_radius = stemmed ? stem_radius_mm + 1.5 : radius_at(0) + thick * 0.8;
  to(at(base_radius, lowest, 1));
  to(at(base_radius, lowest, -1));
  go_round(-1, false);
  return path;
}

void GlassSection::draw_stem(Scene& scene, const Paint& fill, const Line& line) const {
  double top = -base_walls * wall_of(glass_), ground = -below_bottom_mm(glass_);
  double foot = std::max(glass_.foot_mm / 2, stem_radius_mm + 4);
  if (glass_.stem_mm <= 0) {
    if (glass_.foot_mm <= 0) return;
    scene.add(polyline(
        {at(foot * 0.94, top, -1), at(foot, ground, -1), at(foot, ground, 1), at(foot * 0.94, top, 1)}, true,
        fill, line));
    return;
  }
  scene.add(stem(top, ground, foot, fill, line));
}

/// From the bowl at `top` down the left of the stem, along under the foot and up its right.
Path GlassSection::stem(double top, double ground, double foot, const Paint& fill, const Line& line) const {
  double rise = std::min(foot_rise_mm, (top - ground) / 3);
  Path path;
  path.closed = true;
  path.fill = fill;
  path.line = line;
  path.from = at(stem_radius_mm + 1.5, top, -1);
  auto curve = [&](Point handle_1, Point handle_2, Point end) {
    path.segments.push_back({end, true, handle_1, handle_2});
  };
  auto side = [&](int which) {
    double waist = (top + ground + rise) / 2;
    std::vector<Point> down = {at(stem_radius_mm + 1.5, top, which),
                               at(stem_radius_mm, top - rise * 0.6, which),
                               at(stem_radius_mm, waist, which),
                               at(stem_radius_mm, waist, which),
                               at(stem_radius_mm, ground + rise * 0.8, which),
                               at(stem_radius_mm, ground + rise * 0.8, which),
                               at(stem_radius_mm + 3, ground + foot_thickness_mm * 1.3, which),
                               at(foot * 0.7, ground + foot_thickness_mm, which),
                               at(foot, ground + foot_thickness_mm * 0.6, which)};
    return down;
  };
  auto left = side(-1), right = side(1);
  path.from = left[0];
  curve(left[1], left[1], left[2]);
  path.segments.push_back({left[5], false, {}, {}});
  curve(left[6], left[7], left[8]);
  path.segments.push_back({at(foot, ground, -1), false, {}, {}});
  path.segments.push_back({at(foot, ground, 1), false, {}, {}});
  path.segments.push_back({right[8], false, {}, {}});
  curve(right[7], right[6], right[5]);
  path.segments.push_back({right[2], false, {}, {}});
  curve(right[1], right[1], right[0]);
  return path;
}

void GlassSection::draw(Scene& scene) const {
  bool opaque = glass_.material != "glass";
  Paint fill = opaque ? Paint::faint() : Paint::paper();
  Line line{Paint::ink(), 0.22, 0};
  draw_stem(scene, fill, line);
  Path outline = wall();
  outline.fill = fill;
  outline.line = line;
  scene.add(std::move(outline));
}

}  // namespace gill::render::drawing

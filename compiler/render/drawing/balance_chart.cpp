#include "render/drawing/balance_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gill::render::drawing {
namespace {

constexpr double width_mm = 200, height_mm = 134;
constexpr double left_mm = 15, right_mm = 197, bottom_mm = 120, top_mm = 20;
// The strip for drinks without acid stands above the scale.
constexpr double strip_mm = 11;
constexpr double dot_mm = 1.9;
constexpr double text_mm = 3;
constexpr double small_mm = 2.7;
// Where more stand, there is no room for names: the numbers and the table tell.
constexpr std::size_t max_named = 400;

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
  bool meets(const Box& other) const {
    return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
  }
};

/// Steps of 1, 2 and 5 that part a span into some six to twelve.
double strength_step(double span) {
  double step = 1;
  for (double next : {2.0, 5.0, 10.0, 20.0})
    if (span / step > 12) step = next;
  return step;
}

class ChartDrawer {
 public:
  ChartDrawer(const std::vector<ChartPoint>& points, const std::vector<ChartArea>& areas)
      : points_(points), areas_(areas) {
    find_ranges();
  }

  Scene draw() {
    scene_.width_mm = width_mm;
    scene_.height_mm = height_mm;
    draw_axes();
    for (const auto& area : areas_) draw_area(area);
    for (const auto& point : points_) draw_bars(point);
    for (const auto& point : points_) reserve_dot(point);
    for (const auto& area : areas_) name_area(area);
    for (const auto& point : points_) draw_point(point);
    return std::move(scene_);
  }

 private:
  void find_ranges() {
    double maximum = 10, low = 2, high = 20;
    for (const auto& point : points_) {
      maximum = std::max(maximum, point.strength_percent + point.strength_tolerance);
      if (!point.balance || *point.balance <= 0) continue;
      low = std::min(low, *point.balance * 0.8);
      high = std::max(high, *point.balance * 1.25);
    }
    max_strength_ = std::ceil((maximum + 0.5) / 5) * 5;
    low_balance_ = std::max(low, 0.05);
    high_balance_ = high;
  }

  double x_of(double strength) const {
    return left_mm + std::clamp(strength / max_strength_, 0.0, 1.0) * (right_mm - left_mm);
  }
  double y_of(double balance) const {
    double share = std::log(std::clamp(balance, low_balance_, high_balance_) / low_balance_) /
                   std::log(high_balance_ / low_balance_);
    return bottom_mm - share * (bottom_mm - top_mm);
  }
  bool has_place(const ChartPoint& point) const { return point.balance && *point.balance > 0; }
  Point place_of(const ChartPoint& point) const {
    return {x_of(point.strength_percent),
            has_place(point) ? y_of(*point.balance) : top_mm - 1.5 - strip_mm / 2};
  }

  void draw_axes() {
    Line line{Paint::ink(), 0.25, 0}, fine{Paint::faint(), 0.15, 0};
    double step = strength_step(max_strength_);
    for (double at = 0; at <= max_strength_ + 1e-9; at += step) {
      double x = x_of(at);
      scene_.add(straight({x, top_mm}, {x, bottom_mm}, fine));
      scene_.add(Text{
          {x, bottom_mm + 4.6}, fmt::format("{:g}", at), small_mm, Anchor::middle, Paint::ink(0.85), false});
    }
    for (double at :
         {0.1, 0.2, 0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 50.0, 100.0, 200.0, 500.0}) {
      if (at < low_balance_ * 0.999 || at > high_balance_ * 1.001) continue;
      double y = y_of(at);
      scene_.add(straight({left_mm, y}, {right_mm, y}, fine));
      scene_.add(Text{
          {left_mm - 1.6, y + 1}, fmt::format("{:g}", at), small_mm, Anchor::end, Paint::ink(0.85), false});
    }
    scene_.add(polyline({{left_mm, top_mm}, {left_mm, bottom_mm}, {right_mm, bottom_mm}}, false,
                        Paint::none(), line));
    scene_.add(Text{
        {right_mm, bottom_mm + 10}, "strength as served, % abv", text_mm, Anchor::end, Paint::ink(), false});
    scene_.add(Text{{left_mm - 12, 4}, "sugar to acid", text_mm, Anchor::start, Paint::ink(), false});
    bool any_without = std::any_of(points_.begin(), points_.end(),
                                   [&](const ChartPoint& point) { return !has_place(point); });
    if (!any_without) return;
    scene_.add(straight({left_mm, top_mm - 1.5}, {right_mm, top_mm - 1.5}, {Paint::ink(0.6), 0.2, 1}));
    write_if_free({left_mm + 1, top_mm - 1.5 - strip_mm / 2 + 1},
                  estimated_width_mm("next to no acid", small_mm), "next to no acid", Paint::ink(0.85));
  }

  /// What of the area is on the chart.
  Box box_of(const ChartArea& area) const {
    return {x_of(std::max(0.0, area.strength_low)), y_of(std::min(area.balance_high, high_balance_)),
            x_of(std::min(area.strength_high, max_strength_)),
            y_of(std::max(area.balance_low, low_balance_))};
  }

  void draw_area(const ChartArea& area) {
    Box box = box_of(area);
    if (box.right - box.left < 1 || box.bottom - box.top < 1) return;
    scene_.add(rectangle({box.left, box.top}, box.right - box.left, box.bottom - box.top, Paint::ink(0.04),
                         {Paint::ink(0.55), 0.2, 0.8}));
  }

  /// The name stands inside a corner, the first that is free, or not at all.
  void name_area(const ChartArea& area) {
    Box box = box_of(area);
    double wide = estimated_width_mm(area.name, small_mm);
    if (wide > box.right - box.left - 1.5 || box.bottom - box.top < 4) return;
    double left = box.left + 0.9, right = box.right - wide - 0.6, high = box.top + 3.1, low = box.bottom - 1;
    for (Point corner : {Point{left, high}, Point{left, low}, Point{right, low}, Point{right, high}})
      if (write_if_free(corner, wide, area.name, Paint::ink(0.8))) return;
  }

  /// Writes a name at a place, unless something stands there.
  bool write_if_free(Point start, double wide, const std::string& name, const Paint& paint) {
    Box box{start.x_mm, start.y_mm - small_mm, start.x_mm + 1.04 * wide + 0.6, start.y_mm + 0.6};
    if (box.left < left_mm || box.right > right_mm + 2 || !is_free(box)) return false;
    taken_.push_back(box);
    scene_.add(Text{start, name, small_mm, Anchor::start, paint, false});
    return true;
  }

  void draw_bars(const ChartPoint& point) {
    auto at = place_of(point);
    Line line{Paint::ink(0.6), 0.2, 0};
    double from = x_of(point.strength_percent - point.strength_tolerance),
           to = x_of(point.strength_percent + point.strength_tolerance);
    if (to - from > 2 * dot_mm) scene_.add(straight({from, at.y_mm}, {to, at.y_mm}, line));
    if (!has_place(point)) return;
    double low = y_of(std::max(*point.balance - point.balance_tolerance, low_balance_));
    double high = y_of(*point.balance + point.balance_tolerance);
    if (low - high > 2 * dot_mm) scene_.add(straight({at.x_mm, low}, {at.x_mm, high}, line));
  }

  void reserve_dot(const ChartPoint& point) {
    auto at = place_of(point);
    taken_.push_back({at.x_mm - dot_mm, at.y_mm - dot_mm, at.x_mm + dot_mm, at.y_mm + dot_mm});
  }

  void draw_point(const ChartPoint& point) {
    auto at = place_of(point);
    scene_.add(Circle{at, dot_mm, Paint::paper(), {Paint::ink(), 0.3, 0}, point.link});
    scene_.add(Text{{at.x_mm, at.y_mm + 0.85}, point.number, 2.4, Anchor::middle, Paint::ink(), true});
    if (points_.size() > max_named) return;
    double wide = estimated_width_mm(point.name, small_mm), middle = at.x_mm - wide / 2;
    double right = at.x_mm + dot_mm + 0.8, left = at.x_mm - dot_mm - 0.8 - wide, level = at.y_mm + 0.9;
    for (Point start : {Point{right, level}, Point{left, level}, Point{middle, at.y_mm - dot_mm - 0.9},
                        Point{middle, at.y_mm + dot_mm + 2.7}})
      if (write_if_free(start, wide, point.name, Paint::ink())) return;
  }

  bool is_free(const Box& box) const {
    return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) { return box.meets(other); });
  }

  const std::vector<ChartPoint>& points_;
  const std::vector<ChartArea>& areas_;
  Scene scene_;
  double max_strength_ = 10, low_balance_ = 1, high_balance_ = 20;
  std::vector<Box> taken_;
};

}  // namespace

Scene draw_balance_chart(const std::vector<ChartPoint>& points, const std::vector<ChartArea>& areas) {
  return ChartDrawer(points, areas).draw();
}

}  // namespace gill::render::drawing

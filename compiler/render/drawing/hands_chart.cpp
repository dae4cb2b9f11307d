#include "render/drawing/hands_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gill::render::drawing {
namespace {

constexpr double chart_width_mm = 180, chart_left_mm = 62, chart_right_mm = 174;
constexpr double mark_height_mm = 6, row_gap_mm = 4, head_mm = 8, foot_mm = 14;
constexpr double mark_mm = 1.3, chart_text_mm = 3, chart_small_mm = 2.7;

class HandsDrawer {
 public:
  explicit HandsDrawer(const std::vector<HandsRow>& rows) : rows_(rows) {
    double farthest = 0.2;
    for (const auto& row : rows_) {
      farthest =
          std::max({farthest, std::abs(row.found + row.width - 1), std::abs(row.found - row.width - 1)});
      for (const auto& mark : row.marks)
        farthest = std::max(farthest, std::abs(mark.factor - 1) + mark.error);
    }
    // What lies farther than twice the usual stands at the edge: the table tells its number.
    half_ = std::min(std::ceil(farthest * 10 + 0.5) / 10, 1.0);
  }

  Scene draw() {
    scene_.width_mm = chart_width_mm;
    double y = head_mm;
    for (const auto& row : rows_) y = draw_row(row, y) + row_gap_mm;
    bottom_mm_ = y;
    draw_scale();
    scene_.height_mm = bottom_mm_ + foot_mm;
    return std::move(scene_);
  }

 private:
  double x_of(double factor) const {
    double share = std::clamp((factor - (1 - half_)) / (2 * half_), 0.0, 1.0);
    return chart_left_mm + share * (chart_right_mm - chart_left_mm);
  }

  double draw_row(const HandsRow& row, double top) {
    const double height = mark_height_mm * (static_cast<double>(row.marks.size()) + 1);
    const double left = x_of(row.found - row.width), right = x_of(row.found + row.width);
    scene_.add(rectangle({left, top}, right - left, height, Paint::ink(0.1), {Paint::none(), 0, 0}));
    scene_.add(straight({x_of(row.found), top}, {x_of(row.found), top + height}, {Paint::ink(), 0.4, 0}));
    double y = top + mark_height_mm / 2;
    scene_.add(Text{{1, y + 1}, row.name, chart_text_mm, Anchor::start, Paint::ink(), true});
    for (const auto& mark : row.marks) draw_mark(mark, y += mark_height_mm);
    return top + height;
  }

  void draw_mark(const HandsMark& mark, double y) {
    const double x = x_of(mark.factor);
    const Line line{Paint::ink(0.7), 0.25, 0};
    scene_.add(Text{{1, y + 1}, mark.name, chart_small_mm, Anchor::start, Paint::ink(0.85), false});
    scene_.add(straight({x_of(mark.factor - mark.error), y}, {x_of(mark.factor + mark.error), y}, line));
    if (mark.is_outlier) {
      scene_.add(straight({x - mark_mm, y - mark_mm}, {x + mark_mm, y + mark_mm}, {Paint::ink(), 0.4, 0}));
      scene_.add(straight({x - mark_mm, y + mark_mm}, {x + mark_mm, y - mark_mm}, {Paint::ink(), 0.4, 0}));
    } else {
      scene_.add(Circle{{x, y}, mark_mm, Paint::ink(), {Paint::none(), 0, 0}, {}});
    }
  }

  void draw_scale() {
    const Line fine{Paint::faint(), 0.15, 0};
    const double step = half_ > 0.5 ? 0.25 : 0.1;
    for (double at = std::ceil((1 - half_) / step - 1e-9) * step; at <= 1 + half_ + 1e-9; at += step) {
      bool is_usual = std::abs(at - 1) < 1e-9;
      scene_.add(straight({x_of(at), head_mm}, {x_of(at), bottom_mm_},
                          is_usual ? Line{Paint::ink(0.8), 0.3, 1} : fine));
      scene_.add(Text{{x_of(at), bottom_mm_ + 4.4},
                      fmt::format("{:.3g}", std::abs(at) < 1e-9 ? 0.0 : at),
                      chart_small_mm,
                      Anchor::middle,
                      Paint::ink(0.85),
                      is_usual});
    }
    scene_.add(straight({chart_left_mm, bottom_mm_}, {chart_right_mm, bottom_mm_}, {Paint::ink(), 0.25, 0}));
    scene_.add(Text{{chart_right_mm, bottom_mm_ + 10},
                    "times the usual",
                    chart_text_mm,
                    Anchor::end,
                    Paint::ink(),
                    false});
  }

  const std::vector<HandsRow>& rows_;
  Scene scene_;
  double half_ = 0.5, bottom_mm_ = 0;
};

}  // namespace

Scene draw_hands_chart(const std::vector<HandsRow>& rows) { return HandsDrawer(rows).draw(); }

}  // namespace gill::render::drawing

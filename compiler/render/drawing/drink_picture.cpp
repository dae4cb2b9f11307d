#include "render/drawing/drink_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "render/drawing/glass_section.h"
#include "render/drawing/ice_pieces.h"
#include "render/drawing/measuring_staff.h"
#include "render/wording/numbers.h"

namespace gill::render::drawing {
namespace {

// How a picture is laid out, mm. It is 100 mm wide with its staff in the book: at a phone's width a letter
// of 3.3 mm is then still read with ease.
constexpr double margin_mm = 3;
constexpr double glass_left_mm = 10, right_of_glass_mm = 5;
constexpr double gap_to_staff_mm = 9, staff_wide_mm = 37;
constexpr double min_staff_mm = 48;
constexpr std::string_view foam_colour = "#f7f1e1";

std::string colour_or_water(const std::string& colour) { return colour.empty() ? "#eef1ee" : colour; }

class DrinkDrawer {
 public:
  DrinkDrawer(const DrinkPicture& picture, const Room& room)
      : picture_(picture),
        room_(room),
        glass_right_mm_(glass_left_mm + room.glass_wide_mm),
        staff_left_mm_(glass_right_mm_ + gap_to_staff_mm),
        scene_width_mm_(room.with_staff ? staff_left_mm_ + staff_wide_mm
                                        : glass_right_mm_ + right_of_glass_mm) {}

  DrawnPicture draw() {
    double scale = GlassSection::scale_for(*picture_.glass, room_.glass_wide_mm, room_.glass_high_mm);
    drawn_.scale = scale;
    model::GlassProfile profile(*picture_.glass);
    measure(profile);
    // Ice may stand over the rim.
    double over_rim = picture_.ice && picture_.in_glass.ice_g > 0 ? 22 / scale : 4 / scale;
    GlassSection upright(*picture_.glass, scale, 0, 0);
    bool has_staff = room_.with_staff && !picture_.parts.empty();
    double label_room = scene_width_mm_ - staff_left_mm_ - 3.2;
    double labels = has_staff ? height_of_labels_mm(picture_.parts, label_room) : 0;
    double staff = !has_staff ? 0 : std::max(min_staff_mm, std::min(upright.height(), 72.0));
    double high = std::max({upright.height() + over_rim, staff + 5, labels});
    auto& scene = drawn_.scene;
    scene.width_mm = scene_width_mm_;
    scene.height_mm = high + 2 * margin_mm;
    double ground = scene.height_mm - margin_mm;
    GlassSection glass(*picture_.glass, scale, (glass_left_mm + glass_right_mm_) / 2, ground);
    scene.add(straight({glass_left_mm - 4, ground}, {glass_right_mm_ + 2, ground}, {Paint::faint(), 0.2, 0}));
    draw_contents(glass);
    glass.draw(scene);
    draw_line_mark(glass, profile);
    draw_level_mark(glass);
    if (has_staff)
      draw_staff(scene, picture_.parts,
                 {staff_left_mm_, ground - 1, staff, scene_width_mm_ - 0.5, margin_mm, ground});
    return std::move(drawn_);
  }

 private:
  void measure(const model::GlassProfile& profile) {
    const auto& in = picture_.in_glass;
    surface_mm_ = profile.height_of_ml(in.liquid_ml + in.ice_below_ml);
    drawn_.level_mm = profile.height_of_ml(in.level_ml);
    drawn_.rim_mm = profile.height_mm();
    drawn_.over_the_rim = in.level_ml > profile.holds_ml() * 1.001;
  }

  /// The liquid in its layers, the foam on it, the ice in it.
  void draw_contents(const GlassSection& glass) {
    auto& scene = drawn_.scene;
    if (picture_.in_glass.liquid_ml <= 0) return;
    double poured = 0, all = 0, from = 0;
    for (const auto& layer : picture_.layers) all += layer.volume_ml;
    for (std::size_t i = 0; i < picture_.layers.size(); ++i) {
      poured += picture_.layers[i].volume_ml;
      double share = all > 0 ? poured / all : 1;
      double volume = share * (picture_.in_glass.liquid_ml + picture_.in_glass.ice_below_ml);
      double to = i + 1 == picture_.layers.size()
                      ? surface_mm_
                      : std::min(surface_mm_, glass.profile().height_of_ml(volume));
      if (to <= from) continue;
      scene.add(glass.filling(from, to, Paint::of(colour_or_water(picture_.layers[i].colour)),
                              {Paint::ink(0.8), 0.18, 0}));
      from = to;
    }
    if (picture_.in_glass.foam_ml > 0.5 && drawn_.level_mm > surface_mm_ + 0.5) draw_foam(glass);
    if (picture_.ice) draw_ice(scene, glass, *picture_.ice, picture_.in_glass, surface_mm_);
  }

  void draw_foam(const GlassSection& glass) {
    auto& scene = drawn_.scene;
    scene.add(glass.filling(surface_mm_, drawn_.level_mm, Paint::of(std::string(foam_colour)),
                            {Paint::ink(0.8), 0.18, 0}));
    // Bubbles, smaller towards the top.
    double step = 2.1 * glass.scale();
    unsigned row = 0;
    for (double height = surface_mm_ + step * 0.5; height < drawn_.level_mm - step * 0.3;
         height += step * 0.8, ++row) {
      double half = glass.half_width_at(height) - 1.2;
      double radius = std::max(0.28, 0.55 - 0.09 * row);
      for (double x = -half + (row % 2 == 0 ? 0 : 1.05); x <= half; x += 2.1)
        scene.add(Circle{
            {glass.axis() + x, glass.y_at(height)}, radius, Paint::none(), {Paint::ink(0.5), 0.12, 0}});
    }
  }

  /// A bracket beside the glass from the lower to the upper end of its line.
  void draw_line_mark(const GlassSection& glass, const model::GlassProfile& profile) {
    const auto& line = picture_.glass->line;
    if (!line) return;
    double ice = picture_.in_glass.ice_below_ml;
    auto height = [&](double ml) {
      return profile.height_of_ml(std::clamp(ml + ice, 0.0, profile.holds_ml()));
    };
    double low = height(std::isfinite(line->low) ? line->low : line->number());
    double high = height(std::isfinite(line->high) ? line->high : line->number());
    double x = glass.axis() - glass.half_width() - 2.2;
    double top = glass.y_at(high), bottom = glass.y_at(low);
    Line thin{Paint::ink(), 0.25, 0};
    auto& scene = drawn_.scene;
    if (bottom - top < 0.4) {
      scene.add(straight({x, top}, {x + 1.6, top}, thin));
    } else {
      scene.add(
          polyline({{x + 1.4, top}, {x, top}, {x, bottom}, {x + 1.4, bottom}}, false, Paint::none(), thin));
    }
    scene.add(Text{{x - 0.9, (top + bottom) / 2 + 1}, "line", 2.7, Anchor::end, Paint::ink(), false});
    for (double mark : {low, high}) {
      double half = glass.half_width_at(mark);
      scene.add(straight({glass.axis() - half, glass.y_at(mark)}, {glass.axis() + half, glass.y_at(mark)},
                         {Paint::ink(0.55), 0.18, 1}));
    }
  }

  /// A small wedge at the level, right of the glass.
  void draw_level_mark(const GlassSection& glass) {
    if (picture_.in_glass.level_ml <= 0) return;
    double y = glass.y_at(drawn_.level_mm), x = glass.axis() + glass.half_width_at(drawn_.level_mm) + 2;
    drawn_.scene.add(polyline({{x, y}, {x + 2.2, y - 1.1}, {x + 2.2, y + 1.1}}, true, Paint::ink(), {}));
  }

  const DrinkPicture& picture_;
  Room room_;
  double glass_right_mm_, staff_left_mm_, scene_width_mm_;
  DrawnPicture drawn_;
  double surface_mm_ = 0;
};

}  // namespace

DrawnPicture draw_drink(const DrinkPicture& picture, const Room& room) {
  return DrinkDrawer(picture, room).draw();
}

DrawnPicture draw_glass(const analysis::Glass& glass) {
  DrawnPicture drawn;
  double scale = std::max(2.0, GlassSection::scale_for(glass, 36, 60));
  GlassSection upright(glass, scale, 0, 0);
  auto& scene = drawn.scene;
  scene.width_mm = std::max(44.0, 2 * upright.half_width() + 18);
  scene.height_mm = upright.height() + 6;
  double ground = scene.height_mm - 2;
  GlassSection section(glass, scale, scene.width_mm / 2 + 3, ground);
  section.draw(scene);
  drawn.scale = scale;
  drawn.rim_mm = section.profile().height_mm();
  if (!glass.line) return drawn;
  constexpr double letter_mm = 2.6;
  double lowest_base = scene.height_mm;
  for (double ml : {glass.line->low, glass.line->high}) {
    if (!std::isfinite(ml)) continue;
    double height = section.profile().height_of_ml(ml), half = section.half_width_at(height),
           y = section.y_at(height);
    scene.add(straight({section.axis() - half, y}, {section.axis() + half, y}, {Paint::ink(), 0.2, 1}));
    // The upper figure keeps clear of the lower where the lines are close.
    double base_line = std::min(y + 0.9, lowest_base - letter_mm * 1.1);
    lowest_base = base_line;
    scene.add(Text{{section.axis() - section.half_width() - 1.2, base_line},
                   wording::trimmed(ml, 0),
                   letter_mm,
                   Anchor::end,
                   Paint::ink(),
                   false});
  }
  return drawn;
}

}  // namespace gill::render::drawing

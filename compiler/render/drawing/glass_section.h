#pragma once
#include "analysis/specs.h"
#include "model/glass_profile.h"
#include "render/drawing/scene.h"

namespace gill::render::drawing {

/// A glass cut through the middle, placed on a page: heights are life-size millimetres over the inside
/// bottom, the scene is smaller by a whole or half number.
class GlassSection {
 public:
  /// The largest of the usual drawing scales (1:1, 1:2, 1:2.5, 1:3 …) at which the glass fits.
  static double scale_for(const analysis::Glass& glass, double max_wide_mm, double max_high_mm);

  /// `axis_mm` is where the middle stands, `ground_mm` where the foot does, both on the scene.
  GlassSection(const analysis::Glass& glass, double scale, double axis_mm, double ground_mm);

  const model::GlassProfile& profile() const { return profile_; }
  double scale() const { return scale_; }
  /// On the scene: the place of a height, and half the inside width there.
  double y_at(double height_mm) const { return bottom_y_ - height_mm / scale_; }
  double half_width_at(double height_mm) const { return radius_at(height_mm) / scale_; }
  double axis() const { return axis_; }
  double rim_y() const { return y_at(profile_.height_mm()); }
  /// Half the width of the whole glass on the scene, and its height over the ground.
  double half_width() const;
  double height() const { return ground_y_ - rim_y(); }

  /// What stands between two heights: a liquid, a layer, a foam.
  Path filling(double from_mm, double to_mm, Paint fill, Line line) const;
  /// The wall, the stem and the foot.
  void draw(Scene& scene) const;

 private:
  double radius_at(double height_mm) const;
  double slope_at(double height_mm) const;
  Point at(double radius_mm, double height_mm, int side) const;
  void add_side(Path& path, double from_mm, double to_mm, int side) const;
  Path wall() const;
  void draw_stem(Scene& scene, const Paint& fill, const Line& line) const;
  Path stem(double top, double ground, double foot, const Paint& fill, const Line& line) const;

  const analysis::Glass& glass_;
  model::GlassProfile profile_;
  /// The slope of the inside at every point of the profile: smooth between them, and never wider than they
  /// are.
  std::vector<double> slopes_;
  double scale_ = 1, axis_ = 0, bottom_y_ = 0, ground_y_ = 0;
};

}  // namespace gill::render::drawing

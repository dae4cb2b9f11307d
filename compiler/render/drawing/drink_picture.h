#pragma once
#include <string>
#include <vector>

#include "analysis/specs.h"
#include "model/facts.h"
#include "render/drawing/scene.h"

namespace gill::render::drawing {

/// One part of a build on the measuring staff.
struct StaffPart {
  std::string amount;
  std::string name;
  double volume_ml = 0;
  /// Water that the ice gives; drawn apart from what is poured.
  bool is_melt = false;
};

/// A layer of a drink from the bottom up.
struct Layer {
  double volume_ml = 0;
  /// `#rrggbb`.
  std::string colour;
};

struct DrinkPicture {
  std::string name;
  const analysis::Glass* glass = nullptr;
  /// Null for a drink served up.
  const analysis::Ice* ice = nullptr;
  model::InGlass in_glass;
  /// The drink below its floats first; one layer where there are none.
  std::vector<Layer> layers;
  std::vector<StaffPart> parts;
};

struct DrawnPicture {
  Scene scene;
  double scale = 1;
  /// How high the drink stands over the inside bottom.
  double level_mm = 0;
  double rim_mm = 0;
  bool over_the_rim = false;
};

/// The room that a picture has. What it gives by itself suits a page of the book.
struct Room {
  /// How large the glass may become, mm.
  double glass_wide_mm = 44;
  double glass_high_mm = 88;
  /// False for the glass alone; the scene is then narrower.
  bool with_staff = true;
};

/// The drink in its glass, cut through the middle and to scale, at the level it comes to, with the glass's
/// line; beside it a measuring staff with the parts of the build.
DrawnPicture draw_drink(const DrinkPicture& picture, const Room& room = {});

/// An empty glass with its line.
DrawnPicture draw_glass(const analysis::Glass& glass);

}  // namespace gill::render::drawing

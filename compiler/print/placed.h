#pragma once
#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include "print/type.h"
#include "print/typesetter.h"
#include "render/drawing/scene.h"

/// What stands on a face of a card or a label, before it is drawn. Points from the top left corner.
namespace gill::print {

struct PlacedText {
  ShapedText text;
  double left = 0, top = 0;
};

struct PlacedRule {
  double left = 0, top = 0, right = 0, bottom = 0;
  double thickness = 0.5;
  Ink ink = inks::text;
  /// Length of dashes and gaps; 0 for a full line.
  double dash = 0;
};

struct PlacedPanel {
  double left = 0, top = 0, width = 0, height = 0;
  std::optional<Ink> fill;
  double thickness = 0;
  Ink ink = inks::text;
  double dash = 0;
};

struct PlacedPicture {
  std::shared_ptr<const render::drawing::Scene> scene;
  double left = 0, top = 0;
  /// How much larger than the scene says.
  double scale = 1;
};

using Placed = std::variant<PlacedText, PlacedRule, PlacedPanel, PlacedPicture>;

/// Moves everything by so much.
inline void move(std::vector<Placed>& all, double right, double down) {
  for (auto& placed : all)
    std::visit(
        [&](auto& part) {
          part.left += right;
          part.top += down;
          if constexpr (requires { part.bottom; }) {
            part.right += right;
            part.bottom += down;
          }
        },
        placed);
}

}  // namespace gill::print

#pragma once
#include "model/facts.h"
#include "render/drawing/glass_section.h"

namespace gill::render::drawing {

/// Draws the ice that stands in a glass: single pieces at their size, heaps as the pieces that a cut would
/// meet. `surface_mm` is the height of the liquid over the inside bottom.
void draw_ice(Scene& scene, const GlassSection& glass, const analysis::Ice& ice,
              const model::InGlass& in_glass, double surface_mm);

}  // namespace gill::render::drawing

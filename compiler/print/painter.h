#pragma once
#include <cairo.h>

#include "print/placed.h"

namespace gill::print {

/// Draws what was placed, from the corner at which the context stands.
void paint(cairo_t* context, const Typesetter& typesetter, const std::vector<Placed>& all);

/// Draws a scene, the book's pictures, so many times as large as it says.
void paint_scene(cairo_t* context, const Typesetter& typesetter, const render::drawing::Scene& scene,
                 double left, double top, double scale);

}  // namespace gill::print

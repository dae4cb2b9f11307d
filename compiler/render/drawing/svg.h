#pragma once
#include <string>

#include "render/drawing/scene.h"

namespace gill::render::drawing {

enum class SvgUse : std::uint8_t {
  on_page,     ///< inside HTML: ink and paper are the page's
  standalone,  ///< a file of its own, with ink and paper of its own for light and dark
};

/// The scene as SVG 1.1, one viewBox unit a millimetre. `id` sets the ids of its title and description apart.
std::string to_svg(const Scene& scene, SvgUse use, const std::string& id);

}  // namespace gill::render::drawing

#pragma once
#include <string>

#include "render/drawing/scene.h"

namespace gill::render::drawing {

enum class SvgUse : std::uint8_t {
  on_page,     ///< inside HTML: ink and paper are the page's
  standalone,  ///< a file of its own, with ink and paper of its own for light and dark
};

/// The scene as SVG 1.1, one viewBox unit a millimetre. `id` sets the ids of its title and description apart.
/// On a page, marks that lead somewhere are links, `root` being the way to the book's root; in a file of its
/// own nothing can be followed.
std::string to_svg(const Scene& scene, SvgUse use, const std::string& id, const std::string& root = {});

}  // namespace gill::render::drawing

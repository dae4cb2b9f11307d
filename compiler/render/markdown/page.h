#pragma once
#include <string>
#include <vector>

#include "render/document/document.h"

namespace gill::render::markdown {

/// A picture that a page shows: its path in the book and the scene.
struct Picture {
  std::string path;
  const drawing::Scene* scene;
};

struct WrittenPage {
  std::string text;
  /// They stand beside the page, as SVG.
  std::vector<Picture> pictures;
};

/// A page as CommonMark with the tables of GitHub Flavored Markdown. It reads well raw.
WrittenPage to_markdown(const document::Page& page, const document::Frame& frame);

}  // namespace gill::render::markdown

#pragma once
#include <cstdint>
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

enum class Tables : std::uint8_t {
  as_tables,  ///< the tables of GitHub Flavored Markdown
  as_lists,   ///< an item a row: CommonMark knows no tables
};

/// A page as CommonMark. It reads well raw.
WrittenPage to_markdown(const document::Page& page, const document::Frame& frame,
                        Tables tables = Tables::as_tables);

}  // namespace gill::render::markdown

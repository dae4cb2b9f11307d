#pragma once
#include <string>
#include <vector>

#include "render/document/document.h"

/// Pages of the book as an editor shows them in a small window.
namespace gill::editor {

/// The section of that name with all that is in it, wherever it stands among the blocks; null where none is.
const render::document::Section* find_section(const std::vector<render::document::Block>& blocks,
                                              const std::string& name);
/// The group of that name; null where none is.
const render::document::Group* find_group(const std::vector<render::document::Block>& blocks,
                                          const std::string& name);

/// What a small window can show beside words.
enum class Pictures : std::uint8_t {
  left_out,
  inside  ///< in the text itself, as `data:` addresses (RFC 2397)
};

/// The page in Markdown, its title as a heading of the third rank, without links to pages that only a book
/// has.
std::string small_markdown(render::document::Page page, Pictures pictures = Pictures::left_out);

}  // namespace gill::editor

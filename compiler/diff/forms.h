#pragma once
#include <string>

#include "diff/json.h"
#include "diff/page.h"

namespace gill::diff {

/// For a terminal.
std::string to_text(const render::document::Page& page, bool colour);

/// As CommonMark with the tables of GitHub Flavored Markdown, for a message.
std::string to_markdown(const render::document::Page& page);

/// As one HTML file in the book's look that asks for nothing from outside.
std::string to_html(const render::document::Page& page, const std::string& house);

}  // namespace gill::diff

#pragma once
#include <string>

#include "render/document/document.h"

namespace gill::plan {

/// A page as plain text for a terminal.
std::string page_text(const render::document::Page& page, const render::document::Frame& frame);

/// A page as HTML that stands on its own: the book's look inside it, and no links out of it.
std::string page_alone(const render::document::Page& page, const render::document::Frame& frame);

}  // namespace gill::plan

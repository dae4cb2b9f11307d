#pragma once
#include <string>

#include "render/document/document.h"

namespace gill::render::terminal {

/// A page as plain text for a terminal.
std::string page_text(const render::document::Page& page, const render::document::Frame& frame);

}  // namespace gill::render::terminal

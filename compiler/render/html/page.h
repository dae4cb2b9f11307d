#pragma once
#include <string>

#include "render/document/document.h"

namespace gill::render::html {

/// A page as HTML 5, on its own but for `book.css` at the book's root. Nothing in it asks for anything from outside.
std::string to_html(const document::Page& page, const document::Frame& frame);

/// The style sheet of the book.
std::string_view book_css();

}  // namespace gill::render::html

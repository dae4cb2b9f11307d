#pragma once
#include <string>

#include "render/document/document.h"

namespace gill::render::html {

/// What a page that stands in one file may run and ask for: nothing (Content Security Policy Level 3, W3C). A
/// text that became markup by a mistake of ours would still run nothing. Of style nothing is said: it stands
/// in the page.
std::string policy_of_one_file();

/// A page as HTML 5, on its own but for `book.css` at the book's root. Nothing in it asks for anything from
/// outside.
std::string to_html(const document::Page& page, const document::Frame& frame);

/// The same page as a file of its own: its style sheet inside, no way to other pages.
std::string to_html_alone(const document::Page& page, const document::Frame& frame);

}  // namespace gill::render::html

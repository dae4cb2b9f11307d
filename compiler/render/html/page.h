#pragma once
#include <string>
#include <string_view>

#include "render/document/document.h"

namespace gill::render::html {

/// What a page that stands in one file may run and ask for: nothing (Content Security Policy Level 3, W3C). A
/// text that became markup by a mistake of ours would still run nothing. Of style nothing is said: it stands
/// in the page.
inline constexpr std::string_view policy_of_one_file =
    "<meta http-equiv=\"Content-Security-Policy\" content=\"script-src 'none'; connect-src 'none'; img-src "
    "data:; "
    "font-src 'none'; media-src 'none'; object-src 'none'; frame-src 'none'; worker-src 'none'; base-uri "
    "'none'; "
    "form-action 'none'\">\n";

/// A page as HTML 5, on its own but for `book.css` at the book's root. Nothing in it asks for anything from
/// outside.
std::string to_html(const document::Page& page, const document::Frame& frame);

/// The same page as a file of its own: its style sheet inside, no way to other pages.
std::string to_html_alone(const document::Page& page, const document::Frame& frame);

}  // namespace gill::render::html

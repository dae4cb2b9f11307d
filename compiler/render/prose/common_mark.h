#pragma once
#include <string>
#include <string_view>

/// CommonMark that people wrote in their specs, made fit for a page. Raw HTML becomes plain text, pictures
/// become links (a page asks for nothing from outside), links lead to http, https, mailto or a page of their
/// own only, and headings stand below those of the page.
namespace gill::render::prose {

/// As HTML. `heading_level` is the level that a first-order heading of the text takes.
std::string to_html(std::string_view text, int heading_level);

/// As CommonMark again, written out evenly.
std::string to_markdown(std::string_view text, int heading_level);

/// The words alone, on one line: for summaries and titles.
std::string to_plain_text(std::string_view text);

/// True for a link that may stand on a page.
bool is_harmless_link(std::string_view url);

}  // namespace gill::render::prose

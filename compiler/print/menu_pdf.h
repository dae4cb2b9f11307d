#pragma once
#include <optional>
#include <string>

#include "render/document/document.h"

namespace gill::print {

/// A guests' menu (`render::document::guest_menu_page`) in print: A4 sheets to fold or to stand on a table, a
/// drink never parted from its allergens, prices on the right. What a mark beside a drink means stands at the
/// foot of the page that the drink is on, the other notices at the end. `compact`: two columns, in type that
/// brings it onto two pages where that can still be read. In both the type is a little smaller where a last
/// page would hold next to nothing. Nothing when it cannot be drawn. The same page gives the same bytes where
/// the faces of type are the same.
std::optional<std::string> menu_pdf(const render::document::Page& page, const render::document::Frame& frame,
                                    bool compact = false);

}  // namespace gill::print

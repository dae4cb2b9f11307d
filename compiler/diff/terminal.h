#pragma once
#include <string>
#include <vector>

#include "render/document/document.h"

namespace gill::diff {

/// A page as text for a terminal, to be read from top to bottom: headings underlined, tables in columns, what
/// must not be missed with a mark at every line. Pictures are left out. `colour` makes headings and warnings
/// bold and changes no word.
std::string to_terminal(const render::document::Page& page, const std::vector<std::string>& foot,
                        bool colour);

}  // namespace gill::diff

#pragma once
#include "diff/changes.h"
#include "render/document/document.h"

namespace gill::diff {

/// `160.00 EUR a bowl`, `no price`.
std::string price_words(const MenuLine& line);

/// What changed on one menu: its own lines, then each drink that came, went, moved or costs otherwise.
render::document::Section menu_section(const MenuChange& menu, std::string name);
/// A menu as it is written: its own lines, then each drink with its place and price.
render::document::Section written_menu(const MenuChange& menu, std::string name);

}  // namespace gill::diff

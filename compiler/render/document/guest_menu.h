#pragma once
#include "render/document/book_index.h"

namespace gill::render::document {

/// The guests' menu: each drink with its price, its guest line and its allergens in words with the way they
/// come by; what is served raw is disclosed beside the drink, and the reminder stands below. It leads
/// nowhere: a guest has no book. Prices stand in one form, with the currency's sign. `compact`: allergens in
/// one line without the way. `menu` is an index into `Specs::menus`. Drinks without a page (drafts,
/// retired ones) are left out.
Page guest_menu_page(const BookIndex& index, std::size_t menu, bool compact = false);

/// What stands below the guests' menu: the standing lines and the house's own notices.
Frame guest_menu_frame(const BookIndex& index);

/// The drinks of a menu that `guest_menu_page` leaves out, by name.
std::vector<std::string> left_off_guest_menu(const BookIndex& index, std::size_t menu);

}  // namespace gill::render::document

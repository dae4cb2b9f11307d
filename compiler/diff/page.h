#pragma once
#include "diff/changes.h"
#include "diff/staff_sheet.h"
#include "render/document/book_index.h"
#include "render/document/document.h"

namespace gill::diff {

/// What is drawn and told in full on a page that shows both sides next to each other.
struct BothBooks {
  const render::document::BookIndex& before;
  const render::document::BookIndex& after;
};

/// The changes as a page, allergens gained first. Without `books` only what differs is told; with them every
/// changed build stands there whole, old and new side by side, each with its drink in the glass.
render::document::Page change_page(const Changes& changes, const BothBooks* books);

/// Every declaration that `changes` adds or changes by its own lines, told as it is written, without what it
/// comes to: what git compares of a file.
render::document::Page whole_page(const Changes& changes);

/// The retraining sheet as a page.
render::document::Page staff_page(const StaffSheet& sheet);

/// Who gains allergens, or may, or of whom they are not known any more; without blocks when there is nobody.
render::document::Notice alert_notice(const std::vector<AllergenAlert>& alerts);

/// What could not be compared; without blocks when there is nothing.
render::document::Notice error_notice(const std::vector<NotCompared>& not_compared);

/// The two sides as a reader knows them: by the menus that run last where those differ, else by what the
/// sides are called.
std::string sides_in_words(const Changes& changes);

/// The lines that stand at the end of every page.
std::vector<std::string> standing_lines();

}  // namespace gill::diff

#pragma once
#include <vector>

#include "diff/changes.h"
#include "diff/matching.h"
#include "diff/snapshot.h"

/// What guests get on either side: what is approved, and where menus say what is on, what stands on one that
/// runs.
namespace gill::diff {

/// True for a drink of the house that is no draft and not retired.
inline bool is_approved(const analysis::Drink& drink) {
  return drink.status == analysis::Status::approved && !drink.head.from_library;
}

/// The menu that runs last; null without one.
const analysis::Menu* last_menu(const analysis::Specs& specs);

Served served_drinks(const Snapshot& before, const Snapshot& after, const std::vector<Match>& drinks);

}  // namespace gill::diff

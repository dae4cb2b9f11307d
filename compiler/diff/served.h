#pragma once
#include <set>
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

/// By menu of either side: it comes, goes or runs on other days. One of the same name and days on both sides
/// (for a room service, say) stays, and makes no season.
struct SeasonMenus {
  std::vector<bool> before, after;
};
SeasonMenus season_menus(const analysis::Specs& before, const analysis::Specs& after);

/// The drinks that a menu of the season prices on both sides.
std::set<Identity> drinks_on_season(const Snapshot& before, const Snapshot& after, const Matching& matching,
                                    const SeasonMenus& season);

/// Of the season's menus the one that runs last, else of all; null without one.
const analysis::Menu* last_menu(const analysis::Specs& specs, const std::vector<bool>& is_of_season);

Served served_drinks(const Snapshot& before, const Snapshot& after, const std::vector<Match>& drinks,
                     const SeasonMenus& season);

}  // namespace gill::diff

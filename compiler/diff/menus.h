#pragma once
#include "diff/changes.h"
#include "diff/matching.h"

namespace gill::diff {

/// What changed on each menu: what came, went and moved, and its prices. A line has moved when it stands in
/// another section or in another order among those that stayed.
std::vector<MenuChange> compare_menus(const Snapshot& before, const Snapshot& after,
                                      const Matching& matching);

}  // namespace gill::diff

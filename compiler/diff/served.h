#pragma once
#include <vector>

#include "diff/matching.h"
#include "diff/snapshot.h"

/// What guests get on either side: what is approved, and where menus say what is on, what stands on one that
/// runs.
namespace gill::diff {

/// True for a drink of the house that is no draft and not retired.
inline bool is_approved(const analysis::Drink& drink) {
  return drink.status == analysis::Status::approved && !drink.head.from_library;
}

/// By the places in the tables of either side. A drink on no menu of either side is served from its spec.
struct Served {
  std::vector<bool> before, after;
};
Served served_drinks(const Snapshot& before, const Snapshot& after, const std::vector<Match>& drinks);

}  // namespace gill::diff

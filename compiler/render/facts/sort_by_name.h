#pragma once
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "analysis/specs.h"
#include "base/text.h"

namespace gill::render {

/// Puts ids in the order of their folded names, then of their index: the same order whatever file a name
/// stands in.
template <typename Id>
void sort_by_name(std::vector<Id>& ids, const analysis::Specs& specs) {
  std::vector<std::pair<std::string, Id>> keyed;
  for (auto id : ids) keyed.emplace_back(base::fold_name(specs[id].head.name), id);
  std::sort(keyed.begin(), keyed.end());
  for (std::size_t i = 0; i < keyed.size(); ++i) ids[i] = keyed[i].second;
}

}  // namespace gill::render

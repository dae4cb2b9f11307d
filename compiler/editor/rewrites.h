#pragma once
#include "editor/actions.h"

namespace gill::editor {

/// What can be done with sound lines: an amount in another measure, a drink for more, weighed amounts as a
/// prep.
void add_rewrites(const HouseView& view, const syntax::File& file, std::uint32_t begin, std::uint32_t end,
                  std::vector<Action>& actions);

}  // namespace gill::editor

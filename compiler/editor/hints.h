#pragma once
#include <string>
#include <vector>

#include "editor/house_view.h"

namespace gill::editor {

/// Words that stand in a text without being written there.
struct Hint {
  std::uint32_t offset = 0;
  std::string words;
};

/// Behind an amount what it is in the house's other column; behind a line of a recipe how much liquid there
/// is by then and how strong; behind a prep's name what it makes. Those between two offsets, in their order.
std::vector<Hint> hints(const HouseView& view, const syntax::File& file, std::uint32_t begin,
                        std::uint32_t end);

}  // namespace gill::editor

#include "print/flow.h"

#include <utility>

namespace gill::print {
namespace {

// What rounding may add up to.
constexpr double nothing = 0.01;

/// The height of the piece with those that must follow it at once.
double height_with_next(const std::vector<TypeBlock>& blocks, std::size_t i) {
  double height = blocks[i].height;
  while (blocks[i].keeps_next && i + 1 < blocks.size() && !blocks[i + 1].begins_face) {
    ++i;
    height += blocks[i].space_before + blocks[i].height;
  }
  return height;
}

}  // namespace

std::vector<std::vector<TypeBlock>> flow(std::vector<TypeBlock> blocks, double first_room,
                                         double later_room) {
  std::vector<std::vector<TypeBlock>> faces(1);
  double used = 0, room = first_room;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    bool is_first = faces.back().empty();
    bool kept = i > 0 && blocks[i - 1].keeps_next && !blocks[i].begins_face && !is_first;
    double wanted = used + (is_first ? 0 : blocks[i].space_before) + height_with_next(blocks, i);
    if (blocks[i].begins_face || (!is_first && !kept && wanted > room + nothing)) {
      faces.emplace_back();
      used = 0;
      room = later_room;
      is_first = true;
    }
    used += (is_first ? 0 : blocks[i].space_before) + blocks[i].height;
    faces.back().push_back(std::move(blocks[i]));
  }
  return faces;
}

double stack(std::vector<TypeBlock> blocks, double left, double top, std::vector<Placed>& parts) {
  double y = top;
  for (auto& block : blocks) {
    if (&block != &blocks.front()) y += block.space_before;
    move(block.parts, left, y);
    y += block.height;
    parts.insert(parts.end(), block.parts.begin(), block.parts.end());
  }
  return y;
}

}  // namespace gill::print

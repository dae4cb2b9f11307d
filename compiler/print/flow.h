#pragma once
#include <vector>

#include "print/placed.h"

namespace gill::print {

/// Something that stays together: a line of the build, a step, a paragraph. Its parts stand from its own top
/// left corner.
struct TypeBlock {
  double height = 0;
  /// What is left free above it, unless it stands first.
  double space_before = 0;
  std::vector<Placed> parts;
  /// It does not stand last on a face: a heading.
  bool keeps_next = false;
  /// It begins a face of its own: the back.
  bool begins_face = false;
  /// Which notes at the foot of its page it calls for, a bit each.
  unsigned notes = 0;
};

/// Pieces one below the other on as many faces as they take; `first_room` is the height of the first,
/// `later_room` that of those that follow. Every face has at least one piece, so a piece that is too tall
/// stands alone.
std::vector<std::vector<TypeBlock>> flow(std::vector<TypeBlock> blocks, double first_room, double later_room);

/// Puts the pieces of one face below each other, the first at `left` and `top`, into `parts`; where the last
/// ends.
double stack(std::vector<TypeBlock> blocks, double left, double top, std::vector<Placed>& parts);

}  // namespace gill::print

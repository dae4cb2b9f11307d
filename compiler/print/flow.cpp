#include "print/flow.h"

#include <utility>

namespace gill::print {
namespace {

// What rounding may add up to.
constexpr double nothing = 0.01;

/// The height of the piece with those that must follow it at once.
double height_with_next(const std::vector<Piece>& pieces, std::size_t i) {
  double height = pieces[i].height;
  while (pieces[i].keeps_next && i + 1 < pieces.size() && !pieces[i + 1].begins_face) {
    ++i;
    height += pieces[i].space_before + pieces[i].height;
  }
  return height;
}

}  // namespace

std::vector<std::vector<Piece>> flow(std::vector<Piece> pieces, double first_room, double later_room) {
  std::vector<std::vector<Piece>> faces(1);
  double used = 0, room = first_room;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    bool is_first = faces.back().empty();
    bool kept = i > 0 && pieces[i - 1].keeps_next && !pieces[i].begins_face && !is_first;
    double wanted = used + (is_first ? 0 : pieces[i].space_before) + height_with_next(pieces, i);
    if (pieces[i].begins_face || (!is_first && !kept && wanted > room + nothing)) {
      faces.emplace_back();
      used = 0;
      room = later_room;
      is_first = true;
    }
    used += (is_first ? 0 : pieces[i].space_before) + pieces[i].height;
    faces.back().push_back(std::move(pieces[i]));
  }
  return faces;
}

double stack(std::vector<Piece> pieces, double left, double top, std::vector<Placed>& parts) {
  double y = top;
  for (auto& piece : pieces) {
    if (&piece != &pieces.front()) y += piece.space_before;
    move(piece.parts, left, y);
    y += piece.height;
    parts.insert(parts.end(), piece.parts.begin(), piece.parts.end());
  }
  return y;
}

}  // namespace gill::print

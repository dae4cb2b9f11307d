#pragma once
#include <string>
#include <vector>

#include "print/card.h"
#include "print/paper.h"
#include "print/placed.h"

namespace gill::print {

/// What a card is set on.
struct CardShape {
  Paper paper = a6;
  /// With a back, for what is not needed at once.
  bool has_back = false;
  /// A line for who practises, in place of what the drink comes to.
  bool is_blank = false;
  /// `printed 2026-11-25`; empty for nothing.
  std::string printed;
};

struct CardFace {
  std::vector<Placed> parts;
  bool is_back = false;
};

/// A card in type: its faces, fronts and backs by turns where it has a back.
struct CardLayout {
  std::vector<CardFace> faces;
  /// The size of its type to what is usual on such a card.
  double type_scale = 1;
  /// How many of the faces hold what is needed at once.
  std::size_t front_faces = 1;
  bool goes_on = false;
  /// True where words had to be left off.
  bool is_cut = false;
  bool lacks_letters = false;
};

/// Type is no smaller than this on a card of A6 (and larger on an A5 one by as much as the card is).
inline constexpr double min_type_scale = 0.8;
inline constexpr double min_small_print_pt = 6;

/// Sets a card: as large as its words allow on the fewest faces, never below the least scale; what does not
/// fit then goes on to another card.
CardLayout lay_out(const Typesetter& typesetter, const Card& card, const CardShape& shape);

}  // namespace gill::print

#pragma once
#include <string>

#include "print/card_layout.h"
#include "print/flow.h"

namespace gill::print {

/// One way to set a card: how large its type and its picture are, and whether its cautions stand on the front
/// in full.
struct CardFit {
  double type_scale = 1;
  double picture_mm = 32;
  bool with_cautions = false;
  /// How large the words and the picture of the back are.
  double back_scale = 1;
};

/// What the parts of one card share: what it is set on, how large, and whether all of it went.
struct CardMeasures {
  CardMeasures(const Typesetter& typesetter, const CardShape& shape, const CardFit& fit);

  const Typesetter& typesetter;
  const CardShape& shape;
  CardFit fit;
  /// How large the card is to one of A6, and its type to what is usual on that.
  double size, type;
  /// Points: around what is printed, and of it.
  double margin, width, height;
  /// Words had to be left off; no installed face has a letter.
  bool is_cut = false, lacks_letters = false;
};

/// What stands on its own, with its height in points.
struct PlacedParts {
  std::vector<Placed> parts;
  double height = 0;
};

// Sizes of type that several parts use, on a card of A6 at scale 1, in points.
inline constexpr double label_pt = 6.8, remark_pt = 8.8, name_pt = 11.2, note_pt = 8.4;

/// A part of a card: it sets words and notes where they did not go.
class CardPart {
 protected:
  explicit CardPart(CardMeasures& measures)
      : measures_(measures),
        shape_(measures.shape),
        fit_(measures.fit),
        size_(measures.size),
        type_(measures.type),
        width_(measures.width),
        height_(measures.height) {}

  double mm(double length) const { return length * points_per_mm * size_; }
  /// Sets words that are going to stand on the card.
  ShapedText set(const StyledText& text, const Shaping& setting);
  ShapedText set(const std::string& words, const TextStyle& style, const Shaping& setting = {});
  /// Sets words to see how much room they take.
  ShapedText try_set(const std::string& words, const TextStyle& style, const Shaping& setting = {}) const;
  void note(const ShapedText& text);
  /// Puts words into a block, on the base line at `base`.
  static void place_on(TypeBlock& block, ShapedText text, double left, double base);

  CardMeasures& measures_;
  const CardShape& shape_;
  const CardFit& fit_;
  const double size_, type_, width_, height_;
};

}  // namespace gill::print

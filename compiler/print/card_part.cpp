#include "print/card_part.h"

#include <algorithm>

namespace gill::print {

// Millimetres on a card of A6.
constexpr double margin_mm = 6;

CardMeasures::CardMeasures(const Typesetter& typesetter, const CardShape& shape, const CardFit& fit)
    : typesetter(typesetter),
      shape(shape),
      fit(fit),
      size(std::min(shape.paper.width_mm / a6.width_mm, shape.paper.height_mm / a6.height_mm)),
      type(fit.type_scale * size),
      margin(margin_mm * points_per_mm * size),
      width(shape.paper.width_pt() - 2 * margin),
      height(shape.paper.height_pt() - 2 * margin) {}

ShapedText CardPart::set(const StyledText& text, const Shaping& setting) {
  auto set = measures_.typesetter.set(text, setting);
  note(set);
  return set;
}

ShapedText CardPart::set(const std::string& words, const TextStyle& style, const Shaping& setting) {
  return set(StyledText{{words, style}}, setting);
}

ShapedText CardPart::try_set(const std::string& words, const TextStyle& style, const Shaping& setting) const {
  return measures_.typesetter.set(words, style, setting);
}

void CardPart::note(const ShapedText& text) {
  measures_.is_cut |= text.is_cut;
  measures_.lacks_letters |= text.lacks_letters;
}

void CardPart::place_on(TypeBlock& block, ShapedText text, double left, double base) {
  double top = base - text.base_line;
  block.parts.push_back(PlacedText{std::move(text), left, top});
}

}  // namespace gill::print

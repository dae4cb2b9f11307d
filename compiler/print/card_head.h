#pragma once
#include "print/card_part.h"

namespace gill::print {

/// The head of a face: the drink's name, the first things to take in hand, and what can hurt the guest.
class CardHead : CardPart {
 public:
  CardHead(CardMeasures& measures, const Card& card) : CardPart(measures), card_(card) {}

  /// The name as large as it goes on one line, else on up to three.
  ShapedText title();
  /// The head of the first face: name, kind, glass, ice, garnish, warnings.
  PlacedParts first();
  /// The head of any other face; that of the back (`is_detail`) has no warnings, for it begins with them in
  /// full.
  PlacedParts later(bool is_detail);

 private:
  /// What the label of a warning looks like: the surer, the darker.
  enum class Tab : std::uint8_t { filled, framed, dashed };

  struct Warning {
    Tab tab;
    std::string label;
    std::string words;
    /// What stands behind them, less loud.
    std::string aside = {};
  };

  double add_kind(std::vector<Placed>& parts, double y);
  /// Glass, ice and garnish, with the glass drawn beside them as high as they are at the least.
  double add_first_identities(std::vector<Placed>& parts, double top);
  double add_first_words(std::vector<Placed>& parts, double top, double words_width);
  std::vector<Warning> warnings() const;
  std::string not_known() const;
  double add_warnings(std::vector<Placed>& parts, double top);
  PlacedPanel tab(Tab kind, double top, double width, double height) const;

  const Card& card_;
};

}  // namespace gill::print

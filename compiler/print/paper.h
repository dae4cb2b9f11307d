#pragma once

namespace gill::print {

/// Points of 1/72 inch, in which type is measured, to a millimetre.
inline constexpr double points_per_mm = 72 / 25.4;

/// The size of a sheet or a card.
struct Paper {
  double width_mm = 0;
  double height_mm = 0;

  double width_pt() const { return width_mm * points_per_mm; }
  double height_pt() const { return height_mm * points_per_mm; }
  bool operator==(const Paper&) const = default;
};

// ISO 216, and the sizes that North America uses (ANSI/ASME Y14.1; the card is 4 by 6 inches).
inline constexpr Paper a4{210, 297}, a5{148, 210}, a6{105, 148};
inline constexpr Paper letter{215.9, 279.4}, card_4x6in{101.6, 152.4};

}  // namespace gill::print

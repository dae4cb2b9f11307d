#pragma once
#include <array>
#include <optional>

#include "analysis/specs.h"
#include "model/constants.h"
#include "model/physics/dilution.h"

/// How a house's hands and ice differ from the usual, as far as it has measured them.
namespace gill::model {

/// Nobody works a drink for so long: seconds, or passes.
inline constexpr double longest_by_hand = 3600;

/// Factors on what each way of chilling melts and on what strained solids hold. As long as nobody measures
/// anything they are 1, and a melt is known to `melt_share`.
struct Hands {
  std::array<double, chill_method_count> melt;
  /// How far the next drink may lie from that, as a share of it.
  std::array<double, chill_method_count> melt_width;
  double hold = 1;
  double hold_width = hold_share;

  Hands() {
    melt.fill(1);
    melt_width.fill(melt_share);
  }
};

/// What the house's `hands` lines say.
Hands hands_of(const analysis::House& house);

/// The way of chilling that a step is; nothing for a step in which hands decide nothing.
std::optional<ChillMethod> chill_method_of(analysis::Verb verb);
/// The step's word: `shake`.
analysis::Verb verb_of(ChillMethod method);

}  // namespace gill::model

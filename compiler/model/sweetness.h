#pragma once

#include "analysis/specs.h"

/// How sweet sugars taste beside table sugar, gram for gram.
namespace gill::model {

/// A figure and half the width within which published ones lie.
struct RelativeSweetness {
  double typical = 1, width = 0;
};

/// In a solution of 10 %: Food Chemistry, 4th edition, Springer (from memory). The widths are ours: other
/// tables (Experimental Cookery, John Wiley & Sons) give 1.03 to 1.73 for fructose, 0.50 to 0.74 for glucose,
/// 0.33 to 0.50 for maltose and 0.16 to 0.28 for lactose, and taste says no more.
constexpr RelativeSweetness sweetness_of(analysis::SugarKind kind) noexcept {
  switch (kind) {
    case analysis::SugarKind::sucrose:
      return {1, 0};
    case analysis::SugarKind::glucose:
      return {0.69, 0.1};
    case analysis::SugarKind::fructose:
      return {1.14, 0.2};
    case analysis::SugarKind::maltose:
      return {0.46, 0.1};
    case analysis::SugarKind::lactose:
      return {0.39, 0.15};
  }
  return {};
}

/// Sugar of which nobody says what it is: as table sugar, from as little as glucose to as much as fructose.
inline constexpr RelativeSweetness sweetness_of_unknown_sugar{1, 0.25};

}  // namespace gill::model

#pragma once
#include <vector>

#include "analysis/specs.h"
#include "model/facts.h"

namespace gill::render {

/// What is poured from the house bottle for a drink as it is written (all its serves); nothing of all for one
/// that is not batched.
struct BatchPour {
  /// What the bottle holds of the build.
  std::vector<analysis::StockId> stock;
  double volume_ml = 0;
  /// The water that it holds in place of melt, beside `volume_ml`.
  double water_ml = 0;

  bool holds(analysis::StockId id) const;
};

BatchPour batch_pour_of(const analysis::Drink& drink, const model::DrinkFacts& facts);

}  // namespace gill::render

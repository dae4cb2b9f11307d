#pragma once
#include <vector>

#include "analysis/specs.h"
#include "model/facts.h"

namespace gill::model {

/// What a `batched` drink's bottle holds, for one serve; nothing of all for a drink that is not batched.
struct HouseBottle {
  /// Which of the drink's entries, by their places in `DrinkFacts::entries`.
  std::vector<std::size_t> entries;
  /// What the `batched` line names.
  std::vector<analysis::StockId> stock;
  /// With the water that it holds in place of melt.
  Masses masses;
  /// One pour: what that measures, which is less than its parts one by one. Water among it.
  double pour_ml = 0, water_ml = 0;

  bool holds(analysis::StockId id) const;
};

/// Whether it is poured into the drink's bottle: an amount that the `batched` line names.
bool is_batched(const analysis::Drink& drink, const Entry& entry);

/// What a full bottle of a `batched` drink holds, ml: what the drink says, else the usual bottle.
double full_bottle_ml(const analysis::Drink& drink);

HouseBottle house_bottle_of(const analysis::Drink& drink, const DrinkFacts& facts, const HouseFacts& house);

}  // namespace gill::model

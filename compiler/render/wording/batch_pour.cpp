#include "render/wording/batch_pour.h"

#include <algorithm>

namespace gill::render {

bool BatchPour::holds(analysis::StockId id) const {
  return std::find(stock.begin(), stock.end(), id) != stock.end();
}

BatchPour batch_pour_of(const analysis::Drink& drink, const model::DrinkFacts& facts) {
  BatchPour pour;
  if (!drink.batched) return pour;
  for (const auto& use : drink.batched->uses) pour.stock.push_back(use.stock);
  for (const auto& entry : facts.entries)
    if (entry.volume_ml && entry.role == model::Role::amount && pour.holds(entry.use.stock))
      pour.volume_ml += *entry.volume_ml * facts.serves;
  if (drink.batched->with_water) pour.water_ml = facts.bottle_water_ml * facts.serves;
  return pour;
}

}  // namespace gill::render

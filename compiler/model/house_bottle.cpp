#include "model/house_bottle.h"

#include <algorithm>

#include "model/physics/ethanol_water.h"
#include "model/physics/volume.h"

namespace gill::model {

bool HouseBottle::holds(analysis::StockId id) const {
  return std::find(stock.begin(), stock.end(), id) != stock.end();
}

bool is_batched(const analysis::Drink& drink, const Entry& entry) {
  if (!drink.batched || entry.role != Role::amount || !entry.mass_g) return false;
  const auto& uses = drink.batched->uses;
  return std::find(uses.begin(), uses.end(), entry.use) != uses.end();
}

double full_bottle_ml(const analysis::Drink& drink) {
  // Where a drink does not say what its bottle holds. Common practice, no source.
  constexpr double usual_bottle_ml = 700;
  return drink.batched && drink.batched->bottle ? drink.batched->bottle->number() : usual_bottle_ml;
}

HouseBottle house_bottle_of(const analysis::Drink& drink, const DrinkFacts& facts, const HouseFacts& house) {
  HouseBottle bottle;
  if (!drink.batched) return bottle;
  for (const auto& use : drink.batched->uses) bottle.stock.push_back(use.stock);
  for (std::size_t i = 0; i < facts.entries.size(); ++i) {
    const Entry& entry = facts.entries[i];
    if (!is_batched(drink, entry)) continue;
    bottle.entries.push_back(i);
    bottle.masses += house[entry.use.stock].composition.per_gram * *entry.mass_g;
  }
  if (bottle.entries.empty()) return bottle;
  if (drink.batched->with_water) {
    // The melt of the method, put in up front.
    bottle.water_ml = facts.bottle_water_ml;
    bottle.masses[Component::water] += bottle.water_ml * ethanol_water::water_density_g_per_ml;
  }
  bottle.pour_ml = volume_ml(bottle.masses);
  return bottle;
}

}  // namespace gill::model

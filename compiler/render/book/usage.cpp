#include "render/book/usage.h"

#include <algorithm>

namespace gill::render {

using analysis::DrinkId;
using analysis::StockId;

std::vector<StockId> Usage::parts_of(const analysis::Recipe& recipe) {
  std::vector<StockId> parts;
  auto add = [&](StockId id) {
    if (id.valid() && std::find(parts.begin(), parts.end(), id) == parts.end()) parts.push_back(id);
  };
  for (const auto& line : recipe.order) {
    if (line.is_amount) {
      const auto& amount = recipe.amounts[line.index];
      for (const auto& portion : amount.portions) add(portion.use.stock);
      for (const auto& use : amount.alternatives) add(use.stock);
    } else if (const auto& use = recipe.steps[line.index].use) {
      add(use->stock);
    }
  }
  return parts;
}

std::vector<StockId> Usage::everything_in(const analysis::Recipe& recipe, const std::vector<StockId>& uses,
                                          const model::HouseFacts& facts) {
  std::vector<StockId> all;
  std::vector<bool> seen(facts.stock.size());
  auto add = [&](StockId id) {
    if (!seen[id.index()]) all.push_back(id);
    seen[id.index()] = true;
  };
  for (auto id : uses) add(id);
  for (auto part : parts_of(recipe)) {
    add(part);
    for (auto id : facts[part].uses) add(id);
  }
  return all;
}

Usage::Usage(const analysis::Specs& specs) : specs_(specs), direct_(specs.stock.size()) {
  for (std::size_t i = 0; i < specs.drinks.size(); ++i)
    for (auto part : parts_of(specs.drinks[i].recipe)) direct_[part.index()].drinks.push_back(DrinkId::at(i));
  for (std::size_t i = 0; i < specs.stock.size(); ++i)
    for (auto part : parts_of(specs.stock[i].recipe)) direct_[part.index()].preps.push_back(StockId::at(i));
}

Users Usage::all(StockId stock) const {
  std::vector<bool> seen(specs_.stock.size());
  std::vector<StockId> waiting = {stock};
  seen[stock.index()] = true;
  Users users;
  while (!waiting.empty()) {
    const Users& near = direct(waiting.back());
    waiting.pop_back();
    users.drinks.insert(users.drinks.end(), near.drinks.begin(), near.drinks.end());
    for (auto prep : near.preps) {
      if (seen[prep.index()]) continue;
      seen[prep.index()] = true;
      users.preps.push_back(prep);
      waiting.push_back(prep);
    }
  }
  std::sort(users.drinks.begin(), users.drinks.end());
  users.drinks.erase(std::unique(users.drinks.begin(), users.drinks.end()), users.drinks.end());
  std::sort(users.preps.begin(), users.preps.end());
  return users;
}

std::vector<bool> Usage::of_the_house() const {
  std::vector<bool> used(specs_.stock.size());
  std::vector<StockId> waiting;
  auto add = [&](StockId id) {
    if (used[id.index()]) return;
    used[id.index()] = true;
    waiting.push_back(id);
  };
  for (std::size_t i = 0; i < specs_.stock.size(); ++i)
    if (!specs_.stock[i].head.from_library) add(StockId::at(i));
  for (const auto& drink : specs_.drinks)
    if (!drink.head.from_library)
      for (auto part : parts_of(drink.recipe)) add(part);
  while (!waiting.empty()) {
    StockId id = waiting.back();
    waiting.pop_back();
    for (auto part : parts_of(specs_[id].recipe)) add(part);
  }
  return used;
}

}  // namespace gill::render

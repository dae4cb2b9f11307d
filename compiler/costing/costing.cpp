#include "costing/costing.h"

#include <algorithm>

#include "model/house_bottle.h"

namespace gill::costing {

std::vector<StockId> preps_after_parts(const House& house) {
  const auto& stock = house.specs.stock;
  std::vector<std::size_t> waits(stock.size(), 0);
  std::vector<std::vector<std::size_t>> users(stock.size());
  for (std::size_t i = 0; i < stock.size(); ++i) {
    if (!stock[i].is_prep) continue;
    for (const auto& entry : house.facts.stock[i].entries) {
      if (!stock[entry.use.stock.index()].is_prep) continue;
      users[entry.use.stock.index()].push_back(i);
      ++waits[i];
    }
  }
  std::vector<StockId> order;
  std::vector<std::size_t> ready;
  for (std::size_t i = stock.size(); i-- > 0;)
    if (stock[i].is_prep && waits[i] == 0) ready.push_back(i);
  while (!ready.empty()) {
    std::size_t prep = ready.back();
    ready.pop_back();
    order.push_back(StockId::at(prep));
    for (std::size_t user : users[prep])
      if (--waits[user] == 0) ready.push_back(user);
  }
  return order;
}

Costing::Costing(const House& house, const std::string& on)
    : house_(house),
      measuring_(house.specs, house.units, house.facts.stock, silent_),
      prices_(house.specs, measuring_, on),
      is_repriced_(!on.empty()),
      per_gram_(house.specs.stock.size()),
      price_of_a_gram_(house.specs.stock.size()),
      working_(house.specs.stock.size()) {
  take_apart();
}

void Costing::take_apart() {
  for (std::size_t i = 0; i < per_gram_.size(); ++i)
    if (!house_.specs.stock[i].is_prep) per_gram_[i].bought = {{StockId::at(i), 1, 1}};
  auto order = preps_after_parts(house_);
  std::vector<bool> reached(per_gram_.size(), false);
  for (auto prep : order) {
    reached[prep.index()] = true;
    const auto& facts = house_.facts[prep];
    if (facts.yield_g > 0)
      per_gram_[prep.index()] = sum(facts.entries, 1 / facts.yield_g);
    else
      per_gram_[prep.index()].unweighed = {prep};
  }
  // One in a circle is made of nothing that could be bought.
  for (std::size_t i = 0; i < per_gram_.size(); ++i)
    if (house_.specs.stock[i].is_prep && !reached[i]) per_gram_[i].unweighed = {StockId::at(i)};
}

Parts Costing::sum(const std::vector<model::Entry>& entries, double scale) const {
  Parts result;
  std::vector<std::size_t> touched;
  auto note = [](std::vector<StockId>& list, StockId id) {
    if (std::find(list.begin(), list.end(), id) == list.end()) list.push_back(id);
  };
  auto paid_for = model::come_with_fruit(entries, house_.specs, house_.units, prices_, measuring_);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto& entry = entries[i];
    if (entry.optional) continue;
    if (!entry.mass_g) {
      if (entry.count && prices_.exact_per_piece(entry.use))
        result.pieces.push_back({entry.use, *entry.count * scale});
      else
        note(model::is_unweighed_garnish(entry) ? result.unweighed_garnish : result.unweighed,
             entry.use.stock);
      continue;
    }
    const auto& parts = per_gram_[model::bought_as(entry.use, house_.specs, house_.units, prices_).index()];
    for (auto id : parts.unweighed) note(result.unweighed, id);
    for (const auto& part : parts.bought) {
      auto& sum = working_[part.stock.index()];
      if (sum.grams == 0) touched.push_back(part.stock.index());
      sum.grams += part.grams * *entry.mass_g * scale;
      if (!paid_for[i]) sum.paid_g += part.paid_g * *entry.mass_g * scale;
    }
  }
  std::sort(touched.begin(), touched.end());
  touched.erase(std::unique(touched.begin(), touched.end()), touched.end());
  for (std::size_t i : touched) {
    result.bought.push_back({StockId::at(i), working_[i].grams, working_[i].paid_g});
    working_[i] = {};
  }
  return result;
}

Parts Costing::parts(DrinkId drink) const { return sum(house_.facts[drink].entries, 1); }

Parts Costing::parts_of_bottle(DrinkId drink, double times) const {
  std::vector<model::Entry> entries;
  for (const auto& entry : house_.facts[drink].entries)
    if (model::is_batched(house_.specs[drink], entry)) entries.push_back(entry);
  return sum(entries, times);
}

void Costing::raise(StockId stock, const Exact& factor) {
  prices_.raise(stock, factor);
  is_repriced_ = true;
  // A fruit's price is its juice's too.
  std::fill(price_of_a_gram_.begin(), price_of_a_gram_.end(), std::nullopt);
}

const std::optional<Exact>& Costing::per_gram(StockId bought) const {
  auto& known = price_of_a_gram_[bought.index()];
  if (!known) known = prices_.exact_per_gram(bought);
  return *known;
}

std::optional<Exact> Costing::cost(const Pieces& pieces) const {
  auto each = prices_.exact_per_piece(pieces.use);
  return each ? std::optional<Exact>(*each * model::decimal_of(pieces.count)) : std::nullopt;
}

std::optional<Exact> Costing::cost(const Parts& parts) const {
  if (!parts.unweighed.empty() || (parts.bought.empty() && parts.pieces.empty())) return std::nullopt;
  Exact total = 0;
  for (const auto& part : parts.bought) {
    const auto& price = per_gram(part.stock);
    if (!price) return std::nullopt;
    total += model::fine(*price * model::decimal_of(part.paid_g));
  }
  for (const auto& pieces : parts.pieces) total += cost(pieces).value_or(0);
  return total;
}

std::optional<Exact> Costing::cost(DrinkId drink) const {
  // As long as no price is another, the model has said it.
  if (!is_repriced_) {
    const auto& known = house_.facts[drink].cost;
    return known ? std::optional(known->amount) : std::nullopt;
  }
  auto total = cost(parts(drink));
  return total ? std::optional<Exact>(model::settled(*total)) : std::nullopt;
}

std::vector<StockId> Costing::without_price(const Parts& parts) const {
  auto missing = parts.unweighed;
  for (const auto& part : parts.bought)
    if (!per_gram(part.stock)) missing.push_back(part.stock);
  return missing;
}

}  // namespace gill::costing

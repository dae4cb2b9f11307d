#include "diff/causes.h"

#include <algorithm>

#include "analysis/groups.h"
#include "base/text.h"
#include "render/book/usage.h"

namespace gill::diff {

using analysis::Recipe;
using analysis::Verb;
using units::Quantity;

namespace {

bool measured_with(const std::optional<Quantity>& quantity, units::UnitId unit) {
  return quantity && quantity->unit == unit;
}

bool recipe_uses_unit(const Recipe& recipe, units::UnitId unit) {
  for (const auto& amount : recipe.amounts)
    if (amount.quantity.unit == unit) return true;
  for (const auto& step : recipe.steps)
    if (measured_with(step.amount, unit) || measured_with(step.target, unit)) return true;
  return false;
}

bool stock_uses_unit(const analysis::Stock& stock, units::UnitId unit) {
  if (measured_with(stock.makes, unit) || recipe_uses_unit(stock.recipe, unit)) return true;
  for (const auto& [item, quantity] : stock.each)
    if (quantity.unit == unit) return true;
  for (const auto& given : stock.gives)
    if (given.quantity.unit == unit) return true;
  return std::any_of(stock.buys.begin(), stock.buys.end(),
                     [&](const analysis::Buy& buy) { return buy.pack.unit == unit; });
}

bool has_note(const std::vector<std::string>& notes, std::string_view word) {
  return std::find(notes.begin(), notes.end(), word) != notes.end();
}

bool uses_fridge(const Recipe& recipe, const model::HouseFacts& facts) {
  for (const auto& amount : recipe.amounts) {
    if (amount.chilled) return true;
    for (const auto& portion : amount.portions)
      if (facts[portion.use.stock].fizz_vol > 0) return true;
  }
  for (const auto& step : recipe.steps)
    if (step.verb == Verb::chill || has_note(step.notes, "chilled") ||
        (step.use && facts[step.use->stock].fizz_vol > 0))
      return true;
  return false;
}

bool uses_freezer(const Recipe& recipe) {
  for (const auto& amount : recipe.amounts)
    if (amount.frozen) return true;
  return analysis::has_step(recipe, {Verb::freeze});
}

bool takes_ice(const Recipe& recipe) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(),
                     [](const analysis::Step& step) { return analysis::info(step.verb).takes_ice; });
}

/// True where the ice is named, or where a line takes ice and names none and this is the usual one.
bool uses_ice(const Recipe& recipe, analysis::IceId ice, const analysis::Specs& specs) {
  bool usual = ice == analysis::usual_ice(specs);
  return std::any_of(recipe.steps.begin(), recipe.steps.end(), [&](const analysis::Step& step) {
    return step.ice ? step.ice->ice == ice : usual && analysis::info(step.verb).takes_ice;
  });
}

}  // namespace

CauseFinder::CauseFinder(const Snapshot& snapshot)
    : snapshot_(snapshot), preps_of_(snapshot.specs.stock.size()), drinks_of_(snapshot.specs.stock.size()) {
  const auto& specs = snapshot.specs;
  reached_.stock.resize(specs.stock.size());
  reached_.drinks.resize(specs.drinks.size());
  for (std::size_t i = 0; i < specs.drinks.size(); ++i)
    for (auto part : render::Usage::parts_of(specs.drinks[i].recipe)) drinks_of_[part.index()].push_back(i);
  for (std::size_t i = 0; i < specs.stock.size(); ++i) {
    for (auto part : render::Usage::parts_of(specs.stock[i].recipe)) preps_of_[part.index()].push_back(i);
    for (const auto& given : specs.stock[i].gives)
      if (given.what.stock.valid()) preps_of_[i].push_back(given.what.stock.index());
  }
}

void CauseFinder::spread(std::size_t cause, std::vector<std::size_t> stock, bool count_them) {
  std::vector<bool> seen(snapshot_.specs.stock.size());
  auto note = [&](std::vector<std::size_t>& causes) {
    if (causes.empty() || causes.back() != cause) causes.push_back(cause);
  };
  for (auto index : stock) {
    seen[index] = true;
    if (count_them) note(reached_.stock[index]);
  }
  while (!stock.empty()) {
    auto index = stock.back();
    stock.pop_back();
    for (auto drink : drinks_of_[index]) note(reached_.drinks[drink]);
    for (auto prep : preps_of_[index]) {
      if (seen[prep]) continue;
      seen[prep] = true;
      note(reached_.stock[prep]);
      stock.push_back(prep);
    }
  }
}

void CauseFinder::add_stock(std::size_t cause, std::size_t stock) { spread(cause, {stock}, false); }

template <typename Uses>
void CauseFinder::add_where(std::size_t cause, Uses uses) {
  for (std::size_t i = 0; i < snapshot_.specs.drinks.size(); ++i) {
    auto& causes = reached_.drinks[i];
    if (uses(snapshot_.specs.drinks[i].recipe, &snapshot_.specs.drinks[i]) &&
        (causes.empty() || causes.back() != cause))
      causes.push_back(cause);
  }
}

void CauseFinder::add_unit(std::size_t cause, units::UnitId unit) {
  std::vector<std::size_t> stock;
  for (std::size_t i = 0; i < snapshot_.specs.stock.size(); ++i)
    if (stock_uses_unit(snapshot_.specs.stock[i], unit)) stock.push_back(i);
  spread(cause, stock, true);
  add_where(cause, [&](const Recipe& recipe, const analysis::Drink* drink) {
    return recipe_uses_unit(recipe, unit) || measured_with(drink->size, unit);
  });
}

void CauseFinder::add_glass(std::size_t cause, analysis::GlassId glass) {
  add_where(cause, [&](const Recipe&, const analysis::Drink* drink) {
    return drink->glass == glass || drink->cup == glass;
  });
}

void CauseFinder::add_ice(std::size_t cause, analysis::IceId ice) {
  add_where(cause, [&](const Recipe& recipe, const analysis::Drink* drink) {
    auto index = static_cast<std::size_t>(drink - snapshot_.specs.drinks.data());
    return snapshot_.facts.drinks[index].in_glass.ice == ice || uses_ice(recipe, ice, snapshot_.specs);
  });
}

void CauseFinder::add_house_line(std::size_t cause, const std::string& keyword) {
  if (keyword == "fridge") {
    add_where(cause, [&](const Recipe& recipe, const analysis::Drink*) {
      return uses_fridge(recipe, snapshot_.facts);
    });
  } else if (keyword == "freezer") {
    add_where(cause, [&](const Recipe& recipe, const analysis::Drink*) { return uses_freezer(recipe); });
  } else if (keyword == "ice") {
    add_where(cause, [&](const Recipe& recipe, const analysis::Drink* drink) {
      auto index = static_cast<std::size_t>(drink - snapshot_.specs.drinks.data());
      return snapshot_.facts.drinks[index].in_glass.ice.valid() || takes_ice(recipe);
    });
  } else if (keyword.starts_with("hands ")) {
    const std::string verb = keyword.substr(std::string_view("hands ").size());
    if (verb == "strain") {
      // What strained solids hold of a prep.
      std::vector<std::size_t> strained;
      for (std::size_t i = 0; i < snapshot_.specs.stock.size(); ++i)
        if (analysis::has_step(
                snapshot_.specs.stock[i].recipe,
                {analysis::Verb::strain, analysis::Verb::fine_strain, analysis::Verb::double_strain,
                 analysis::Verb::press, analysis::Verb::remove, analysis::Verb::clarify}))
          strained.push_back(i);
      return spread(cause, strained, true);
    }
    add_where(cause, [&](const Recipe& recipe, const analysis::Drink* drink) {
      auto index = static_cast<std::size_t>(drink - snapshot_.specs.drinks.data());
      // On the ice in the glass a drink stands as one that is built does.
      return (verb == "build" && snapshot_.facts.drinks[index].in_glass.ice.valid()) ||
             std::any_of(recipe.steps.begin(), recipe.steps.end(),
                         [&](const analysis::Step& step) { return analysis::info(step.verb).name == verb; });
    });
  } else if (keyword == "rate") {
    spread(cause, bought_abroad(), true);
    auto priced = priced_abroad();
    add_where(cause, [&](const Recipe&, const analysis::Drink* drink) {
      return priced[static_cast<std::size_t>(drink - snapshot_.specs.drinks.data())];
    });
  } else {
    add_where(cause, [](const Recipe&, const analysis::Drink*) { return true; });
    if (keyword != "currency") return;
    for (auto& causes : reached_.stock) causes.push_back(cause);
  }
}

/// What is bought for money of another currency than the house's.
std::vector<std::size_t> CauseFinder::bought_abroad() const {
  std::vector<std::size_t> stock;
  auto abroad = [&](const analysis::Buy& buy) { return buy.price.currency != snapshot_.facts.currency; };
  for (std::size_t i = 0; i < snapshot_.specs.stock.size(); ++i)
    if (std::any_of(snapshot_.specs.stock[i].buys.begin(), snapshot_.specs.stock[i].buys.end(), abroad))
      stock.push_back(i);
  for (const auto& list : snapshot_.specs.price_lists)
    for (const auto& price : list.prices)
      if (abroad(price.buy)) stock.push_back(price.use.stock.index());
  return stock;
}

/// By drink: whether a menu has it for money of another currency than the house's.
std::vector<bool> CauseFinder::priced_abroad() const {
  std::vector<bool> priced(snapshot_.specs.drinks.size());
  for (const auto& menu : snapshot_.specs.menus)
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries)
        if (entry.drink.valid() && entry.price && entry.price->currency != snapshot_.facts.currency)
          priced[entry.drink.index()] = true;
  return priced;
}

}  // namespace gill::diff

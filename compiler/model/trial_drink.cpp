#include "model/trial_drink.h"

#include <algorithm>
#include <cmath>

#include "model/glass_level.h"
#include "model/program_builder.h"

namespace gill::model {

using units::Kind;

std::vector<double> pourable_ml(const analysis::House& house) {
  std::vector<double> result;
  for (std::size_t i = 0; i < house.measures.size(); ++i) {
    double one = house.measures[i].number();
    result.push_back(one);
    for (std::size_t j = i; j < house.measures.size(); ++j)
      result.push_back(one + house.measures[j].number());
  }
  std::sort(result.begin(), result.end());
  auto same = [](double a, double b) { return std::abs(a - b) < 1e-6; };
  result.erase(std::unique(result.begin(), result.end(), same), result.end());
  return result;
}

TrialDrink::TrialDrink(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
                       analysis::DrinkId drink)
    : specs_(specs), units_(units), facts_(facts), drink_id_(drink), drink_(specs[drink]) {}

bool TrialDrink::can_move(std::size_t index) const {
  const auto& amount = drink_.recipe.amounts[index];
  bool poured = amount.quantity.kind == Kind::volume || (amount.quantity.kind == Kind::part && drink_.size);
  return amount.form == analysis::Amount::Form::measured && poured && !amount.optional &&
         amount.portions.size() == 1;
}

bool TrialDrink::is_jiggered(std::size_t index) const {
  const auto& quantity = drink_.recipe.amounts[index].quantity;
  if (!can_move(index)) return false;
  if (quantity.kind == Kind::part || !quantity.unit.valid()) return true;
  // A dash, a spoon, a drop and a house's own unit come with how loose they are; jiggers do not.
  return !units_[quantity.unit].tolerance;
}

double TrialDrink::millilitres(std::size_t index) const {
  const auto& quantity = drink_.recipe.amounts[index].quantity;
  if (quantity.kind != Kind::part) return quantity.number();
  for (const auto& entry : facts_[drink_id_].entries)
    if (entry.role == Role::amount && entry.index == index)
      return entry.volume_ml.value_or(0) * drink_.serves;
  return 0;
}

void TrialDrink::set_millilitres(std::size_t index, double millilitres) {
  // One part set in millilitres would move the others: all of them are set as they are.
  for (std::size_t i = 0; i < drink_.recipe.amounts.size(); ++i) {
    auto& amount = drink_.recipe.amounts[i];
    if (i != index && amount.quantity.kind != Kind::part) continue;
    double volume = i == index ? millilitres : this->millilitres(i);
    amount.quantity.kind = Kind::volume;
    amount.quantity.value = base::Exact(volume);
    amount.quantity.low = amount.quantity.high = volume;
    amount.quantity.is_range = false;
    amount.quantity.unit = units_.find("ml");
  }
}

TrialDrink::Served TrialDrink::served() const {
  diagnostics::DiagnosticSink unheard;
  ProgramBuilder builder(specs_, units_, facts_.stock, unheard);
  BuiltProgram built = builder.build(drink_);
  Simulator simulator(built.program);
  const Outcome& outcome = simulator.run();
  double share = 1 / drink_.serves;
  return {figures_of(outcome.liquid, outcome.temperature_c, share),
          in_glass_of(facts_[drink_id_], specs_, built, outcome).level_ml,
          outcome.liquid[Component::ethanol] * share};
}

std::optional<double> TrialDrink::cost() const {
  const auto& before = facts_[drink_id_];
  if (!before.cost) return std::nullopt;
  double cost = base::to_double(before.cost->amount);
  for (const auto& entry : before.entries) {
    if (entry.role != Role::amount || !can_move(entry.index) || !entry.cost || !entry.volume_ml) continue;
    double volume = *entry.volume_ml * drink_.serves;
    if (volume > 0) cost += base::to_double(entry.cost->amount) * (millilitres(entry.index) / volume - 1);
  }
  return cost;
}

}  // namespace gill::model

#include "model/evaluator.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/allergens.h"
#include "model/evaluate_written.h"
#include "model/origin.h"

namespace gill::model {

using diagnostics::Rule;

namespace {

std::string_view word_of(analysis::UntilProperty property) {
  switch (property) {
    case analysis::UntilProperty::acid:
      return "acid";
    case analysis::UntilProperty::sugar:
      return "sugar";
    case analysis::UntilProperty::strength:
      return "strength";
  }
  return {};
}

}  // namespace

std::optional<double> Figures::sugar_acid_ratio() const {
  // Below this much acid a ratio says nothing about taste.
  constexpr double min_acid_g_per_100ml = 0.05;
  if (acid_g_per_100ml < min_acid_g_per_100ml) return std::nullopt;
  return sugar_g_per_100ml / acid_g_per_100ml;
}

Evaluator::Evaluator(const analysis::Specs& specs, const units::UnitTable& units, HouseFacts& facts,
                     diagnostics::DiagnosticSink& sink, bool with_hands)
    : specs_(specs),
      units_(units),
      sink_(sink),
      with_hands_(with_hands),
      facts_(facts),
      measuring_(specs, units, facts_.stock, sink),
      builder_(specs, units, facts_.stock, sink) {}

template <typename Work>
void Evaluator::about(const analysis::Head& head, Work work) {
  std::size_t before = sink_.all().size();
  work();
  for (std::size_t i = before; i < sink_.all().size(); ++i)
    sink_.all()[i].subject = head.declaration_id.value;
}

void Evaluator::clear_stock() {
  const std::size_t count = specs_.stock.size();
  facts_.stock.assign(count, StockFacts{});
  rest_.assign(count, Rest{});
  extras_.assign(count, Extras{});
  moves_.assign(count, std::nullopt);
  for (std::size_t i = 0; i < count; ++i) facts_.stock[i].stock = analysis::StockId::at(i);
}

void Evaluator::ingredient(std::size_t index) {
  auto cost_per_g = std::move(facts_.stock[index].cost_per_g);
  auto without_price = std::move(facts_.stock[index].without_price);
  facts_.stock[index] = StockFacts{};
  facts_.stock[index].stock = analysis::StockId::at(index);
  extras_[index] = Extras{};
  moves_[index].reset();
  evaluate_ingredient(index);
  facts_.stock[index].cost_per_g = std::move(cost_per_g);
  facts_.stock[index].without_price = std::move(without_price);
}

void Evaluator::read_prices() {
  prices_.emplace(specs_, measuring_);
  facts_.currency = prices_->currency();
}

void Evaluator::price_ingredients() {
  for (std::size_t i = 0; i < specs_.stock.size(); ++i) {
    if (specs_.stock[i].is_prep) continue;
    auto& facts = facts_.stock[i];
    facts.cost_per_g.reset();
    facts.without_price.clear();
    if (auto price = prices_->exact_per_gram(facts.stock))
      facts.cost_per_g = units::Money{fine(*price), facts_.currency};
    else
      facts.without_price.push_back(facts.stock);
  }
}

void Evaluator::prep(std::size_t index) {
  facts_.stock[index] = StockFacts{};
  facts_.stock[index].stock = analysis::StockId::at(index);
  facts_.stock[index].valid = !in_circle_[index];
  rest_[index] = Rest{};
  extras_[index] = Extras{};
  moves_[index].reset();
  about(specs_.stock[index].head, [&] { evaluate_prep(index); });
}

void Evaluator::drink(std::size_t index) {
  facts_.drinks[index] = DrinkFacts{};
  about(specs_.drinks[index].head, [&] { evaluate_drink(index); });
}

void Evaluator::evaluate() {
  clear_stock();
  facts_.drinks.resize(specs_.drinks.size());
  for (std::size_t i = 0; i < specs_.stock.size(); ++i)
    if (!specs_.stock[i].is_prep) ingredient(i);
  read_prices();
  price_ingredients();
  for (std::size_t index : prep_order()) prep(index);
  for (std::size_t i = 0; i < specs_.drinks.size(); ++i) drink(i);
}

void Evaluator::add_uses(std::vector<analysis::StockId>& uses, analysis::StockId id) const {
  auto add = [&](analysis::StockId used) {
    if (std::find(uses.begin(), uses.end(), used) == uses.end()) uses.push_back(used);
  };
  add(id);
  for (auto used : facts_.stock[id.index()].uses) add(used);
}

/// The thing itself, or what it is made of that has no price.
void Evaluator::add_without_price(std::vector<analysis::StockId>& all, analysis::StockId id) const {
  auto add = [&](analysis::StockId one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
  };
  const auto& parts = facts_.stock[id.index()].without_price;
  if (parts.empty()) add(id);
  for (auto part : parts) add(part);
}

Evaluator::Rest Evaluator::rest_of(const BuiltProgram& built, const Outcome& outcome) const {
  double other = 0, solids = 0;
  Rest sum;
  for (std::size_t s = 0; s < built.program.slots.size(); ++s) {
    const Slot& slot = built.program.slots[s];
    const Rest& part = rest_[slot.stock.index()];
    double part_other = outcome.slot_g[s] * slot.per_gram[Component::other];
    double part_solids = outcome.slot_g[s] * slot.per_gram[Component::solids];
    // What stays whole (a slice, a leaf) is one solid here, and is not drunk.
    double own_solids = facts_.stock[slot.stock.index()].composition.per_gram[Component::solids];
    bool is_whole = slot.per_gram[Component::solids] > own_solids + 1e-9;
    other += part_other;
    solids += part_solids;
    sum.of_other += part.of_other * part_other;
    if (!is_whole) sum.of_solids += part.of_solids * part_solids;
  }
  return {other > 0 ? sum.of_other * (1 / other) : MoreNutrients{},
          solids > 0 ? sum.of_solids * (1 / solids) : MoreNutrients{}};
}

const StockMoves& Evaluator::moves_of(analysis::StockId id) {
  auto& moves = moves_[id.index()];
  if (!moves) moves = moves_of_ingredient(id.index());
  return *moves;
}

UncertainInputs Evaluator::uncertain_inputs(const BuiltProgram& built, const analysis::Recipe& recipe,
                                            const analysis::Head& head) {
  return {built,        recipe,
          head,         measuring_,
          facts_.stock, [this](analysis::StockId id) -> const StockMoves& { return moves_of(id); },
          with_hands_};
}

MoreNutrients Evaluator::nutrients_of(const Masses& masses, const Rest& rest) {
  MoreNutrients sum = rest.of_other * masses[Component::other];
  return sum += rest.of_solids * masses[Component::solids];
}

/// What of each thing is in one serve, in grams and pieces.
std::vector<Entry> Evaluator::entries_of(const BuiltProgram& built, const Outcome& outcome, double scale) {
  std::vector<Entry> entries = built.entries;
  for (std::size_t i = 0; i < built.program.operations.size(); ++i) {
    const Operation& operation = built.program.operations[i];
    std::size_t entry = built.entry_of[i];
    if (entry >= entries.size() || outcome.added_g[i] <= 0) continue;
    if (const auto* until = operation.as<operation::Until>()) {
      for (std::size_t p = until->first_portion; p < until->last_portion; ++p)
        entries[entry + p - until->first_portion].mass_g =
            outcome.added_g[i] * built.program.portions[p].share;
    } else if (entries[entry].role != Role::rinse) {
      entries[entry].mass_g = outcome.added_g[i];
    }
  }
  for (auto& entry : entries) {
    if (entry.mass_g) *entry.mass_g *= scale;
    if (entry.count) *entry.count *= scale;
  }
  return entries;
}

template <typename Facts>
void Evaluator::set_costs(Facts& facts) const {
  facts.without_price.clear();
  auto paid_for = come_with_fruit(facts.entries, specs_, units_, *prices_, measuring_);
  CostSum cost;
  for (std::size_t i = 0; i < facts.entries.size(); ++i) {
    auto& entry = facts.entries[i];
    entry.cost.reset();
    if (entry.mass_g) {
      Exact paid_g = paid_for[i] ? Exact(0) : decimal_of(*entry.mass_g);
      const auto& bought = facts_.stock[bought_as(entry.use, specs_, units_, *prices_).index()];
      if (bought.cost_per_g)
        entry.cost = units::Money{fine(paid_g * bought.cost_per_g->amount), facts_.currency};
    } else if (auto each = prices_->exact_per_piece(entry.use); each && entry.count) {
      entry.cost = units::Money{fine(decimal_of(*entry.count) * *each), facts_.currency};
    }
    if (entry.optional) continue;
    if (entry.cost) {
      cost.amount += entry.cost->amount;
    } else if (!is_unweighed_garnish(entry)) {
      cost.complete = false;
      add_without_price(facts.without_price, entry.use.stock);
    }
  }
  if constexpr (requires { facts.cost; }) {
    facts.cost.reset();
    if (cost.complete && !facts.entries.empty())
      facts.cost = units::Money{settled(cost.amount), facts_.currency};
  } else {
    facts.cost_per_g.reset();
    if (cost.complete && facts.yield_g > 0)
      facts.cost_per_g = units::Money{fine(cost.amount / decimal_of(facts.yield_g)), facts_.currency};
  }
}

template <typename Facts>
void Evaluator::finish_entries(Facts& facts, const BuiltProgram& built, const Outcome& outcome,
                               double scale) {
  facts.entries = entries_of(built, outcome, scale);
  for (auto& entry : facts.entries) {
    const auto& part = facts_.stock[entry.use.stock.index()];
    if (entry.mass_g)
      if (auto volume = measuring_.millilitres(entry.use.stock, units::Grams(*entry.mass_g)))
        entry.volume_ml = volume->value;
    // What may be left off may yet be ordered: its allergens are told as contained, on every card; only what
    // it is made of is no more than possible.
    add_allergens(facts.allergens, part.allergens, false);
    add_origins(facts.origins, part.origins, entry.optional);
    add_uses(facts.uses, entry.use.stock);
  }
  set_costs(facts);
  // What is made of something in error is in error, be it only laid on the rim.
  for (auto id : facts.uses) facts.valid = facts.valid && facts_.stock[id.index()].valid;
  order_allergens(facts.allergens, specs_.house.allergen_list);
}

template <typename Facts>
void Evaluator::add_alternatives(const analysis::Recipe& recipe, Facts& facts) const {
  for (const auto& amount : recipe.amounts) {
    for (const auto& use : amount.alternatives) {
      const auto& part = facts_.stock[use.stock.index()];
      add_allergens(facts.allergens, part.allergens, true);
      add_origins(facts.origins, part.origins, true);
    }
  }
}

void Evaluator::add_named(const analysis::Recipe& recipe, DrinkFacts& facts) const {
  for (const auto& step : recipe.steps)
    for (const auto& use : step.named) {
      const auto& part = facts_.stock[use.stock.index()];
      // A word that names what holds nothing listed says nothing of what is known.
      if (part.allergens.present().empty() && part.allergens.possible().empty()) continue;
      add_allergens(facts.allergens, part.allergens, false);
      add_origins(facts.origins, part.origins, false);
    }
}

template void Evaluator::add_alternatives(const analysis::Recipe&, DrinkFacts&) const;
template void Evaluator::add_alternatives(const analysis::Recipe&, StockFacts&) const;
template void Evaluator::set_costs(DrinkFacts&) const;
template void Evaluator::set_costs(StockFacts&) const;
template void Evaluator::finish_entries(DrinkFacts&, const BuiltProgram&, const Outcome&, double);
template void Evaluator::finish_entries(StockFacts&, const BuiltProgram&, const Outcome&, double);

void Evaluator::report_unsolved(const BuiltProgram& built, const Outcome& outcome,
                                const analysis::Recipe& recipe, const std::string& drink) {
  for (const auto& unsolved : outcome.unsolved) {
    const Operation& operation = built.program.operations[unsolved.operation];
    const auto& amount = recipe.amounts[operation.index];
    std::string name = analysis::name_of(amount.use(), specs_, units_);
    if (const auto* fill = operation.as<operation::Fill>()) {
      sink_
          .add(Rule::impossible_composition, amount.quantity.span,
               fmt::format("there are {:.4g} {} already, and `{}` fills up to {}", unsolved.nearest,
                           std::holds_alternative<units::Grams>(fill->target) ? "g" : "ml", name,
                           amount.as_written),
               "Raise the total, or put less in before.")
          .drink = drink;
      continue;
    }
    const auto* until = operation.as<operation::Until>();
    if (!until) continue;
    std::string_view property = word_of(until->property);
    bool is_fraction = !std::holds_alternative<units::GramsInMillilitre>(until->target);
    double scale = is_fraction ? 100 : 1;
    sink_
        .add(Rule::impossible_composition, amount.quantity.span,
             fmt::format("no amount of {} brings the {} to this value; the nearest it comes is {:.3g} %",
                         name, property, unsolved.nearest * scale),
             fmt::format("Change the value, or add something with more {}.", property))
        .drink = drink;
  }
}

HouseFacts evaluate(const analysis::Specs& specs, const units::UnitTable& units,
                    diagnostics::DiagnosticSink& sink) {
  HouseFacts facts;
  Evaluator(specs, units, facts, sink).evaluate();
  return facts;
}

HouseFacts evaluate_written(const analysis::Specs& specs, const units::UnitTable& units,
                            diagnostics::DiagnosticSink& sink) {
  HouseFacts facts;
  Evaluator(specs, units, facts, sink, false).evaluate();
  return facts;
}

}  // namespace gill::model

#include "model/uncertain_inputs.h"

#include <algorithm>

#include "model/serving_ice.h"

namespace gill::model {

using analysis::Amount;
using analysis::Step;
using units::Kind;

namespace {

/// A pour's doubt as a share of it: small pours are the less exact.
double jigger_share_of(const analysis::Use& use, units::Grams amount, const Measuring& measuring) {
  auto volume = measuring.millilitres(use.stock, amount);
  if (!volume || volume->value <= 0) return jigger_share;
  return std::max(jigger_share, jigger_min_ml / volume->value);
}

/// True where a jigger measures it.
bool is_jiggered(const analysis::Use& use, const units::Quantity& quantity, const Measuring& measuring) {
  return (quantity.kind == Kind::volume || quantity.kind == Kind::part) && measuring.is_liquid(use.stock);
}

}  // namespace

UncertainInputs::UncertainInputs(const BuiltProgram& built, const analysis::Recipe& recipe,
                                 const analysis::Head& head, const Measuring& measuring,
                                 const std::vector<StockFacts>& stock, const MovesOf& moves_of,
                                 bool with_hands)
    : program_(built.program), with_hands_(with_hands && !built.program.is_prep) {
  add_amounts(recipe, head, measuring);
  add_slots(stock, moves_of);
  if (with_hands_) add_service();
  if (with_hands && program_.is_prep && !program_.yield_measured)
    inputs_.push_back({{Cause::Kind::hold, {}, head.declaration_id}, program_.hands.hold_width, {}, {}});
}

UncertainInput& UncertainInputs::input_of(const Cause& cause, double width) {
  for (auto& input : inputs_)
    if (input.cause == cause) return input;
  return inputs_.emplace_back(UncertainInput{cause, width, {}, {}});
}

void UncertainInputs::add_amounts(const analysis::Recipe& recipe, const analysis::Head& head,
                                  const Measuring& measuring) {
  for (std::size_t i = 0; i < program_.operations.size(); ++i) {
    const Operation& operation = program_.operations[i];
    const auto* add = operation.as<operation::Add>();
    if (operation.as<operation::Top>()) {
      if (!with_hands_) continue;
      input_of({Cause::Kind::top, {}, {}}, top_share).amounts.push_back({i, top_share});
      continue;
    }
    const analysis::Use* use = nullptr;
    const units::Quantity* quantity = nullptr;
    if (operation.is_amount) {
      const Amount& amount = recipe.amounts[operation.index];
      use = &amount.use();
      quantity = &amount.quantity;
      // A target is met as exactly as its own line says.
      if (!add && !quantity->tolerance) continue;
    } else if (add) {
      const Step& step = recipe.steps[operation.index];
      use = &*step.use;
      if (step.amount) quantity = &*step.amount;
    }
    if (!use || !quantity) continue;
    double share = quantity->kind == Kind::part ? 0 : measuring.relative_tolerance(*use, *quantity);
    if (share > 0) {
      input_of({Cause::Kind::amount, use->stock, head.declaration_id}, share).amounts.push_back({i, share});
    } else if (with_hands_ && add && is_jiggered(*use, *quantity, measuring)) {
      input_of({Cause::Kind::jigger, {}, {}}, jigger_share)
          .amounts.push_back({i, jigger_share_of(*use, add->amount, measuring)});
    }
  }
}

void UncertainInputs::add_slots(const std::vector<StockFacts>& stock, const MovesOf& moves_of) {
  for (std::size_t i = 0; i < program_.slots.size(); ++i) {
    const Slot& slot = program_.slots[i];
    if (slot.juice.valid()) add_juice(i, stock, moves_of);
    // What gives nothing of what it holds moves nothing.
    if (!(slot.per_gram == stock[slot.stock.index()].composition.per_gram)) continue;
    for (const auto& move : moves_of(slot.stock))
      input_of(move.cause, move.width).slots.push_back({i, &move.up, &move.down});
  }
}

/// A whole fruit gives its juice, as sharp and sweet as the juice is that day.
void UncertainInputs::add_juice(std::size_t index, const std::vector<StockFacts>& stock,
                                const MovesOf& moves_of) {
  const Slot& slot = program_.slots[index];
  const Masses& juice = stock[slot.juice.index()].composition.per_gram;
  auto fruit = [&](const Composition& moved) {
    Composition made;
    made.per_gram = slot.per_gram + (moved.per_gram - juice) * slot.juice_share;
    made.density_g_per_ml = slot.density.value;
    return &fruit_.emplace_back(made);
  };
  for (const auto& move : moves_of(slot.juice))
    input_of(move.cause, move.width).slots.push_back({index, fruit(move.up), fruit(move.down)});
}

/// How far the melt may lie: as the house's hands have it in the first step that chills, else on the ice in
/// the glass.
double UncertainInputs::melt_width() const {
  auto first = first_melt(program_);
  auto method = first ? program_.operations[*first].as<operation::Chill>()->method : ChillMethod::build;
  return program_.hands.melt_width[index_of(method)];
}

/// What the bar does to every drink.
void UncertainInputs::add_service() {
  if (!first_melt(program_) && program_.served_ice <= units::Grams(0)) return;
  inputs_.push_back({{Cause::Kind::melt, {}, {}}, melt_width(), {}, {}});
  inputs_.push_back({{Cause::Kind::room, {}, {}}, room_width_k, {}, {}});
  inputs_.push_back({{Cause::Kind::ice, {}, {}}, ice_width_k, {}, {}});
}

const Perturbation& UncertainInputs::moved(const UncertainInput& input, bool up) {
  double sign = up ? 1 : -1;
  moved_.amounts.clear();
  moved_.slots.clear();
  moved_.melt = moved_.hold = 1;
  moved_.room_k = moved_.ice_k = 0;
  if (!input.amounts.empty()) moved_.amounts.assign(program_.operations.size(), 1.0);
  for (const auto& amount : input.amounts) moved_.amounts[amount.operation] = 1 + sign * amount.share;
  if (!input.slots.empty()) moved_.slots.assign(program_.slots.size(), nullptr);
  for (const auto& slot : input.slots) moved_.slots[slot.slot] = up ? slot.up : slot.down;
  if (input.cause.kind == Cause::Kind::melt) moved_.melt = 1 + sign * input.width;
  if (input.cause.kind == Cause::Kind::hold) moved_.hold = std::max(0.0, 1 + sign * input.width);
  if (input.cause.kind == Cause::Kind::room) moved_.room_k = sign * input.width;
  if (input.cause.kind == Cause::Kind::ice) moved_.ice_k = sign * input.width;
  return moved_;
}

}  // namespace gill::model

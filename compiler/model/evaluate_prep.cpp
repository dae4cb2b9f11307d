#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/allergens.h"
#include "model/colour.h"
#include "model/constants.h"
#include "model/evaluator.h"
#include "model/origin.h"
#include "model/physics/gas.h"
#include "model/physics/volume.h"
#include "model/prep_readings.h"

namespace gill::model {

using diagnostics::Rule;
using units::Kind;

namespace {

/// Of what stands in a vessel. A paste or a purée: its solids take room too.
Composition in_vessel(const Masses& masses) {
  Composition composition;
  composition.per_gram = masses * (1 / masses.total());
  double room_ml = volume_ml(masses) + solids_volume_ml(masses);
  composition.density_g_per_ml = room_ml > 0 ? masses.total() / room_ml : density_g_per_ml(masses);
  return composition;
}

/// Every stock that a prep is made of, as it is written.
std::vector<analysis::StockId> parts_of(const analysis::Stock& prep) {
  std::vector<analysis::StockId> parts;
  for (const auto& line : prep.recipe.order) {
    if (line.is_amount) {
      for (const auto& portion : prep.recipe.amounts[line.index].portions) parts.push_back(portion.use.stock);
      for (const auto& use : prep.recipe.amounts[line.index].alternatives) parts.push_back(use.stock);
    } else if (const auto& use = prep.recipe.steps[line.index].use) {
      parts.push_back(use->stock);
    }
  }
  return parts;
}

/// A thousandth of what a bar reads off: strength by 0.01 % vol, sugar by 0.01 g and acid by 0.001 g in 100
/// ml.
bool is_felt(const Concentrations& now, const Composition& composition) {
  Concentrations moved = concentrations(composition.per_gram);
  return std::abs(moved.strength - now.strength) > 1e-6 ||
         std::abs(moved.sugar_g_per_100_ml - now.sugar_g_per_100_ml) > 1e-4 ||
         std::abs(moved.acid_g_per_100_ml - now.acid_g_per_100_ml) > 1e-5;
}

}  // namespace

/// A prep by whose parts one comes back to itself; the last of the way are told.
void Evaluator::report_circle(const std::vector<std::size_t>& circle) {
  constexpr std::size_t most_told = 6;
  const std::size_t first = circle.size() - std::min(circle.size(), most_told);
  const std::size_t part = circle.front();
  std::string path;
  for (std::size_t i = first; i < circle.size(); ++i)
    path += fmt::format("{}`{}`", path.empty() ? "" : ", ", specs_.stock[circle[i]].head.name);
  const auto& head = specs_.stock[part].head;
  in_circle_[part] = true;
  facts_.stock[part].valid = false;
  sink_.add(Rule::name_cycle, head.name_span,
            fmt::format("`{}` is made of itself, by way of {}", head.name, path),
            "Take one of them out, or make it from what is bought.");
}

/// Preps after the preps that they are made of, without recursion. One in a circle is reported and left
/// invalid.
std::vector<std::size_t> Evaluator::prep_order() {
  enum class State : std::uint8_t { fresh, open, done };
  std::vector<State> states(specs_.stock.size(), State::fresh);
  std::vector<std::size_t> order;
  in_circle_.assign(specs_.stock.size(), false);
  struct Frame {
    std::size_t index;
    std::vector<analysis::StockId> parts;
    std::size_t next = 0;
  };
  std::vector<Frame> stack;
  for (std::size_t root = 0; root < specs_.stock.size(); ++root) {
    if (!specs_.stock[root].is_prep || states[root] != State::fresh) continue;
    states[root] = State::open;
    stack.push_back({root, parts_of(specs_.stock[root]), 0});
    while (!stack.empty()) {
      Frame& frame = stack.back();
      if (frame.next == frame.parts.size()) {
        states[frame.index] = State::done;
        order.push_back(frame.index);
        stack.pop_back();
        continue;
      }
      std::size_t part = frame.parts[frame.next++].index();
      if (!specs_.stock[part].is_prep || states[part] == State::done) continue;
      if (states[part] == State::fresh) {
        states[part] = State::open;
        stack.push_back({part, parts_of(specs_.stock[part]), 0});
        continue;
      }
      std::vector<std::size_t> circle;
      for (auto at = stack.rbegin(); at != stack.rend(); ++at) {
        circle.insert(circle.begin(), at->index);
        if (at->index == part) break;
      }
      report_circle(circle);
    }
  }
  return order;
}

/// A prep of which nothing is left, or that has no lines (`empty`), stands for water.
void Evaluator::set_nothing_made(const analysis::Stock& prep, StockFacts& facts, bool empty) {
  facts.valid = false;
  facts.is_empty = facts.allergens.is_of_nothing = empty && !prep.head.has_errors;
  facts.composition.per_gram = only(Component::water, 1);
  set_figures(facts);
  facts.allergens.known = facts.origins.known = facts.allergens.known && !empty;
}

void Evaluator::evaluate_prep(std::size_t index) {
  const auto& prep = specs_.stock[index];
  auto& facts = facts_.stock[index];
  BuiltProgram built = builder_.build(prep);
  bool empty = built.program.operations.empty();
  for (const auto& slot : built.program.slots)
    if (!facts_.stock[slot.stock.index()].valid) built.program.valid = false;
  Simulator simulator(built.program);
  Outcome outcome = simulator.run({}, &facts.trace);
  report_unsolved(built, outcome, prep.recipe, {});
  facts.valid = facts.valid && built.program.valid && outcome.unsolved.empty() && !empty;
  facts.allergens.known = facts.origins.known = !prep.head.has_errors;
  double total = outcome.liquid.total();
  if (total <= 0) return set_nothing_made(prep, facts, empty);
  const Composition made = in_vessel(outcome.liquid);
  facts.composition = made;
  facts.yield_g = total;
  rest_[index] = rest_of(built, outcome);
  moves_[index] = moves_of_prep(prep, facts, built, simulator);
  set_prep_tolerances(facts, *moves_[index]);
  if (is_measured(prep)) {
    set_measured(prep, facts, *moves_[index]);
    add_measured_moves(prep, facts.stock, made, *moves_[index]);
    set_prep_tolerances(facts, *moves_[index]);
  }
  set_yield(prep, facts, outcome);
  set_figures(facts);
  finish_entries(facts, built, outcome, 1);
  add_stated(prep, facts);
  add_alternatives(prep.recipe, facts);
  set_traces(prep, facts, built, outcome);
  facts.shown = shown_of(prep, facts, *moves_[index]);
  order_allergens(facts.allergens, specs_.house.allergen_list);
  set_foaming(prep, facts, built);
  facts.fizz_vol =
      volumes_from_carbon_dioxide_g(outcome.liquid[Component::carbon_dioxide], volume_ml(outcome.liquid));
  set_keeping(prep, facts);
  facts.colour = to_hex(prep.colour.empty() ? light_of_parts(built, outcome) : light_of(prep));
}

/// The allergens and origins that the prep's own lines name, beside its parts'.
void Evaluator::add_stated(const analysis::Stock& prep, StockFacts& facts) const {
  for (const auto& line : prep.allergens) {
    Allergens stated;
    stated.routes.push_back({line.code, line.may, {facts.stock}});
    add_allergens(facts.allergens, stated, false);
  }
  add_origins(facts.origins, stated_origins(prep, facts.stock), false);
}

/// What its parts do in a shaker, unless a line of its own says otherwise.
void Evaluator::set_foaming(const analysis::Stock& prep, StockFacts& facts, const BuiltProgram& built) const {
  for (const auto& slot : built.program.slots) {
    const auto& part = facts_.stock[slot.stock.index()];
    facts.foams = facts.foams || part.foams;
    facts.holds_fat = facts.holds_fat || part.holds_fat;
  }
  if (prep.foams) facts.foams = *prep.foams;
  if (prep.holds_fat) facts.holds_fat = *prep.holds_fat;
}

Light Evaluator::light_of_parts(const BuiltProgram& built, const Outcome& outcome) const {
  std::vector<std::pair<Light, double>> parts;
  for (std::size_t s = 0; s < built.program.slots.size(); ++s) {
    const analysis::StockId id = built.program.slots[s].stock;
    analysis::Stock shown = specs_[id];
    if (const auto& colour = facts_.stock[id.index()].colour; !colour.empty()) shown.colour = colour;
    parts.emplace_back(light_of(shown), outcome.slot_g[s]);
  }
  return mixed(parts);
}

/// What moves a prep: what moves its parts, and the amounts of its own lines. What little causes do is left
/// out: it is in no printed digit. How far they move its yield is told at once.
StockMoves Evaluator::moves_of_prep(const analysis::Stock& prep, StockFacts& facts, const BuiltProgram& built,
                                    Simulator& simulator) {
  auto inputs = uncertain_inputs(built, prep.recipe, prep.head);
  StockMoves moves;
  const Concentrations now = concentrations(facts.composition.per_gram);
  double up_g = 0, down_g = 0, square = 0;
  auto made = [&](const UncertainInput& input, bool up) -> std::optional<Composition> {
    const Outcome& outcome = simulator.run(inputs.moved(input, up));
    if (outcome.liquid.total() <= 0 || !outcome.unsolved.empty()) return std::nullopt;
    (up ? up_g : down_g) = outcome.liquid.total();
    return in_vessel(outcome.liquid);
  };
  for (const auto& input : inputs.all()) {
    auto up = made(input, true), down = made(input, false);
    if (!up || !down) continue;
    square += mean_square(up_g - facts.yield_g, down_g - facts.yield_g);
    if (is_felt(now, *up) || is_felt(now, *down)) moves.push_back({input.cause, input.width, *up, *down});
  }
  facts.yield_tolerance = prep.makes || facts.yield_g <= 0 ? 0 : std::sqrt(square) / facts.yield_g;
  return moves;
}

/// How much the strength, sugar and acid of a prep move with its causes, as shares of themselves.
void Evaluator::set_prep_tolerances(StockFacts& facts, const StockMoves& moves) {
  const Concentrations now = concentrations(facts.composition.per_gram);
  double strength = 0, sugar = 0, acid = 0;
  for (const auto& move : moves) {
    const Concentrations up = concentrations(move.up.per_gram), down = concentrations(move.down.per_gram);
    auto square = [&](double Concentrations::*figure) {
      return mean_square(up.*figure - now.*figure, down.*figure - now.*figure);
    };
    strength += square(&Concentrations::strength);
    sugar += square(&Concentrations::sugar_g_per_100_ml);
    acid += square(&Concentrations::acid_g_per_100_ml);
  }
  auto share = [](double square, double value) { return value > 1e-9 ? std::sqrt(square) / value : 0; };
  facts.strength_tolerance = share(strength, now.strength);
  facts.sugar_tolerance = share(sugar, now.sugar_g_per_100_ml);
  facts.acid_tolerance = share(acid, now.acid_g_per_100_ml);
}

/// Readings replace what was evaluated; both are kept.
void Evaluator::set_measured(const analysis::Stock& prep, StockFacts& facts, const StockMoves& moves) {
  const Concentrations computed = concentrations(facts.composition.per_gram);
  facts.readings = readings_of(prep, facts, shown_of(prep, facts, moves));
  if (prep.strength) facts.computed_abv_percent = base::percent_of_share(computed.strength);
  if (prep.sugar || prep.refractometer) facts.computed_sugar_g_per_100ml = computed.sugar_g_per_100_ml;
  if (!prep.acids.empty()) facts.computed_acid_g_per_100ml = computed.acid_g_per_100_ml;
  if (prep.density || prep.hydrometer) facts.computed_density = computed.density_g_per_ml;
  auto solved = solve_composition(measured_terms(prep, facts.composition));
  if (auto* composition = std::get_if<Composition>(&solved)) {
    facts.composition = *composition;
  } else {
    facts.valid = false;
    report_impossible(prep, std::get<Impossible>(solved));
  }
}

void Evaluator::set_yield(const analysis::Stock& prep, StockFacts& facts, const Outcome& outcome) {
  double would_be_g = outcome.liquid.total();
  double density = facts.composition.density_g_per_ml;
  double would_be_ml = density > 0 ? would_be_g / density : 0;
  facts.yield_g = facts.would_be_g = would_be_g;
  facts.yield_ml = facts.would_be_ml = would_be_ml;
  facts.loss_percent = base::percent_of_share(outcome.held_back_g / (would_be_g + outcome.held_back_g));
  if (!prep.makes) return;
  facts.yield_measured = true;
  const auto& makes = *prep.makes;
  double share = 1;
  if (makes.kind == Kind::volume) {
    facts.yield_ml = makes.number();
    facts.yield_g = makes.number() * density;
    share = would_be_ml > 0 ? facts.yield_ml / would_be_ml : 1;
  } else if (makes.kind == Kind::mass) {
    facts.yield_g = makes.number();
    facts.yield_ml = density > 0 ? facts.yield_g / density : 0;
    share = facts.yield_g / would_be_g;
  } else {
    // Pieces: each weighs its share of all there is, unless `each` says what one weighs.
    facts.yield_count = makes.number();
    if (auto each = prep.each.find(units::UnitId{});
        each != prep.each.end() && each->second.kind == Kind::mass) {
      facts.yield_g = each->second.number() * makes.number();
      facts.yield_ml = density > 0 ? facts.yield_g / density : 0;
      share = facts.yield_g / would_be_g;
    }
  }
  facts.loss_percent = base::percent_of_share(1 - share);
  // A spoonful more than what goes in is an error of reading, which `yield-over-input` judges.
  facts.loss_percent = std::max(0.0, facts.loss_percent);
}

/// What is written, else the shortest of the parts, kept as the coldest of them.
void Evaluator::set_keeping(const analysis::Stock& prep, StockFacts& facts) {
  if (prep.keeps) {
    facts.keeps_days = prep.keeps->duration.number() / 86400;
    facts.storage = prep.keeps->storage;
    facts.is_keeping_stated = true;
    return;
  }
  for (const auto& entry : facts.entries) {
    const auto& part = facts_.stock[entry.use.stock.index()];
    if (!part.keeps_days) continue;
    if (!facts.keeps_days || *part.keeps_days < *facts.keeps_days) facts.keeps_days = part.keeps_days;
    if (part.storage && (!facts.storage || *part.storage > *facts.storage) &&
        *part.storage != analysis::Storage::frozen)
      facts.storage = part.storage;
  }
}

}  // namespace gill::model

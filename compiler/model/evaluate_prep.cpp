#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/allergens.h"
#include "model/colour.h"
#include "model/constants.h"
#include "model/evaluator.h"
#include "model/origin.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/gas.h"
#include "model/physics/readings.h"
#include "model/physics/sucrose.h"
#include "model/physics/volume.h"

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

bool is_measured(const analysis::Stock& prep) {
  return prep.strength || prep.sugar || !prep.acids.empty() || prep.density || prep.refractometer ||
         prep.hydrometer;
}

bool is_by_mass(const units::Quantity& quantity) { return quantity.kind == Kind::mass_fraction; }

/// What a titration gave, g in 100 ml or in 100 g as its line has it.
double acid_reading(const analysis::Stock& prep) {
  double measured = 0;
  for (const auto& line : prep.acids) measured += base::per_100_ml(line.quantity.number());
  return measured;
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

/// Preps after the preps that they are made of, without recursion. One in a circle is reported and left
/// invalid.
std::vector<std::size_t> Evaluator::prep_order() {
  enum class State : std::uint8_t { fresh, open, done };
  std::vector<State> states(specs_.stock.size(), State::fresh);
  std::vector<std::size_t> order;
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
      std::vector<std::string> circle;
      for (auto at = stack.rbegin(); at != stack.rend() && circle.size() < 6; ++at) {
        circle.insert(circle.begin(), fmt::format("`{}`", specs_.stock[at->index].head.name));
        if (at->index == part) break;
      }
      const auto& head = specs_.stock[part].head;
      facts_.stock[part].valid = false;
      std::string path;
      for (const auto& name : circle) path += (path.empty() ? "" : ", ") + name;
      sink_.add(Rule::name_cycle, head.name_span,
                fmt::format("`{}` is made of itself, by way of {}", head.name, path),
                "Take one of them out, or make it from what is bought.");
    }
  }
  return order;
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
  if (total <= 0) {
    facts.valid = false;
    facts.composition.per_gram = only(Component::water, 1);
    set_figures(facts);
    facts.allergens.known = facts.origins.known = facts.allergens.known && !empty;
    return;
  }
  const Composition made = in_vessel(outcome.liquid);
  facts.composition = made;
  facts.yield_g = total;
  rest_[index] = rest_of(built, outcome);
  moves_[index] = moves_of_prep(prep, facts, built, simulator);
  set_prep_tolerances(facts, *moves_[index]);
  if (is_measured(prep)) {
    set_measured(prep, facts, *moves_[index]);
    add_measured_moves(facts.stock, made, *moves_[index]);
    set_prep_tolerances(facts, *moves_[index]);
  }
  set_yield(prep, facts, outcome, built);
  set_figures(facts);
  finish_entries(facts, built, outcome, 1);
  for (const auto& line : prep.allergens) {
    Allergens stated;
    stated.routes.push_back({line.code, line.may, {facts.stock}});
    add_allergens(facts.allergens, stated, false);
  }
  add_origins(facts.origins, stated_origins(prep, facts.stock), false);
  for (const auto& line : prep.recipe.order) {
    if (!line.is_amount) continue;
    for (const auto& use : prep.recipe.amounts[line.index].alternatives) {
      const auto& part = facts_.stock[use.stock.index()];
      add_allergens(facts.allergens, part.allergens, true);
      add_origins(facts.origins, part.origins, true);
    }
  }
  set_traces(prep, facts, built, outcome);
  facts.shown = shown_of(prep, facts, *moves_[index]);
  order_allergens(facts.allergens, specs_.house.allergen_list);
  for (const auto& slot : built.program.slots) {
    const auto& part = facts_.stock[slot.stock.index()];
    facts.foams = facts.foams || part.foams;
    facts.holds_fat = facts.holds_fat || part.holds_fat;
  }
  if (prep.foams) facts.foams = *prep.foams;
  if (prep.holds_fat) facts.holds_fat = *prep.holds_fat;
  facts.fizz_vol =
      volumes_from_carbon_dioxide_g(outcome.liquid[Component::carbon_dioxide], volume_ml(outcome.liquid));
  set_keeping(prep, facts);
  if (!prep.colour.empty()) {
    facts.colour = to_hex(light_of(prep));
  } else {
    std::vector<std::pair<Light, double>> parts;
    for (std::size_t s = 0; s < built.program.slots.size(); ++s) {
      analysis::Stock shown = specs_[built.program.slots[s].stock];
      if (!facts_.stock[built.program.slots[s].stock.index()].colour.empty())
        shown.colour = facts_.stock[built.program.slots[s].stock.index()].colour;
      parts.emplace_back(light_of(shown), outcome.slot_g[s]);
    }
    facts.colour = to_hex(mixed(parts));
  }
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

namespace {

/// Where a hydrometer floats, as a density: its own scale, or the sugar or the strength that one as heavy
/// has.
double density_shown(const units::Quantity& hydrometer) {
  switch (hydrometer.kind) {
    case Kind::mass_fraction:
      return sucrose::density_g_per_ml(hydrometer.number());
    case Kind::strength:
      return ethanol_water::density_g_per_ml(ethanol_water::mass_fraction_from_strength(hydrometer.number()));
    default:
      return hydrometer.number() * ethanol_water::water_density_g_per_ml;
  }
}

/// The sugar with which a refractometer would show so much; as it was where no sugar does.
void read_as(DeclaredTerms& terms, double brix) {
  DeclaredTerms tried = terms;
  auto shown = [&](double sugar_fraction) {
    tried[Component::sugar] = Declared::by_mass(sugar_fraction);
    auto solved = solve_composition(tried);
    const auto* composition = std::get_if<Composition>(&solved);
    return composition ? refractometer_brix(composition->per_gram) : std::nullopt;
  };
  constexpr double least_step = 1e-7;
  double low = 0, high = sucrose::highest_mass_fraction;
  if (auto without = shown(0); !without || *without >= brix) {
    if (without) terms[Component::sugar] = Declared::by_mass(0);
    return;
  }
  while (high - low > least_step) {
    double middle = (low + high) / 2;
    auto reading = shown(middle);
    // What does not go into a millilitre is too much.
    (reading && *reading < brix ? low : high) = middle;
  }
  terms[Component::sugar] = Declared::by_mass(low);
}

}  // namespace

/// What was made, with the readings of a hydrometer, refractometer or meter in place of what was worked out.
DeclaredTerms Evaluator::measured_terms(const analysis::Stock& prep, const Composition& made) {
  Concentrations computed = concentrations(made.per_gram);
  DeclaredTerms terms;
  double liquid = made.per_gram.liquid();
  for (Component component : components) {
    if (component == Component::water || component == Component::ethanol ||
        component == Component::carbon_dioxide || component == Component::solids)
      continue;
    if (made.per_gram[component] > 0)
      terms[component] = Declared::per_100_ml(
          base::per_100_ml(made.per_gram[component] / liquid * computed.density_g_per_ml));
  }
  terms.strength = prep.strength ? prep.strength->number() : computed.strength;
  if (prep.sugar)
    terms[Component::sugar] = prep.sugar->kind == Kind::mass_fraction
                                  ? Declared::by_mass(prep.sugar->number())
                                  : Declared::per_100_ml(base::per_100_ml(prep.sugar->number()));
  if (!prep.acids.empty()) {
    // A titration gives citric equivalents: the acids that are there keep their proportions.
    double reading = acid_reading(prep);
    double per_100_ml =
        is_by_mass(prep.acids.front().quantity) ? reading * computed.density_g_per_ml : reading;
    double scale = computed.acid_g_per_100_ml > 0 ? per_100_ml / computed.acid_g_per_100_ml : 0;
    for (Component acid : acids) terms[acid] *= scale;
    if (scale == 0) terms[Component::citric] = Declared::per_100_ml(reading);
  }
  if (prep.density) terms.density_g_per_ml = prep.density->number();
  if (prep.hydrometer) terms.density_g_per_ml = density_shown(*prep.hydrometer);
  if (prep.refractometer) read_as(terms, base::percent_of_share(prep.refractometer->number()));
  return terms;
}

/// Readings replace what was evaluated; both are kept.
void Evaluator::set_measured(const analysis::Stock& prep, StockFacts& facts, const StockMoves& moves) {
  const Masses made = facts.composition.per_gram;
  const Concentrations computed = concentrations(made);
  const Shown shown = shown_of(prep, facts, moves);
  auto compare = [&](Reading::Of of, const units::Quantity& written, double measured, double value,
                     double tolerance, double instrument_error, std::string_view unit,
                     std::optional<double> instrument_shows = std::nullopt) {
    facts.readings.push_back(
        {of, written.span, measured, value, tolerance,
         written.tolerance ? std::optional(written.relative_tolerance() * std::abs(measured)) : std::nullopt,
         instrument_error, unit, instrument_shows});
  };
  auto compare_content = [&](Reading::Of of, const units::Quantity& written, double measured, double value,
                             double share, std::string_view unit, std::optional<double> instrument_shows) {
    compare(of, written, measured, value, share * std::abs(value), reading_error_share * std::abs(measured),
            unit, instrument_shows);
  };
  if (prep.strength) {
    facts.computed_abv_percent = base::percent_of_share(computed.strength);
    compare_content(Reading::Of::strength, *prep.strength, base::percent_of_share(prep.strength->number()),
                    base::percent_of_share(computed.strength), facts.strength_tolerance, "% abv",
                    shown.hydrometer_abv_percent);
  }
  if (prep.sugar || prep.refractometer) facts.computed_sugar_g_per_100ml = computed.sugar_g_per_100_ml;
  if (prep.sugar) {
    bool by_mass = is_by_mass(*prep.sugar);
    compare_content(Reading::Of::sugar, *prep.sugar, base::per_100_ml(prep.sugar->number()),
                    by_mass ? computed.brix : computed.sugar_g_per_100_ml, facts.sugar_tolerance,
                    by_mass ? "% w/w" : "% w/v", by_mass ? shown.refractometer_brix : std::nullopt);
  }
  if (!prep.acids.empty()) {
    facts.computed_acid_g_per_100ml = computed.acid_g_per_100_ml;
    bool by_mass = is_by_mass(prep.acids.front().quantity);
    compare_content(
        Reading::Of::acid, prep.acids.front().quantity, acid_reading(prep),
        by_mass ? computed.acid_g_per_100_ml / computed.density_g_per_ml : computed.acid_g_per_100_ml,
        facts.acid_tolerance, by_mass ? "% w/w" : "% w/v", std::nullopt);
  }
  if (prep.density || prep.hydrometer) facts.computed_density = computed.density_g_per_ml;
  if (prep.density)
    compare(Reading::Of::density, *prep.density, prep.density->number(), computed.density_g_per_ml,
            shown.density_tolerance_g_per_ml, jug_error_share * prep.density->number(), "g/ml");
  if (prep.refractometer && shown.refractometer_brix)
    compare(Reading::Of::refractometer, *prep.refractometer,
            base::percent_of_share(prep.refractometer->number()), *shown.refractometer_brix,
            shown.refractometer_tolerance_brix, refractometer_error_brix, "brix");
  if (prep.hydrometer) {
    double water = ethanol_water::water_density_g_per_ml;
    compare(Reading::Of::hydrometer, *prep.hydrometer, density_shown(*prep.hydrometer) / water,
            computed.density_g_per_ml / water, shown.density_tolerance_g_per_ml / water,
            hydrometer_error_g_per_ml / water, "");
    // Its tolerance is on the scale on which it was read.
    if (prep.hydrometer->kind != Kind::count) facts.readings.back().measured_tolerance.reset();
  }
  auto solved = solve_composition(measured_terms(prep, facts.composition));
  if (auto* composition = std::get_if<Composition>(&solved)) {
    facts.composition = *composition;
  } else {
    facts.valid = false;
    report_impossible(prep, std::get<Impossible>(solved));
  }
}

/// What was read is no longer moved by what went in, and lies as far off as its own line says.
void Evaluator::add_measured_moves(analysis::StockId prep_id, const Composition& made,
                                   StockMoves& moves) const {
  const auto& prep = specs_[prep_id];
  auto solved = [](const DeclaredTerms& terms, const Composition& otherwise) {
    auto composition = solve_composition(terms);
    const auto* found = std::get_if<Composition>(&composition);
    return found ? *found : otherwise;
  };
  for (auto& move : moves) {
    move.up = solved(measured_terms(prep, move.up), move.up);
    move.down = solved(measured_terms(prep, move.down), move.down);
  }
  const DeclaredTerms terms = measured_terms(prep, made);
  auto add = [&](Cause::Kind kind, double width) {
    if (width <= 0) return;
    auto moved = [&](double sign) {
      DeclaredTerms changed = terms;
      move_declared(changed, kind, sign * width);
      return solved(changed, made);
    };
    moves.push_back({{kind, prep_id, {}}, width, moved(1), moved(-1)});
  };
  if (prep.strength) add(Cause::Kind::strength, prep.strength->tolerance.value_or(0));
  if (prep.sugar) add(Cause::Kind::sugar, prep.sugar->relative_tolerance());
  if (prep.refractometer) add(Cause::Kind::sugar, prep.refractometer->relative_tolerance());
  if (!prep.acids.empty()) add(Cause::Kind::acid, prep.acids.front().quantity.relative_tolerance());
}

void Evaluator::set_yield(const analysis::Stock& prep, StockFacts& facts, const Outcome& outcome,
                          const BuiltProgram&) {
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

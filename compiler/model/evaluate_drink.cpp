#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/allergens.h"
#include "model/colour.h"
#include "model/constants.h"
#include "model/entries.h"
#include "model/evaluator.h"
#include "model/glass_level.h"
#include "model/glass_profile.h"
#include "model/origin.h"
#include "model/physics/alcohol_units.h"
#include "model/physics/energy.h"
#include "model/physics/gas.h"
#include "model/physics/volume.h"
#include "model/serving_ice.h"

namespace gill::model {

using units::Kind;

namespace {

double bottle_water_ml(const analysis::Drink& drink, const std::vector<TraceStep>& trace) {
  double grams = 0;
  for (const auto& step : trace)
    if (!step.is_amount && drink.recipe.steps[step.index].verb != analysis::Verb::blend) grams += step.melt_g;
  return volume_ml(only(Component::water, grams));
}

/// Where the drink comes to at least, ml.
double lowest_level_ml(const DrinkFacts& facts) {
  double spare_ice_ml = facts.served_on.is_measured ? 0 : (1 - min_scoop_share) * facts.in_glass.ice_below_ml;
  return facts.in_glass.level_ml - spare_ice_ml - facts.written_tolerance.volume_ml;
}

}  // namespace

void Evaluator::evaluate_drink(std::size_t index) {
  const auto& drink = specs_.drinks[index];
  auto& facts = facts_.drinks[index];
  facts.drink = analysis::DrinkId::at(index);
  facts.serves = drink.serves;
  facts.shared = drink.serves > 1 && drink.cup.valid();
  facts.drunk_from = facts.shared ? drink.cup : drink.glass;
  BuiltProgram built = builder_.build(drink);
  for (const auto& slot : built.program.slots)
    if (!facts_.stock[slot.stock.index()].valid) built.program.valid = false;
  Simulator simulator(built.program);
  Outcome outcome = simulator.run({}, &facts.trace);
  report_unsolved(built, outcome, drink.recipe, drink.head.name);
  facts.is_empty = outcome.mixed.total() <= 0 && !drink.head.has_errors;
  facts.valid = built.program.valid && outcome.unsolved.empty() && !facts.is_empty;
  const double scale = 1 / drink.serves;
  set_states(drink, facts, built, outcome, simulator);
  set_energy(facts, built, outcome.liquid * scale, rest_of(built, outcome));
  set_alcohol_units(facts);
  finish_entries(facts, built, outcome, scale);
  add_alternatives(drink.recipe, facts);
  add_named(drink.recipe, facts);
  note_unknown_garnishes(drink, facts);
  if (drink.head.has_errors || facts.is_empty) facts.allergens.known = facts.origins.known = false;
  facts.allergens.is_of_nothing = facts.is_empty;
  set_traces(drink, facts, built, outcome);
  order_allergens(facts.allergens, specs_.house.allergen_list);
  set_in_glass(facts, built, outcome);
  set_colour(drink, facts, outcome);
  set_tolerances(drink, facts, built, simulator);
  if (facts.glass_fill_percent)
    facts.overflows =
        lowest_level_ml(facts) > (1 + petty_overflow_share) * specs_[facts.drunk_from].holds->number();
  set_alternatives(drink, facts, built, simulator);
}

/// What it is as poured, as served and as it stands.
void Evaluator::set_states(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                           const Outcome& outcome, const Simulator& simulator) {
  double scale = 1 / drink.serves;
  facts.mixed = figures_of(outcome.mixed, specs_.house.room_c, scale);
  facts.served = figures_of(outcome.liquid, outcome.temperature_c, scale);
  facts.reached_glass = outcome.reached_glass;
  facts.served_on = built.program.served_on;
  facts.ice_used = ice_used(built.program, outcome, scale);
  facts.is_hot = facts.served.temperature_c >= hot_drink_from_c;
  // Melt as the volume that it adds: water's, at 20 °C.
  double mixed_ml = volume_ml(outcome.mixed);
  facts.dilution_percent =
      mixed_ml > 0 ? base::percent_of_share(volume_ml(only(Component::water, outcome.melt_g)) / mixed_ml) : 0;
  facts.bottle_water_ml = bottle_water_ml(drink, facts.trace) * scale;
  for (double minutes : later_minutes) {
    if (outcome.ice_g <= 0) break;
    auto later = simulator.stood_for(60 * minutes);
    facts.served_later.push_back(
        {minutes, figures_of(later.liquid, later.temperature_c, scale), later.ice_g * scale});
  }
  facts.fizz_vol =
      volumes_from_carbon_dioxide_g(outcome.liquid[Component::carbon_dioxide], volume_ml(outcome.liquid));
  facts.ethanol_g = outcome.liquid[Component::ethanol] * scale;
}

void Evaluator::set_alcohol_units(DrinkFacts& facts) const {
  for (std::string_view country : {std::string_view("UK"), std::string_view("US"), std::string_view("AU"),
                                   std::string_view(specs_.house.alcohol_unit)})
    if (const auto* unit = find_alcohol_unit(country))
      facts.alcohol_units[std::string(country)] = units_of(*unit, facts.ethanol_g);
}

/// What nobody can look up may hold anything.
void Evaluator::note_unknown_garnishes(const analysis::Drink& drink, DrinkFacts& facts) {
  for (const auto& line : drink.recipe.order) {
    if (line.is_amount || !drink.recipe.steps[line.index].unknown_garnish) continue;
    facts.allergens.known = facts.origins.known = false;
    facts.allergens.undeclared.push_back(drink.recipe.steps[line.index].words);
    facts.origins.undeclared.push_back(drink.recipe.steps[line.index].words);
  }
}

/// Energy of the liquid, of what floats in it and of what is drunk off the rim.
void Evaluator::set_energy(DrinkFacts& facts, const BuiltProgram& built, const Masses& drunk,
                           const Rest& rest) {
  Energy sum = energy(drunk, nutrients_of(drunk, rest));
  for (const auto& entry : built.entries) {
    if (entry.role != Role::rim || !entry.mass_g) continue;
    std::size_t part = entry.use.stock.index();
    Masses rim = facts_.stock[part].composition.per_gram * (*entry.mass_g * rim_drunk_share / facts.serves);
    sum += energy(rim, nutrients_of(rim, rest_[part]));
  }
  facts.energy_kcal = sum.kcal;
  facts.energy_kj = sum.kj;
}

namespace {

/// The figures that have a tolerance; a ratio only where there is acid.
Tolerance known_of(const Figures& figures) {
  return {figures.abv_percent, figures.sugar_g_per_100ml, figures.acid_g_per_100ml, figures.volume_ml,
          figures.sugar_acid_ratio().value_or(0)};
}

constexpr double Tolerance::*tolerances[] = {&Tolerance::abv_percent, &Tolerance::sugar_g_per_100ml,
                                             &Tolerance::acid_g_per_100ml, &Tolerance::volume_ml,
                                             &Tolerance::sugar_acid_ratio};

}  // namespace

/// One cause moved at a time, up and down, through the whole simulation; the effects add as squares.
void Evaluator::set_tolerances(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                               Simulator& simulator) {
  auto inputs = uncertain_inputs(built, drink.recipe, drink.head);
  const Tolerance now = known_of(facts.served);
  auto figures = [&](const UncertainInput& input, bool up) {
    const Outcome& outcome = simulator.run(inputs.moved(input, up));
    return known_of(figures_of(outcome.liquid, outcome.temperature_c, 1 / facts.serves));
  };
  Tolerance all, written;
  for (const auto& input : inputs.all()) {
    Influence influence{input.cause, input.width, {}};
    Tolerance up = figures(input, true), down = figures(input, false);
    for (auto figure : tolerances) {
      // Without acid on one side there is no ratio to compare.
      if (figure == &Tolerance::sugar_acid_ratio &&
          (up.*figure == 0 || down.*figure == 0 || now.*figure == 0))
        continue;
      double rise = up.*figure - now.*figure, fall = down.*figure - now.*figure;
      double square = mean_square(rise, fall);
      influence.effect.*figure = std::copysign(std::sqrt(square), rise - fall);
      all.*figure += square;
      if (!is_of_hands(input.cause.kind)) written.*figure += square;
    }
    facts.influences.push_back(influence);
  }
  for (auto figure : tolerances) {
    facts.tolerance.*figure = std::sqrt(all.*figure);
    facts.written_tolerance.*figure = std::sqrt(written.*figure);
  }
  // What is as sweet as so much sugar is as unsure as the sugar, and by its kinds.
  auto sweetness = [&](const Tolerance& tolerance) {
    double sugar = facts.served.sugar_g_per_100ml;
    return sugar > 0 ? std::hypot(tolerance.sugar_g_per_100ml * facts.sweetness_g_per_100ml / sugar,
                                  facts.sweetness_width)
                     : 0;
  };
  facts.tolerance.sweetness_g_per_100ml = sweetness(facts.tolerance);
  facts.written_tolerance.sweetness_g_per_100ml = sweetness(facts.written_tolerance);
}

void Evaluator::set_in_glass(DrinkFacts& facts, const BuiltProgram& built, const Outcome& outcome) {
  facts.in_glass = in_glass_of(facts, specs_, built, outcome);
  auto glass = facts.drunk_from;
  if (!glass.valid() || !specs_[glass].holds || specs_[glass].holds->number() <= 0) return;
  facts.glass_fill_percent = base::percent_of_share(facts.in_glass.level_ml / specs_[glass].holds->number());
}

void Evaluator::set_alternatives(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                                 Simulator& simulator) {
  for (const auto& amount : drink.recipe.amounts) {
    for (const auto& use : amount.alternatives) {
      const auto& substitute = facts_.stock[use.stock.index()];
      for (std::size_t s = 0; s < built.program.slots.size(); ++s) {
        if (built.program.slots[s].stock != amount.use().stock || !substitute.valid) continue;
        Perturbation swapped;
        swapped.slots.resize(built.program.slots.size());
        swapped.slots[s] = &substitute.composition;
        const Outcome& outcome = simulator.run(swapped);
        facts.alternatives.push_back({amount.use().stock, use.stock,
                                      figures_of(outcome.liquid, outcome.temperature_c, 1 / drink.serves)});
      }
    }
  }
}

void Evaluator::set_colour(const analysis::Drink& drink, DrinkFacts& facts, const Outcome& outcome) {
  if (!drink.colour.empty()) {
    analysis::Stock shown;
    shown.colour = drink.colour;
    facts.colour = to_hex(light_of(shown));
    return;
  }
  std::vector<std::pair<Light, double>> parts;
  for (const auto& entry : facts.entries) {
    if (entry.optional || !entry.mass_g || is_laid_on(entry.role)) continue;
    if (!measuring_.is_liquid(entry.use.stock)) continue;
    analysis::Stock shown;
    shown.colour = facts_.stock[entry.use.stock.index()].colour;
    parts.emplace_back(light_of(shown), *entry.mass_g);
  }
  parts.emplace_back(Light{}, outcome.melt_g / drink.serves);
  facts.colour = to_hex(mixed(parts));
}

}  // namespace gill::model

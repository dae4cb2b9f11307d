// What a whole has of its parts beside the masses that the simulation moves: how sweet its sugar tastes, and
// what is there by the milligram.
#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/allergens.h"
#include "model/evaluator.h"
#include "model/physics/readings.h"
#include "model/physics/volume.h"
#include "model/routes.h"

namespace gill::model {
namespace {

constexpr double mg_per_g = 1000, ml_per_l = 1000;

/// Grams of what neither boils off nor is strained off alone: by its share is told how much of the liquid is
/// left.
double staying(const Masses& masses) {
  return masses[Component::sugar] + masses.all_acids() + masses[Component::salt] + masses[Component::other];
}

/// How much of what was dissolved is still there.
double share_kept(const Outcome& outcome) {
  constexpr double something_g = 1e-6;
  const double put_in = staying(outcome.mixed);
  if (put_in > something_g) return std::clamp(staying(outcome.liquid) / put_in, 0.0, 1.0);
  const double liquid = outcome.mixed.liquid();
  return liquid > 0 ? std::min(outcome.liquid.liquid() / liquid, 1.0) : 0.0;
}

RelativeSweetness sweetness_of_stock(const analysis::Stock& stock) {
  RelativeSweetness sum{0, 0};
  double said = 0;
  auto add = [&](double share, const RelativeSweetness& of_kind) {
    sum.typical += share * of_kind.typical;
    sum.width = std::hypot(sum.width, share * of_kind.width);
  };
  for (const auto& share : stock.sugars) {
    add(share.share, sweetness_of(share.kind));
    said += share.share;
  }
  // Shares rounded in a table may pass the whole by a little.
  if (said > 1) return {sum.typical / said, sum.width / said};
  add(1 - said, sweetness_of_unknown_sugar);
  return sum;
}

}  // namespace

/// Of an ingredient, by its own lines.
void Evaluator::set_traces_of_ingredient(StockFacts& facts) {
  const auto& stock = specs_[facts.stock];
  Extras& extras = extras_[facts.stock.index()];
  extras.sweetness = sweetness_of_stock(stock);
  extras.other_sugars = 1;
  for (const auto& share : stock.sugars)
    if (share.kind == analysis::SugarKind::sucrose) extras.other_sugars -= share.share;
  extras.other_sugars = std::max(extras.other_sugars, 0.0);
  const double density = facts.composition.density_g_per_ml;
  for (TraceKind kind : trace_kinds) {
    const auto& quantity = stated(stock, kind);
    if (!quantity || !(quantity->number() > 0)) continue;
    const double share = quantity->kind == units::Kind::mass_fraction ? quantity->number()
                         : density > 0                                ? quantity->number() / density
                                                                      : 0;
    extras.mg_in_a_gram[index_of(kind)] = mg_per_g * share;
    Trace& trace = facts.traces[index_of(kind)];
    trace.via = {facts.stock};
    // Nobody drinks a litre of leaves.
    if (stock.effective_form() == analysis::Form::liquid)
      trace.mg_per_l = mg_per_g * share * density * ml_per_l;
  }
  set_sweetness(facts, extras.sweetness);
  facts.statements = statements_of(facts.traces, stock.head.name, specs_);
}

void Evaluator::set_sweetness(StockFacts& facts, const RelativeSweetness& sweetness) {
  facts.sweetness_g_per_100ml = facts.sugar_g_per_100ml * sweetness.typical;
  facts.sweetness_tolerance = std::hypot(facts.sugar_tolerance, sweetness.width / sweetness.typical);
}

/// Of what is made: the mean of what its parts bring of sugar, and the sum of what they bring by the
/// milligram. Steeped and strained things count as having given all that they held.
Evaluator::Extras Evaluator::extras_of(const BuiltProgram& built, const Outcome& outcome,
                                       Traces& traces) const {
  Extras sum;
  double sugar_g = 0, sweet_g = 0, other_g = 0, square = 0;
  const double kept = share_kept(outcome);
  const double liquid_g = outcome.liquid.liquid(), liquid_l = volume_ml(outcome.liquid) / ml_per_l;
  for (std::size_t s = 0; s < built.program.slots.size(); ++s) {
    const Slot& slot = built.program.slots[s];
    const Extras& part = extras_[slot.stock.index()];
    const double put_g = outcome.put_g[s];
    const double sugar = put_g * slot.per_gram[Component::sugar];
    sugar_g += sugar;
    sweet_g += sugar * part.sweetness.typical;
    other_g += sugar * part.other_sugars;
    square += std::pow(sugar * part.sweetness.width, 2);
    if (!(put_g > 0) || !(liquid_g > 0)) continue;
    for (TraceKind kind : trace_kinds) {
      const std::size_t k = index_of(kind);
      if (!(part.mg_in_a_gram[k] > 0)) continue;
      const double mg = kept * put_g * part.mg_in_a_gram[k];
      sum.mg_in_a_gram[k] += mg / liquid_g;
      traces[k].mg_per_l = traces[k].mg_per_l.value_or(0) + mg / liquid_l;
      for (auto id : facts_.stock[slot.stock.index()].traces[k].via) add_once(traces[k].via, id);
    }
  }
  if (sugar_g > 0) {
    sum.sweetness = {sweet_g / sugar_g, std::sqrt(square) / sugar_g};
    sum.other_sugars = other_g / sugar_g;
  }
  for (auto& trace : traces) std::sort(trace.via.begin(), trace.via.end());
  return sum;
}

/// More sulphites than the law's threshold are an allergen that is there, whatever the parts' lines say of
/// it. Less of them clears nothing.
void Evaluator::add_sulphites(const std::vector<Statement>& statements, Allergens& allergens) const {
  for (const auto& statement : statements) {
    if (statement.kind != Statement::Kind::sulphites) continue;
    Allergens summed;
    summed.routes.push_back({"sulphites", false, statement.via});
    add_allergens(allergens, summed, false);
  }
}

void Evaluator::set_traces(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                           const Outcome& outcome) {
  Extras extras = extras_of(built, outcome, facts.traces);
  facts.sweetness_g_per_100ml = facts.served.sugar_g_per_100ml * extras.sweetness.typical;
  facts.sweetness_width = facts.served.sugar_g_per_100ml * extras.sweetness.width;
  facts.statements = statements_of(facts.traces, drink.head.name, specs_);
  add_sulphites(facts.statements, facts.allergens);
}

void Evaluator::set_traces(const analysis::Stock& prep, StockFacts& facts, const BuiltProgram& built,
                           const Outcome& outcome) {
  Extras& extras = extras_[facts.stock.index()];
  extras = extras_of(built, outcome, facts.traces);
  set_sweetness(facts, extras.sweetness);
  facts.statements = statements_of(facts.traces, prep.head.name, specs_);
  add_sulphites(facts.statements, facts.allergens);
}

Shown shown_of_density(double density_g_per_ml, std::optional<double> bottle_ml) {
  Shown shown;
  shown.hydrometer_specific_gravity = specific_gravity(density_g_per_ml);
  shown.hydrometer_brix = hydrometer_brix(density_g_per_ml);
  if (auto strength = hydrometer_strength(density_g_per_ml))
    shown.hydrometer_abv_percent = base::percent_of_share(*strength);
  shown.weight_of_100ml_g = base::per_100_ml(density_g_per_ml);
  shown.bottle_ml = bottle_ml;
  if (bottle_ml) shown.bottle_g = *bottle_ml * density_g_per_ml;
  return shown;
}

/// What the instruments would show of a prep, with what moves it and what the rules do not know.
Shown Evaluator::shown_of(const analysis::Stock& prep, const StockFacts& facts,
                          const StockMoves& moves) const {
  if (prep.effective_form() != analysis::Form::liquid) return {};
  const Masses& masses = facts.composition.per_gram;
  const double density = facts.composition.density_g_per_ml;
  std::optional<double> bottle_ml;
  if (prep.bottle && prep.bottle->kind == units::Kind::volume) bottle_ml = prep.bottle->number();
  Shown shown = shown_of_density(density, bottle_ml);
  double reading_square = std::pow(refractometer_doubt_brix(masses), 2), density_square = 0;
  shown.refractometer_brix = refractometer_brix(masses);
  // Fruit sugar and grape sugar are read so much lower than table sugar (CRC Handbook of Chemistry and
  // Physics, 102nd edition, CRC Press: 1.3 to 1.8 % from 20 to 48 % by mass), and are reckoned as table
  // sugar.
  constexpr double other_sugar_reads_less = 0.016;
  reading_square += std::pow(other_sugar_reads_less * extras_[facts.stock.index()].other_sugars *
                                 shown.refractometer_brix.value_or(0),
                             2);
  for (const auto& move : moves) {
    if (shown.refractometer_brix) {
      const auto up = refractometer_brix(move.up.per_gram), down = refractometer_brix(move.down.per_gram);
      if (up && down)
        reading_square += mean_square(*up - *shown.refractometer_brix, *down - *shown.refractometer_brix);
    }
    density_square += mean_square(move.up.density_g_per_ml - density, move.down.density_g_per_ml - density);
  }
  shown.refractometer_tolerance_brix = std::sqrt(reading_square);
  shown.density_tolerance_g_per_ml = std::sqrt(density_square);
  return shown;
}

}  // namespace gill::model

#include "base/percent.h"
#include "model/figures_table.h"

#include <algorithm>
#include <cmath>

#include "model/physics/volume.h"
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

// ---- a drink on trial

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

Figures TrialDrink::served() const {
  diagnostics::DiagnosticSink unheard;
  ProgramBuilder builder(specs_, units_, facts_.stock, unheard);
  BuiltProgram built = builder.build(drink_);
  Simulator simulator(built.program);
  const Outcome& outcome = simulator.run();
  auto in = concentrations(outcome.liquid);
  double share = 1 / drink_.serves;
  return {in.volume_ml * share,
          outcome.liquid.liquid() * share,
          base::percent_of_share(in.strength),
          in.sugar_g_per_100_ml,
          in.acid_g_per_100_ml,
          in.density_g_per_ml,
          outcome.temperature_c};
}

// ---- targets

TuneTarget TuneTarget::value(double wanted) {
  return {wanted - near_share * std::abs(wanted), wanted + near_share * std::abs(wanted)};
}

std::string_view name_of(TuneProperty property) {
  switch (property) {
    case TuneProperty::strength:
      return "strength";
    case TuneProperty::sugar:
      return "sugar";
    case TuneProperty::acid:
      return "acid";
    case TuneProperty::balance:
      return "balance";
    case TuneProperty::volume:
      return "volume";
  }
  return "";
}

std::optional<double> figure_of(const Figures& figures, TuneProperty property) {
  return figure_of(property).of_liquid(figures);
}

// ---- the search

namespace {

using Values = std::array<double, tune_property_count>;

// How far from its old amount an ingredient is tried, as a factor either way. Beyond it is another drink.
constexpr double widest_factor = 2.5;
// How many measures nearest to the old amount are tried, and how many sums of single effects are simulated.
constexpr std::size_t max_candidates = 24;
constexpr std::size_t max_simulated = 40;
// A distance below this (in widths of the target) is rounding.
constexpr double met_within = 1e-9;

struct Change {
  std::size_t amount_index;
  double old_ml, new_ml;
  Values effect;

  double size() const { return std::abs(std::log(new_ml / old_ml)); }
};

/// Some changes together, with how far they leave the drink from its targets.
struct Plan {
  std::vector<const Change*> changes;
  double distance = 0;

  double size() const {
    double sum = 0;
    for (const auto* change : changes) sum += change->size();
    return sum;
  }
  bool met() const { return distance <= met_within; }
};

class Tuner {
 public:
  Tuner(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
        const TuneRequest& request)
      : specs_(specs), request_(request), trial_(specs, units, facts, request.drink) {}

  Tuned solve() {
    Tuned result;
    result.now = result.reached = trial_.served();
    now_ = values_of(result.now);
    Plan best{{}, distance(now_)};
    if (!best.met()) {
      find_changes();
      for (std::size_t count = 1; count <= std::max<std::size_t>(1, request_.max_changes) && !best.met();
           ++count) {
        Plan found = best_of(count);
        if (found.distance < best.distance - met_within) best = found;
      }
    }
    if (!best.changes.empty()) result.reached = simulate(best);
    for (const auto* change : best.changes)
      result.amounts.push_back({change->amount_index,
                                trial_.drink().recipe.amounts[change->amount_index].use().stock,
                                change->old_ml, change->new_ml});
    for (std::size_t p = 0; p < tune_property_count; ++p)
      if (property_distance(p, values_of(result.reached)[p]) > met_within)
        result.unmet.push_back(static_cast<TuneProperty>(p));
    return result;
  }

 private:
  static Values values_of(const Figures& figures) {
    Values values{};
    for (std::size_t p = 0; p < tune_property_count; ++p)
      values[p] =
          figure_of(figures, static_cast<TuneProperty>(p)).value_or(std::numeric_limits<double>::quiet_NaN());
    return values;
  }

  /// How far one figure is outside its target, in widths of the target.
  double property_distance(std::size_t property, double figure) const {
    const auto& target = request_.targets[property];
    if (!target) return 0;
    if (std::isnan(figure)) return 1;  // a balance is asked for, and there is no acid
    if (target->holds(figure)) return 0;
    double outside = figure < target->low ? target->low - figure : figure - target->high;
    double width = target->high - target->low;
    if (!std::isfinite(width)) width = std::abs(std::isfinite(target->low) ? target->low : target->high);
    return outside / std::max(width, 1e-6);
  }

  double distance(const Values& values) const {
    double square = 0;
    for (std::size_t p = 0; p < tune_property_count; ++p)
      square += std::pow(property_distance(p, values[p]), 2);
    return std::sqrt(square);
  }

  bool may_vary(std::size_t index) const {
    if (request_.vary.empty()) return trial_.is_jiggered(index);
    auto stock = trial_.drink().recipe.amounts[index].use().stock;
    return trial_.can_move(index) &&
           std::find(request_.vary.begin(), request_.vary.end(), stock) != request_.vary.end();
  }

  /// Every single change, with its effect by the whole simulation.
  void find_changes() {
    auto pourable = pourable_ml(specs_.house);
    for (double& volume : pourable) volume *= trial_.drink().serves;
    const analysis::Drink before = trial_.drink();
    for (std::size_t i = 0; i < before.recipe.amounts.size(); ++i) {
      if (!may_vary(i)) continue;
      double old = trial_.millilitres(i);
      if (old <= 0) continue;
      std::vector<double> candidates;
      for (double volume : pourable)
        if (volume > 0 && std::abs(volume - old) > 1e-6 && volume <= old * widest_factor &&
            volume >= old / widest_factor)
          candidates.push_back(volume);
      std::stable_sort(candidates.begin(), candidates.end(), [&](double a, double b) {
        return std::abs(std::log(a / old)) < std::abs(std::log(b / old));
      });
      candidates.resize(std::min(candidates.size(), max_candidates));
      for (double volume : candidates) {
        trial_.set_millilitres(i, volume);
        Values values = values_of(trial_.served());
        Change change{i, old, volume, {}};
        for (std::size_t p = 0; p < tune_property_count; ++p) change.effect[p] = values[p] - now_[p];
        changes_.push_back(change);
      }
      trial_.set_millilitres(i, old);
    }
  }

  Figures simulate(const Plan& plan) {
    for (const auto* change : plan.changes) trial_.set_millilitres(change->amount_index, change->new_ml);
    Figures figures = trial_.served();
    for (const auto* change : plan.changes) trial_.set_millilitres(change->amount_index, change->old_ml);
    return figures;
  }

  static bool is_better(const Plan& a, const Plan& b) {
    // Among plans that meet the target the smallest counts; among others the nearest, then the smallest.
    double da = a.met() ? 0 : a.distance, db = b.met() ? 0 : b.distance;
    if (std::abs(da - db) > met_within) return da < db;
    return a.size() < b.size();
  }

  /// The best plan of exactly so many changes.
  Plan best_of(std::size_t count) {
    std::vector<Plan> plans;
    std::vector<const Change*> chosen;
    collect(count, 0, chosen, now_, plans);
    keep_best(plans);
    Plan best{{}, std::numeric_limits<double>::infinity()};
    for (auto& plan : plans) {
      if (count > 1) plan.distance = distance(values_of(simulate(plan)));
      if (best.changes.empty() || is_better(plan, best)) best = plan;
    }
    return best;
  }

  static void keep_best(std::vector<Plan>& plans) {
    std::size_t kept = std::min(plans.size(), max_simulated);
    std::partial_sort(plans.begin(), plans.begin() + static_cast<std::ptrdiff_t>(kept), plans.end(),
                      is_better);
    plans.resize(kept);
  }

  /// Every choice of so many changes to different amounts, its distance reckoned from the sum of the single
  /// effects.
  void collect(std::size_t count, std::size_t from, std::vector<const Change*>& chosen, const Values& values,
               std::vector<Plan>& plans) {
    if (chosen.size() == count) {
      plans.push_back({chosen, distance(values)});
      if (plans.size() > 100 * max_simulated) keep_best(plans);
      return;
    }
    for (std::size_t i = from; i < changes_.size(); ++i) {
      if (!chosen.empty() && chosen.back()->amount_index == changes_[i].amount_index) continue;
      Values sum = values;
      for (std::size_t p = 0; p < tune_property_count; ++p) sum[p] += changes_[i].effect[p];
      chosen.push_back(&changes_[i]);
      collect(count, i + 1, chosen, sum, plans);
      chosen.pop_back();
    }
  }

  const analysis::Specs& specs_;
  const TuneRequest& request_;
  TrialDrink trial_;
  Values now_{};
  std::vector<Change> changes_;
};

}  // namespace

Tuned tune(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
           const TuneRequest& request) {
  return Tuner(specs, units, facts, request).solve();
}

}  // namespace gill::model

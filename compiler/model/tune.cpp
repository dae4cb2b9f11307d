#include "model/tune.h"

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/figures_table.h"
#include "model/money.h"

namespace gill::model {

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

std::optional<TuneTarget> family_range(const analysis::Family& family, TuneProperty property) {
  const auto& figure = figure_of(property);
  const auto& range = family.*figure.family_range;
  if (!range) return std::nullopt;
  return TuneTarget{range->low * figure.per_base_unit, range->high * figure.per_base_unit};
}

bool TuneLimit::holds(double value) const {
  // What stays where it is is kept: its sums may come out another way round.
  constexpr double rounding = 1e-6;
  return value >= std::min(range.low, now) - rounding && value <= std::max(range.high, now) + rounding;
}

bool TuneAnswer::keeps_limits() const {
  return std::all_of(limits.begin(), limits.end(), [](const TuneLimit& limit) { return limit.is_kept(); });
}

// ---- the search

namespace {

/// What a trial comes to: the properties, and then what only limits ask for.
constexpr std::size_t level_value = tune_property_count, cost_value = level_value + 1,
                      alcohol_value = cost_value + 1, value_count = alcohol_value + 1;
using Values = std::array<double, value_count>;

// How far from its old amount an ingredient is tried, as a factor either way. Beyond it is another drink.
constexpr double widest_factor = 2.5;
// How many measures nearest to the old amount are tried, and how many sums of single effects are simulated.
constexpr std::size_t max_candidates = 24;
constexpr std::size_t max_simulated = 40;
// A distance below this (in widths of the target) is rounding.
constexpr double met_within = 1e-9;

std::size_t value_of(const TuneLimit& limit) {
  switch (limit.of) {
    case TuneLimit::Of::level:
      return level_value;
    case TuneLimit::Of::family:
      return static_cast<std::size_t>(limit.property);
    case TuneLimit::Of::cost:
      return cost_value;
    case TuneLimit::Of::alcohol:
      return alcohol_value;
  }
  return level_value;
}

/// What the drink has to keep, by its glass, its family, its price and the house's line for a strong serve.
std::vector<TuneLimit> limits_of(const analysis::Specs& specs, const HouseFacts& house,
                                 const TuneRequest& request) {
  constexpr double open = std::numeric_limits<double>::infinity();
  const auto& drink = specs[request.drink];
  const auto& facts = house[request.drink];
  std::vector<TuneLimit> limits;
  auto add = [&](TuneLimit::Of of, TuneTarget range, double now, TuneProperty property = {}) {
    limits.push_back({of, property, range, now, now});
  };
  // What never leaves its tin comes to no line of a glass.
  if (facts.drunk_from.valid() && specs[facts.drunk_from].holds) {
    const auto& glass = specs[facts.drunk_from];
    add(TuneLimit::Of::level, {glass.line ? glass.line->low : 0, glass.holds->number()},
        facts.in_glass.level_ml);
  }
  for (auto property : tune_properties()) {
    if (!drink.family.valid() || request.targets[static_cast<std::size_t>(property)]) continue;
    auto range = family_range(specs[drink.family], property);
    auto now = figure_of(facts.served, property);
    if (range && now) add(TuneLimit::Of::family, *range, *now, property);
  }
  auto price = price_of(request.drink, {}, specs, house.currency);
  auto target = target_pour_cost_percent(specs.house);
  if (facts.cost && price && target)
    add(TuneLimit::Of::cost,
        {0, base::to_double(price->without_tax.amount) * base::share_of_percent(base::to_double(*target))},
        base::to_double(facts.cost->amount));
  if (facts.ethanol_g > 0) add(TuneLimit::Of::alcohol, {-open, specs.house.strongest_g}, facts.ethanol_g);
  return limits;
}

struct Change {
  std::size_t amount_index;
  double old_ml, new_ml;
  Values effect;

  double size() const { return std::abs(std::log(new_ml / old_ml)); }
};

/// Some changes together, with how far they leave the drink from its targets and bring it over its limits.
struct Plan {
  std::vector<const Change*> changes;
  double distance = 0;
  std::size_t limits_broken = 0;

  double size() const {
    double sum = 0;
    for (const auto* change : changes) sum += change->size();
    return sum;
  }

  /// True where each changes something that the other leaves.
  bool differs_in_kind_from(const Plan& other) const {
    auto has_own = [](const Plan& a, const Plan& b) {
      return std::any_of(a.changes.begin(), a.changes.end(), [&](const Change* mine) {
        return std::none_of(b.changes.begin(), b.changes.end(),
                            [&](const Change* theirs) { return theirs->amount_index == mine->amount_index; });
      });
    };
    return has_own(*this, other) && has_own(other, *this);
  }
};

class Tuner {
 public:
  Tuner(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
        const TuneRequest& request)
      : specs_(specs),
        request_(request),
        limits_(limits_of(specs, facts, request)),
        trial_(specs, units, facts, request.drink) {}

  Tuned tune() {
    auto now = trial_.served();
    now_ = values_of(now);
    Plan none = judged({}, now_);
    Plan best = none;
    if (!met(none)) {
      find_changes();
      best = nearest(none, nullptr);
    }
    Tuned result;
    result.now = now.figures;
    static_cast<TuneAnswer&>(result) = answer(best);
    if (request_.wants_other && !met(none)) result.other = other_answer(best, none);
    return result;
  }

 private:
  Values values_of(const TrialDrink::Served& served) const {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    Values values{};
    for (auto property : tune_properties())
      values[static_cast<std::size_t>(property)] = figure_of(served.figures, property).value_or(unknown);
    values[level_value] = served.level_ml;
    values[cost_value] = trial_.cost().value_or(unknown);
    values[alcohol_value] = served.ethanol_g;
    return values;
  }

  /// How far one figure is outside its target, in widths of the target.
  double property_distance(TuneProperty property, double figure) const {
    const auto& target = request_.targets[static_cast<std::size_t>(property)];
    if (!target) return 0;
    if (std::isnan(figure)) return 1;  // a balance is asked for, and there is no acid
    if (target->holds(figure)) return 0;
    double outside = figure < target->low ? target->low - figure : figure - target->high;
    double width = target->high - target->low;
    if (!std::isfinite(width)) width = std::abs(std::isfinite(target->low) ? target->low : target->high);
    return outside / std::max(width, 1e-6);
  }

  std::vector<TuneLimit> limits_at(const Values& values) const {
    auto limits = limits_;
    for (auto& limit : limits) limit.reached = values[value_of(limit)];
    return limits;
  }

  Plan judged(std::vector<const Change*> changes, const Values& values) const {
    double square = 0;
    for (auto property : tune_properties())
      square += std::pow(property_distance(property, values[static_cast<std::size_t>(property)]), 2);
    std::size_t broken = 0;
    for (const auto& limit : limits_)
      if (!limit.holds(values[value_of(limit)])) ++broken;
    return {std::move(changes), std::sqrt(square), broken};
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
        for (std::size_t v = 0; v < value_count; ++v) change.effect[v] = values[v] - now_[v];
        changes_.push_back(change);
      }
      trial_.set_millilitres(i, old);
    }
  }

  TrialDrink::Served simulate(const Plan& plan, Values& values) {
    for (const auto* change : plan.changes) trial_.set_millilitres(change->amount_index, change->new_ml);
    auto served = trial_.served();
    values = values_of(served);
    for (const auto* change : plan.changes) trial_.set_millilitres(change->amount_index, change->old_ml);
    return served;
  }

  TuneAnswer answer(const Plan& plan) {
    TuneAnswer result;
    Values values{};
    result.reached = simulate(plan, values).figures;
    result.limits = limits_at(values);
    for (const auto* change : plan.changes)
      result.amounts.push_back({change->amount_index,
                                trial_.drink().recipe.amounts[change->amount_index].use().stock,
                                change->old_ml, change->new_ml});
    for (auto property : tune_properties())
      if (property_distance(property, values[static_cast<std::size_t>(property)]) > met_within)
        result.unmet.push_back(property);
    return result;
  }

  /// The second of two answers to choose from, where there is one worth a choice.
  std::optional<TuneAnswer> other_answer(const Plan& best, const Plan& none) {
    if (met(best)) {
      Plan other = nearest(none, &best);
      return met(other) ? std::optional(answer(other)) : std::nullopt;
    }
    keeps_limits_ = false;
    Plan free = nearest(none, nullptr);
    keeps_limits_ = true;
    return free.distance <= met_within ? std::optional(answer(free)) : std::nullopt;
  }

  bool may_be_served(const Plan& plan) const { return !keeps_limits_ || plan.limits_broken == 0; }
  bool met(const Plan& plan) const { return plan.distance <= met_within && may_be_served(plan); }

  bool is_better(const Plan& a, const Plan& b) const {
    if (may_be_served(a) != may_be_served(b)) return may_be_served(a);
    // Among plans that meet the target the one that breaks least counts, then the smallest; among others the
    // nearest comes first.
    double da = met(a) ? 0 : a.distance, db = met(b) ? 0 : b.distance;
    if (std::abs(da - db) > met_within) return da < db;
    if (a.limits_broken != b.limits_broken) return a.limits_broken < b.limits_broken;
    return a.size() < b.size();
  }

  /// The fewest changes that meet it all, or those that come nearest; `none` where nothing does better.
  /// `unlike`: only plans of another kind count.
  Plan nearest(const Plan& none, const Plan* unlike) {
    Plan best = none;
    for (std::size_t count = 1; count <= std::max<std::size_t>(1, request_.max_changes) && !met(best);
         ++count) {
      Plan found = best_of(count, unlike);
      if (may_be_served(found) && found.distance < best.distance - met_within) best = found;
    }
    return best;
  }

  /// The best plan of exactly so many changes.
  Plan best_of(std::size_t count, const Plan* unlike) {
    std::vector<Plan> plans;
    std::vector<const Change*> chosen;
    collect(count, 0, chosen, now_, unlike, plans);
    keep_best(plans);
    Plan best{{}, std::numeric_limits<double>::infinity(), limits_.size()};
    for (auto& plan : plans) {
      if (count > 1) {
        Values values{};
        simulate(plan, values);
        plan = judged(std::move(plan.changes), values);
      }
      if (best.changes.empty() || is_better(plan, best)) best = plan;
    }
    return best;
  }

  void keep_best(std::vector<Plan>& plans) const {
    std::size_t kept = std::min(plans.size(), max_simulated);
    std::partial_sort(plans.begin(), plans.begin() + static_cast<std::ptrdiff_t>(kept), plans.end(),
                      [this](const Plan& a, const Plan& b) { return is_better(a, b); });
    plans.resize(kept);
  }

  /// Every choice of so many changes to different amounts, judged by the sum of the single effects.
  void collect(std::size_t count, std::size_t from, std::vector<const Change*>& chosen, const Values& values,
               const Plan* unlike, std::vector<Plan>& plans) {
    if (chosen.size() == count) {
      Plan plan = judged(chosen, values);
      if (unlike && !plan.differs_in_kind_from(*unlike)) return;
      plans.push_back(std::move(plan));
      if (plans.size() > 100 * max_simulated) keep_best(plans);
      return;
    }
    for (std::size_t i = from; i < changes_.size(); ++i) {
      if (!chosen.empty() && chosen.back()->amount_index == changes_[i].amount_index) continue;
      Values sum = values;
      for (std::size_t v = 0; v < value_count; ++v) sum[v] += changes_[i].effect[v];
      chosen.push_back(&changes_[i]);
      collect(count, i + 1, chosen, sum, unlike, plans);
      chosen.pop_back();
    }
  }

  const analysis::Specs& specs_;
  const TuneRequest& request_;
  const std::vector<TuneLimit> limits_;
  bool keeps_limits_ = true;
  TrialDrink trial_;
  Values now_{};
  std::vector<Change> changes_;
};

}  // namespace

Tuned tune(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
           const TuneRequest& request) {
  return Tuner(specs, units, facts, request).tune();
}

}  // namespace gill::model

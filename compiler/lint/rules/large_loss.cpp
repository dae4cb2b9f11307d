#include <fmt/format.h>

#include <algorithm>

#include "analysis/groups.h"
#include "base/percent.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/constants.h"

namespace gill::lint {

namespace {

using analysis::Verb;
using model::Component;

// A strain and a filter take a few per cent; more than this beyond what solids and curd keep is money. Common
// practice, no source.
constexpr double large_from_percent = 15;

bool strains_or_presses(const analysis::Recipe& recipe) {
  return analysis::has_step(recipe, {Verb::strain, Verb::double_strain, Verb::fine_strain, Verb::press});
}

/// Oats, leaves and the like that are strained out whole, though the model reckons what they are made of as
/// dissolved.
bool comes_out_whole(const analysis::Stock& stock) {
  using analysis::StockKind;
  return stock.effective_form() == analysis::Form::solid && stock.kind != StockKind::sweetener &&
         stock.kind != StockKind::acid && stock.kind != StockKind::saline;
}

/// What pulp, fat and curd keep of the liquid, g: the simulation's own estimates.
double expected_loss_g(const PrepCase& prep) {
  double loss = 0;
  if (strains_or_presses(prep.prep.recipe))
    for (const auto& entry : prep.facts.entries)
      if (comes_out_whole(prep.house.specs[entry.use.stock]))
        loss += entry.mass_g.value_or(0) *
                prep.house.facts[entry.use.stock].composition.per_gram[Component::other];
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount) continue;
    const auto& before = trace.before.masses;
    double solids = before[Component::solids] - trace.after.masses[Component::solids];
    double fat = before[Component::fat] - trace.after.masses[Component::fat];
    double protein = before[Component::protein] - trace.after.masses[Component::protein];
    bool clarifies = prep.step(trace).verb == Verb::clarify;
    loss += model::liquid_held_by_solids * std::max(solids, 0.0);
    loss += clarifies ? model::liquid_held_by_curd * std::max(fat + protein, 0.0)
                      : model::liquid_held_by_fat * std::max(fat, 0.0);
  }
  return loss;
}

}  // namespace

void large_loss(const PrepCase& prep, Reporter& report) {
  const auto& facts = prep.facts;
  // What is dried is meant to lose.
  if (!facts.yield_measured || facts.loss_percent >= 100 || is_dried(prep.prep.recipe)) return;
  double would_be_g = facts.yield_g / (1 - base::share_of_percent(facts.loss_percent));
  double expected_percent = would_be_g > 0 ? base::percent_of_share(expected_loss_g(prep) / would_be_g) : 0;
  if (facts.loss_percent - expected_percent < large_from_percent) return;
  report.add(
      prep.prep.makes ? prep.prep.makes->span : prep.name_span(),
      fmt::format("{:.0f} % of what is in the vessel is lost on the way to the bottle{}", facts.loss_percent,
                  expected_percent >= 1
                      ? fmt::format(", and what is strained out explains about {:.0f} %", expected_percent)
                      : ""),
      "Measure the yield again, look for where it goes (filter, solids, pan), or allow it with the reason; "
      "the cost counts it all.");
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "base/percent.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/freezing.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// With a third of its water as ice nothing pours. Common practice, no source.
constexpr double solid_from_share = 1.0 / 3;
// Weaker than this it is a sorbet, a purée or ice, and meant solid. Common practice, no source.
constexpr double drink_from_strength = 0.05;

/// Share of the water that is ice at that temperature: what is left liquid freezes no sooner.
double frozen_share(const model::Masses& masses, double celsius) {
  double water = masses[model::Component::water];
  if (water <= 0 || model::freezing_point_c(masses, water) <= celsius) return 0;
  double low = 0, high = water;
  constexpr int halvings = 40;
  for (int i = 0; i < halvings; ++i) {
    double middle = (low + high) / 2;
    (model::freezing_point_c(masses, middle) > celsius ? high : low) = middle;
  }
  return 1 - low / water;
}

struct Frozen {
  double share, strength;
  bool solid() const { return strength >= drink_from_strength && share >= solid_from_share; }
};

Frozen freeze(const model::Masses& per_gram, double freezer_c) {
  return {frozen_share(per_gram, freezer_c), model::strength(per_gram)};
}

std::string message(const std::string& name, const Frozen& frozen, double freezer_c) {
  return fmt::format("`{}` has {:.0f} % abv, and {:.0f} % of its water is ice at {:.0f} C: it does not pour",
                     name, base::percent_of_share(frozen.strength), base::percent_of_share(frozen.share),
                     freezer_c);
}

}  // namespace

void freezes_solid(const DrinkCase& drink, Reporter& report) {
  double freezer_c = drink.house.specs.house.freezer_c;
  for (const auto& entry : drink.facts.entries) {
    if (entry.role != model::Role::amount || !drink.drink.recipe.amounts[entry.index].frozen) continue;
    auto frozen = freeze(drink.house.facts[entry.use.stock].composition.per_gram, freezer_c);
    if (!frozen.solid()) continue;
    report.add(drink.span_of_amount(entry.index), message(entry.name, frozen, freezer_c),
               "Keep it in the fridge and write `chilled` in place of `frozen`.");
  }
}

void freezes_solid(const PrepCase& prep, Reporter& report) {
  if (prep.facts.storage != analysis::Storage::frozen) return;
  double freezer_c = prep.house.specs.house.freezer_c;
  auto frozen = freeze(prep.facts.composition.per_gram, freezer_c);
  if (!frozen.solid()) return;
  auto found = prep.prep.property_spans.find("keeps");
  report.add(found == prep.prep.property_spans.end() ? prep.name_span() : found->second,
             message(prep.prep.head.name, frozen, freezer_c),
             "Keep it `chilled`, or put in less water: about 25 % abv stays pourable in a freezer.");
}

}  // namespace gill::lint

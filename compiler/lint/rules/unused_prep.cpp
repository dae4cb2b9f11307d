#include <fmt/format.h>

#include <vector>

#include "lint/rules.h"

namespace gill::lint {

namespace {

void note_parts(const analysis::Recipe& recipe, std::vector<bool>& used) {
  for (const auto& amount : recipe.amounts) {
    for (const auto& portion : amount.portions) used[portion.use.stock.index()] = true;
    for (const auto& use : amount.alternatives) used[use.stock.index()] = true;
  }
  for (const auto& step : recipe.steps)
    if (step.use) used[step.use->stock.index()] = true;
}

}  // namespace

void unused_prep(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  std::vector<bool> used(specs.stock.size());
  for (const auto& drink : specs.drinks) note_parts(drink.recipe, used);
  for (const auto& stock : specs.stock) note_parts(stock.recipe, used);
  // Of a drink that could not be read whole it is not known what it uses.
  for (const auto& drink : specs.drinks)
    if (!drink.head.from_library && drink.head.has_errors) return;
  for (std::size_t i = 0; i < specs.stock.size(); ++i) {
    const auto& prep = specs.stock[i];
    if (!prep.is_prep || prep.head.from_library || used[i]) continue;
    judged.about(prep).add(
        prep.head.name_span, fmt::format("no drink and no prep uses `{}`", prep.head.name),
        "Pour it, or take it out of the house: the plan leaves it out, and nobody makes it.");
  }
}

}  // namespace gill::lint

#include "render/wording/recipe_context.h"

#include <algorithm>

#include "base/text.h"
#include "render/wording/measures.h"

namespace gill::render::wording {

RecipeContext recipe_of(const spec::Drink& drink, const model::DrinkFacts& facts, const spec::Specs& specs,
                        const units::UnitTable& units) {
  return {specs, units, drink.recipe, facts.entries, specs.house.show_drinks, facts.serves, false};
}

RecipeContext recipe_of(const spec::Stock& prep, const model::StockFacts& facts, const spec::Specs& specs,
                        const units::UnitTable& units) {
  const auto& show = specs.house.show_preps.empty() ? specs.house.show_drinks : specs.house.show_preps;
  return {specs, units, prep.recipe, facts.entries, show, 1, true};
}

const model::Entry* entry_of(const RecipeContext& context, bool is_amount, std::size_t index, const spec::Use& use) {
  for (const auto& entry : context.entries)
    if ((entry.role == model::Role::amount) == is_amount && entry.index == index && entry.use == use) return &entry;
  return nullptr;
}

std::string counted_name(const RecipeContext& context, const spec::Use& use, double count) {
  const auto& stock = context.specs[use.stock];
  if (use.item.valid()) {
    const auto& item = context.units[use.item];
    return stock.head.name + " " + (count <= 1 ? item.symbol : item.plural);
  }
  const std::string& name = stock.head.name;
  if (count <= 1) return name;
  std::string folded = base::fold_name(name);
  for (const auto& alias : stock.aka) {
    std::string other = base::fold_name(alias);
    bool is_plural = other == folded + "s" || other == folded + "es" ||
                     (folded.ends_with('y') && other == folded.substr(0, folded.size() - 1) + "ies");
    if (is_plural) return alias;
  }
  return name;
}

std::string amount_with_name(const RecipeContext& context, const units::Quantity& quantity, const spec::Use& use) {
  std::string measure = text_of(quantity, context.units);
  if (quantity.unit.valid() && use.item.valid()) return measure + " " + context.specs[use.stock].head.name;
  double count = quantity.kind == units::Kind::count && !quantity.unit.valid() ? quantity.number() : 1;
  return measure + " " + counted_name(context, use, count);
}

}  // namespace gill::render::wording

#include "render/wording/recipe_context.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "render/wording/measures.h"

namespace gill::render::wording {

namespace {

/// Item words that say how much rather than which piece: `1 pinch nutmeg`, but `1 lime wedge`.
bool is_heap(std::string_view item) {
  static constexpr std::array<std::string_view, 6> heaps = {"pinch", "handful", "bunch",
                                                            "piece", "sheet",   "half"};
  return std::find(heaps.begin(), heaps.end(), item) != heaps.end();
}

}  // namespace

RecipeContext recipe_of(const analysis::Drink& drink, const model::DrinkFacts& facts,
                        const analysis::Specs& specs, const units::UnitTable& units) {
  return {specs, units, drink.recipe, facts.entries, specs.house.show_drinks, facts.serves, false};
}

RecipeContext recipe_of(const analysis::Stock& prep, const model::StockFacts& facts,
                        const analysis::Specs& specs, const units::UnitTable& units) {
  const auto& show = specs.house.show_preps.empty() ? specs.house.show_drinks : specs.house.show_preps;
  return {specs, units, prep.recipe, facts.entries, show, 1, true};
}

const model::Entry* entry_of(const RecipeContext& context, bool is_amount, std::size_t index,
                             const analysis::Use& use) {
  for (const auto& entry : context.entries)
    if ((entry.role == model::Role::amount) == is_amount && entry.index == index && entry.use == use)
      return &entry;
  return nullptr;
}

std::string counted_name(const RecipeContext& context, const analysis::Use& use, double count) {
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

namespace {

/// In the house's first column, as the build has it, where the line is written in another of its columns: one
/// pour is told in one measure.
std::string measure_of_step(const RecipeContext& context, const units::Quantity& quantity) {
  const auto& show = context.show;
  bool is_other_column = show.size() > 1 &&
                         std::find(show.begin() + 1, show.end(), quantity.unit) != show.end() &&
                         quantity.unit != show.front();
  if (!is_other_column || quantity.is_range || context.units[show.front()].kind != quantity.kind)
    return text_of(quantity, context.units);
  return text_of(measure_in(quantity.number(), context.units[show.front()]));
}

}  // namespace

std::string amount_with_name(const RecipeContext& context, const units::Quantity& quantity,
                             const analysis::Use& use) {
  std::string measure = measure_of_step(context, quantity);
  if (!quantity.unit.valid()) return measure + " " + counted_name(context, use, quantity.number());
  const auto& unit = context.units[quantity.unit];
  const auto& name = context.specs[use.stock].head.name;
  if (!unit.is_item_word) return measure + " " + analysis::name_of(use, context.specs, context.units);
  if (is_heap(unit.symbol)) return measure + " " + name;
  // `1 lime wedge`, `8 mint leaves`: the number, the thing, its piece.
  auto given = measure_as_given(quantity, context.units);
  return given.number + " " + name + " " + given.unit;
}

}  // namespace gill::render::wording

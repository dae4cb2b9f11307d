#pragma once
#include <vector>

#include "analysis/specs.h"
#include "model/facts.h"
#include "units/unit_table.h"

namespace gill::render::wording {

/// A recipe with all that is needed to put it in words. Everything outlives the context.
struct RecipeContext {
  const analysis::Specs& specs;
  const units::UnitTable& units;
  const analysis::Recipe& recipe;
  const std::vector<model::Entry>& entries;
  /// The columns of printed measures, in order.
  const std::vector<units::UnitId>& show;
  /// What an entry's amounts are multiplied by: the serves of a bowl.
  double serves = 1;
  bool is_prep = false;
  /// How many times the recipe as written.
  double scale = 1;

  /// What an entry's amounts come to in print.
  double times() const { return serves * scale; }
};

RecipeContext recipe_of(const analysis::Drink& drink, const model::DrinkFacts& facts,
                        const analysis::Specs& specs, const units::UnitTable& units);
RecipeContext recipe_of(const analysis::Stock& prep, const model::StockFacts& facts,
                        const analysis::Specs& specs, const units::UnitTable& units);

/// The worked-out entry of a recipe line's use; null when there is none.
const model::Entry* entry_of(const RecipeContext& context, bool is_amount, std::size_t index,
                             const analysis::Use& use);

/// The name of a use after a number: in the plural where the house or the library knows one (`lemon wheels`,
/// `oatcakes`).
std::string counted_name(const RecipeContext& context, const analysis::Use& use, double count);

/// `8 leaves mint`, `10 lemon wheels`, `45 ml gin`: an amount with its name.
std::string amount_with_name(const RecipeContext& context, const units::Quantity& quantity,
                             const analysis::Use& use);

}  // namespace gill::render::wording

#pragma once
#include <optional>
#include <string>
#include <vector>

#include "render/wording/recipe_context.h"

namespace gill::render::wording {

/// One step of the method as a short sentence in the imperative: `Shake 12 s with 4 cubes.`
struct MethodLine {
  std::string sentence;
  /// CommonMark that the writer put below the line.
  std::string text;
  bool is_garnish = false;
  /// Nothing for what is added between steps.
  std::optional<analysis::Verb> verb = {};
};

/// The method in the order in which it is done. What is added after the first step is said where it happens:
/// `Add 2 dashes aromatic bitters.`
std::vector<MethodLine> method_lines(const RecipeContext& context);

/// One thing put on, in or beside the drink.
struct GarnishLine {
  /// `lemon twist, expressed`; `none, on purpose`.
  std::string words;
  /// What it is; invalid where nothing declares it.
  analysis::StockId stock;
  bool is_none = false;
  bool is_unknown = false;
  bool is_side = false;
};

std::vector<GarnishLine> garnish_lines(const RecipeContext& context);

/// `4 cubes`, `120 g crushed ice`, `lade pebbles`.
std::string ice_words(const analysis::IceUse& ice, const RecipeContext& context);

/// What a drink is served on: `one clog cube`, `cubed ice`, `the shaker's ice`, `no ice`.
std::string served_on_words(const model::ServedIce& ice, const RecipeContext& context);

/// What stands before the method of a drink that is poured from a bottle with its water in.
inline const std::string mixed_without_bottle = "Mixing with ice is for one made without the bottle.";

}  // namespace gill::render::wording

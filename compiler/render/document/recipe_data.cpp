#include "render/document/recipe_data.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "base/percent.h"
#include "base/text.h"
#include "render/prose/common_mark.h"
#include "render/wording/build_lines.h"
#include "render/wording/method_lines.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

using nlohmann::ordered_json;

namespace {

/// `45 ml Teasel Bank gin`, `2 dashes aromatic bitters, optional`.
std::string ingredient_words(const wording::BuildLine& line) {
  std::string words = line.is_about || line.is_solved ? "about " : "";
  if (line.whole) {
    words += wording::text_of(*line.whole) + " ";
  } else {
    for (const auto& column : line.columns) {
      if (!column) continue;
      words += wording::text_of(*column) + " ";
      break;
    }
  }
  words += line.name;
  for (const auto& remark : line.remarks) words += ", " + remark;
  return words;
}

ordered_json steps_of(const wording::RecipeContext& recipe) {
  ordered_json steps = ordered_json::array();
  for (const auto& line : wording::method_lines(recipe))
    steps.push_back({{"@type", "HowToStep"}, {"position", steps.size() + 1}, {"text", line.sentence}});
  return steps;
}

/// One serve, as a label would tell it.
ordered_json nutrition_of(const model::DrinkFacts& facts) {
  ordered_json nutrition = {{"@type", "NutritionInformation"}};
  nutrition["servingSize"] = wording::trimmed(facts.served.volume_ml, 0) + " ml";
  nutrition["calories"] = wording::trimmed(facts.energy_kcal, 0) + " kcal";
  nutrition["sugarContent"] =
      wording::fixed(base::per_ml(facts.served.sugar_g_per_100ml) * facts.served.volume_ml, 1) + " g";
  return nutrition;
}

std::string yield_of(const model::DrinkFacts& facts, bool valid) {
  std::string serves = wording::trimmed(facts.serves, 1) + (facts.serves == 1 ? " serve" : " serves");
  if (!valid) return serves;
  return fmt::format("{} of {} ml", serves, wording::trimmed(facts.served.volume_ml, 0));
}

}  // namespace

std::string recipe_data(const BookIndex& index, analysis::DrinkId id) {
  const auto& drink = index.specs()[id];
  const auto& facts = index.facts()[id];
  bool valid = facts.valid;
  auto recipe = wording::recipe_of(drink, facts, index.specs(), index.units());
  ordered_json data = {{"@context", "https://schema.org"}, {"@type", "Recipe"}, {"name", drink.head.name}};
  std::string description = drink.guest.empty() ? prose::to_plain_text(drink.head.text) : drink.guest;
  if (!description.empty()) data["description"] = description;
  data["author"] = {{"@type", "Organization"}, {"name", index.house().head.name}};
  if (!drink.since.empty()) data["datePublished"] = drink.since;
  data["recipeCategory"] = "Drink";
  if (!drink.tags.empty()) data["keywords"] = base::join(drink.tags, ", ");
  data["recipeYield"] = yield_of(facts, valid);
  data["recipeIngredient"] = ordered_json::array();
  for (const auto& line : wording::build_lines(recipe))
    data["recipeIngredient"].push_back(ingredient_words(line));
  data["recipeInstructions"] = steps_of(recipe);
  if (valid) data["nutrition"] = nutrition_of(facts);
  return data.dump(1, ' ', false, ordered_json::error_handler_t::replace);
}

}  // namespace gill::render::document

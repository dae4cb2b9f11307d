#include "render/document/drink_picture_part.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "base/text.h"
#include "model/entries.h"
#include "render/wording/build_lines.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

using wording::trimmed;

namespace {

// Less than this is no part of a staff: it could not be seen.
constexpr double min_part_ml = 0.02;

std::string amount_words(const wording::BuildLine& line) {
  std::string about = line.is_about || line.is_solved ? "about " : "";
  if (line.whole) return about + wording::text_of(*line.whole);
  for (const auto& column : line.columns)
    if (column) return about + wording::text_of(*column);
  return {};
}

/// The parts of the build that have a volume, in the order of pouring, and the water of the ice.
std::vector<drawing::StaffPart> staff_parts(const BookIndex& index, const analysis::Drink& drink,
                                            const model::DrinkFacts& facts) {
  std::vector<drawing::StaffPart> parts;
  auto recipe = wording::recipe_of(drink, facts, index.specs(), index.units());
  auto lines = wording::build_lines(recipe);
  std::vector<bool> used(facts.entries.size());
  for (const auto& line : lines) {
    for (std::size_t i = 0; i < facts.entries.size(); ++i) {
      const auto& entry = facts.entries[i];
      if (used[i] || entry.use.stock != line.stock || entry.optional || !entry.volume_ml) continue;
      used[i] = true;
      bool poured = !model::is_laid_on(entry.role);
      bool liquid = index.specs()[line.stock].effective_form() == analysis::Form::liquid;
      double volume = *entry.volume_ml * facts.serves;
      if (poured && liquid && volume >= min_part_ml)
        parts.push_back({amount_words(line), line.name, volume, false});
      break;
    }
  }
  double melt = base::share_of_percent(facts.dilution_percent) * facts.mixed.volume_ml * facts.serves;
  if (melt >= 0.5) parts.push_back({trimmed(std::round(melt), 0) + " ml", "water from the ice", melt, true});
  return parts;
}

std::string description_of(const BookIndex& index, const analysis::Drink& drink,
                           const model::DrinkFacts& facts, const drawing::DrinkPicture& picture) {
  std::string text = fmt::format("{} in a {}, cut through the middle: {} ml of liquid", drink.head.name,
                                 picture.glass->head.name, trimmed(facts.in_glass.liquid_ml, 0));
  if (facts.in_glass.foam_ml >= 1)
    text += fmt::format(" under {} ml of foam", trimmed(facts.in_glass.foam_ml, 0));
  if (picture.ice && facts.in_glass.ice_g > 0.5)
    text += fmt::format(", on {} g of ice ({})", trimmed(facts.in_glass.ice_g, 0), picture.ice->head.name);
  std::vector<std::string> parts;
  for (const auto& part : picture.parts) parts.push_back(part.amount + " " + part.name);
  if (!parts.empty()) text += ". Measured: " + base::join_with_and(parts);
  if (!facts.in_glass.floats.empty()) {
    std::vector<std::string> layers;
    for (const auto& [stock, volume] : facts.in_glass.floats)
      layers.push_back(index.specs()[stock].head.name);
    text += ". On top, in layers: " + base::join_with_and(layers);
  }
  return text + ".";
}

Run caption_of(const drawing::DrinkPicture& picture, const drawing::DrawnPicture& drawn,
               const model::DrinkFacts& facts) {
  std::string glass = picture.glass->head.name;
  if (!glass.empty() && glass[0] >= 'a' && glass[0] <= 'z')
    glass[0] = static_cast<char>(glass[0] - 'a' + 'A');
  Run run(fmt::format("{}, cut through the middle, scale 1 : {}. The drink comes to {} mm", glass,
                      trimmed(drawn.scale, 1), trimmed(drawn.level_mm, 0)));
  if (drawn.over_the_rim)
    run.plain(facts.overflows ? ": more than the glass holds." : ", to the brim.");
  else
    run.plain(fmt::format(", {} mm below the rim.", trimmed(drawn.rim_mm - drawn.level_mm, 0)));
  bool has_melt =
      std::any_of(picture.parts.begin(), picture.parts.end(), [](const auto& part) { return part.is_melt; });
  if (has_melt) run.plain(" Slanting lines: water from the ice.");
  if (facts.serves > 1 && facts.in_glass.ice_g <= 0 && picture.parts.size() > 1)
    run.plain(" The scale shows the whole bowl.");
  return run;
}

}  // namespace

drawing::DrinkPicture picture_of(const BookIndex& index, analysis::DrinkId id) {
  const auto& drink = index.specs()[id];
  const auto& facts = index.facts()[id];
  drawing::DrinkPicture picture;
  picture.name = drink.head.name;
  auto glass = facts.drunk_from;
  if (!glass.valid()) return picture;
  picture.glass = &index.specs()[glass];
  picture.in_glass = facts.in_glass;
  if (facts.in_glass.ice.valid()) picture.ice = &index.specs()[facts.in_glass.ice];
  double floated = 0;
  for (const auto& [stock, volume] : facts.in_glass.floats) floated += volume;
  picture.layers.push_back({std::max(0.0, facts.in_glass.liquid_ml - floated), facts.colour});
  for (const auto& [stock, volume] : facts.in_glass.floats)
    picture.layers.push_back({volume, index.facts()[stock].colour});
  picture.parts = staff_parts(index, drink, facts);
  return picture;
}

Figure drink_figure(const BookIndex& index, analysis::DrinkId id) {
  auto picture = picture_of(index, id);
  Figure figure;
  if (!picture.glass) return figure;
  auto drawn = drawing::draw_drink(picture);
  figure.caption = caption_of(picture, drawn, index.facts()[id]);
  figure.scene = std::move(drawn.scene);
  figure.scene.title = picture.name;
  figure.scene.description = description_of(index, index.specs()[id], index.facts()[id], picture);
  return figure;
}

}  // namespace gill::render::document

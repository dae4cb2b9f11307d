#include "lint/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/groups.h"
#include "base/text.h"
#include "model/physics/gas.h"
#include "model/physics/volume.h"

namespace gill::lint {
namespace {

bool has_any(std::string_view text, std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(),
                     [&](std::string_view word) { return text.find(word) != std::string_view::npos; });
}

}  // namespace

bool is_raw_dairy(const analysis::Stock& stock) {
  bool holds_milk =
      std::any_of(stock.allergens.begin(), stock.allergens.end(),
                  [](const analysis::AllergenLine& line) { return line.code == "milk" && !line.may; });
  return !stock.is_prep && stock.kind == analysis::StockKind::dairy &&
         (holds_milk || !stock.allergens_stated) &&
         !has_any(stock.treated,
                  {"pasteuris", "pasteuriz", "uht", "UHT", "sterilis", "steriliz", "boiled", "ultra"});
}

bool is_fresh_plant(const analysis::Stock& stock) {
  if (stock.is_prep || (stock.kind != analysis::StockKind::fruit && stock.kind != analysis::StockKind::herb))
    return false;
  return !has_any(stock.head.name, {"dried", "dehydrated", "powder"});
}

namespace {

/// Steps that are done in a vessel from which a drink must be moved.
bool needs_mixing_vessel(analysis::Verb verb) {
  return analysis::mixes_in_vessel(verb) || verb == analysis::Verb::stir;
}

}  // namespace

const model::TraceStep* stays_in_vessel(const DrinkCase& drink) {
  if (drink.facts.reached_glass) return nullptr;
  for (const auto& trace : drink.facts.trace)
    if (!trace.is_amount && needs_mixing_vessel(drink.step(trace).verb)) return &trace;
  return nullptr;
}

double gas_volumes(const model::VesselState& vessel) {
  return model::volumes_from_carbon_dioxide_g(vessel.masses[model::Component::carbon_dioxide],
                                              model::volume_ml(vessel.masses));
}

bool moves_to_the_glass(analysis::Verb verb) {
  return analysis::strains(verb) || verb == analysis::Verb::dump;
}

bool is_dried(const analysis::Recipe& recipe) {
  return analysis::has_step(recipe, {analysis::Verb::dehydrate});
}

bool is_on_crushed_ice(const DrinkCase& drink) {
  auto ice = drink.drink.ice.use.ice;
  return ice.valid() && drink.house.specs[ice].head.name.find("crushed") != std::string::npos;
}

bool repeats_a_step(const analysis::Recipe& recipe, std::size_t place) {
  using analysis::Verb;
  if (place == 0 || recipe.order[place].is_amount) return false;
  const auto& step = recipe.steps[recipe.order[place].index];
  auto is_same = [&](std::size_t other_place) {
    if (recipe.order[other_place].is_amount) return false;
    const auto& other = recipe.steps[recipe.order[other_place].index];
    return other.verb == step.verb && other.as_written == step.as_written && other.words == step.words &&
           other.use == step.use && other.to_tin == step.to_tin &&
           other.unknown_garnish == step.unknown_garnish;
  };
  if (step.verb != Verb::garnish) return is_same(place - 1);
  if (!step.use) return false;
  for (std::size_t other = 0; other < place; ++other)
    if (is_same(other)) return true;
  return false;
}

bool is_hot_drink_gone_cold(const DrinkCase& drink) {
  if (drink.facts.entries.empty() || drink.facts.served.volume_ml <= 0 || drink.facts.is_hot) return false;
  auto is_hot_word = [](const std::string& name) {
    std::string words = " " + base::fold_name(name) + " ";
    return has_any(words, {" hot ", " toddy ", " mulled "});
  };
  if (drink.drink.family.valid() &&
      base::fold_name(drink.house.specs[drink.drink.family].head.name).rfind("hot", 0) == 0)
    return true;
  return !drink.drink.family.valid() && drink.facts.in_glass.ice_g <= 0 && is_hot_word(drink.drink.head.name);
}

std::string_view cold_limit(const analysis::Specs& specs) {
  return specs.house.place == "GB" ? "8 C at most by law in England and 5 C by good practice (Food Safety "
                                     "and Hygiene (England) Regulations 2013)"
                                   : "5 C or less (FDA Food Code 2022, 3-501.16)";
}

std::string duration_words(double days) {
  if (days < 2) return fmt::format("{:.3g} h", days * 24);
  if (days < 2 * 365) return fmt::format("{:.3g} d", days);
  return fmt::format("{:.2g} y", days / 365);
}

double water_activity(const model::Masses& masses) {
  using model::Component;
  // g/mol, CRC Handbook of Chemistry and Physics: water, sucrose, sodium chloride.
  constexpr double water_g_per_mol = 18.015, sucrose_g_per_mol = 342.3, salt_g_per_mol = 58.44;
  constexpr double sugar_constant = 6.47;
  double water = masses[Component::water] / water_g_per_mol,
         sugar = masses[Component::sugar] / sucrose_g_per_mol;
  double ions = 2 * masses[Component::salt] / salt_g_per_mol;
  double all = water + sugar + ions;
  if (water <= 0 || all <= 0) return 1;
  return water / all * std::exp(-sugar_constant * std::pow(sugar / all, 2));
}

const model::Entry* entry_of_amount(const std::vector<model::Entry>& entries, std::size_t amount_index) {
  for (const auto& entry : entries)
    if (entry.role == model::Role::amount && entry.index == amount_index) return &entry;
  return nullptr;
}

}  // namespace gill::lint

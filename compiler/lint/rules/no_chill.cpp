#include <fmt/format.h>

#include <algorithm>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// A drink above this and below what is hot reads as warm. Common practice, no source.
constexpr double warm_from_c = 12;

// A pour of this strength (% abv) and up to this size (ml) is drunk at the room's warmth: whisky, port, ti'
// punch. Common practice, no source.
constexpr double neat_from_percent = 15;
constexpr double max_neat_ml = 100;
// What is stirred without ice is a pour with a little in it while this much of it is one thing. Common
// practice, no source.
constexpr double least_share_of_pour = 0.6;

/// Built by layers, or a short, strong pour that says itself that it wants no ice.
bool is_served_as_poured(const DrinkCase& drink) {
  using analysis::Verb;
  const auto& served = drink.facts.served;
  bool is_mixed_elsewhere = false, is_stirred = false;
  double largest_ml = 0, all_ml = 0;
  for (const auto& entry : drink.facts.entries) {
    if (entry.role != model::Role::amount) continue;
    largest_ml = std::max(largest_ml, entry.volume_ml.value_or(0));
    all_ml += entry.volume_ml.value_or(0);
  }
  for (const auto& step : drink.drink.recipe.steps) {
    if (step.verb == Verb::layer) return true;
    is_stirred = is_stirred || step.verb == Verb::stir;
    is_mixed_elsewhere = is_mixed_elsewhere || step.verb == Verb::shake || step.verb == Verb::strain ||
                         step.verb == Verb::double_strain || step.verb == Verb::fine_strain;
  }
  if (is_stirred && largest_ml < least_share_of_pour * all_ml) return false;
  return drink.drink.ice.kind == analysis::GlassIce::Kind::none && !is_mixed_elsewhere &&
         served.abv_percent >= neat_from_percent && served.volume_ml <= max_neat_ml;
}

}  // namespace

void no_chill(const DrinkCase& drink, Reporter& report) {
  double temperature = drink.facts.served.temperature_c;
  if (drink.facts.entries.empty() || temperature < warm_from_c || drink.facts.is_hot) return;
  if (drink.facts.served.volume_ml <= 0) return;
  // Ice in the glass or the bowl goes on chilling, and a hot drink gone cold is told by its own rule.
  const bool bowl_has_ice = drink.facts.shared && drink.facts.served_on.kind != model::ServedIce::Kind::none;
  if (bowl_has_ice || drink.facts.in_glass.ice_g > 0 || is_served_as_poured(drink) ||
      is_hot_drink_gone_cold(drink))
    return;
  report.add(drink.name_span(),
             fmt::format("the drink is served at about {:.0f} C: nothing chills it", temperature),
             "Shake or stir it with ice, build it on ice, or pour what is `chilled`.");
}

}  // namespace gill::lint

#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "base/text.h"
#include "lint/hazards.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/allergens.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

constexpr double cold_limit_s = 24 * 3600;

constexpr std::string_view grains[] = {"rice",   "oats",   "maize", "corn",
                                       "millet", "quinoa", "chia",  "tiger nuts"};

bool is_steeping(analysis::Verb verb) {
  return verb == analysis::Verb::infuse || verb == analysis::Verb::steep || verb == analysis::Verb::macerate;
}

/// Nuts, seeds and grains: what they are soaked in is food of care as soon as it is wet.
bool is_grain_or_nut(const analysis::Stock& stock) {
  if (stock.is_prep || stock.effective_form() == analysis::Form::liquid ||
      stock.kind == analysis::StockKind::fat)
    return false;
  bool by_name = std::any_of(std::begin(grains), std::end(grains), [&](std::string_view grain) {
    return has_words(base::fold_name(stock.head.name), grain);
  });
  return by_name ||
         std::any_of(stock.allergens.begin(), stock.allergens.end(), [](const analysis::AllergenLine& line) {
           auto heading = model::heading_of(line.code);
           return heading == "nuts" || heading == "peanuts" || heading == "cereals" ||
                  heading == "soybeans" || heading == "sesame" || heading == "lupin";
         });
}

}  // namespace

void weak_infusion(const PrepCase& prep, Reporter& report) {
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = prep.step(trace);
    bool stands = is_steeping(step.verb) || step.verb == analysis::Verb::rest;
    if (!stands || !step.time) continue;
    // Plants that rest in syrup are no infusion in spirit; nuts and grains that rest in water are food.
    bool with_spirit = is_steeping(step.verb) || trace.before.masses[model::Component::ethanol] > 0;
    double strength = model::strength(trace.before.masses);
    if (reaches_strength(strength, self_keeping_strength)) continue;
    bool cold = trace.after.temperature_c <= fridge_to_c;
    if (step.time->number() <= (cold ? cold_limit_s : max_without_cold_s)) continue;
    for (auto id : trace.contents) {
      const auto& part = prep.house.specs[id];
      if (!(with_spirit && is_fresh_plant(part)) && !is_grain_or_nut(part)) continue;
      report.add(
          prep.span_of(trace),
          fmt::format("`{}` steeps for {} at {:.3g} % abv and about {:.0f} C", prep.house.specs[id].head.name,
                      duration_words(step.time->number() / 86400), base::percent_of_share(strength),
                      trace.after.temperature_c),
          fmt::format("Below 20 % abv (common practice) fresh plants can spoil or grow what makes people "
                      "ill; studies saw only partial "
                      "falls at 10 to 30 % (Food Protection Trends 42(4), 2022). Steep it in the stronger "
                      "spirit first, or cold and "
                      "short: {}. {}",
                      cold_limit(prep.house.specs), who_decides));
      return;
    }
  }
}

}  // namespace gill::lint

#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// Egg white sets from about 60 °C; below the boil it is no longer raw only from 63 °C held for 15 s (FDA Food
// Code 2022, 3-401.11, from memory). Hot milk curdles the sooner.
constexpr double egg_sets_from_c = 60;
constexpr double clots_from_c = 40;

}  // namespace

void hot_egg(const DrinkCase& drink, Reporter& report) {
  for (const auto& trace : drink.facts.trace) {
    double temperature = trace.after.temperature_c;
    if (temperature < clots_from_c) continue;
    for (auto id : trace.contents) {
      auto kind = drink.house.specs[id].kind;
      const std::string& name = drink.house.specs[id].head.name;
      if (kind == analysis::StockKind::egg) {
        report.add(drink.span_of(trace),
                   temperature >= egg_sets_from_c
                       ? fmt::format("`{}` meets {:.0f} C, and sets in threads", name, temperature)
                       : fmt::format("`{}` is warmed to {:.0f} C, which does not cook it", name, temperature),
                   fmt::format("Temper it: beat the egg, pour the hot into it slowly, and stay below 60 C. "
                               "Warm egg is still raw egg, and warmth helps "
                               "what grows in it; serve at once. {}",
                               who_decides));
        return;
      }
      bool curdles = kind == analysis::StockKind::dairy &&
                     drink.house.facts[id].composition.per_gram[model::Component::protein] > 0.01 &&
                     model::acid_g_per_100_ml(trace.after.masses) >= curdling_acid;
      if (!curdles) continue;
      report.add(drink.span_of(trace),
                 fmt::format("`{}` meets {:.2g} g/100 ml of acid at {:.0f} C, and curdles", name,
                             model::acid_g_per_100_ml(trace.after.masses), temperature),
                 fmt::format("Leave the acid out, or add the dairy cold and last. What stands warm with "
                             "dairy in it needs time and temperature control: {}. {}",
                             cold_limit(drink.house.specs), who_decides));
      return;
    }
  }
}

}  // namespace gill::lint

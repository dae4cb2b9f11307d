#include "model/glass_level.h"

#include <algorithm>

#include "base/percent.h"
#include "model/constants.h"
#include "model/physics/volume.h"

namespace gill::model {

Figures figures_of(const Masses& masses, double temperature_c, double scale) {
  auto in = concentrations(masses);
  return {in.volume_ml * scale,  masses.liquid() * scale, base::percent_of_share(in.strength),
          in.sugar_g_per_100_ml, in.acid_g_per_100_ml,    in.density_g_per_ml,
          temperature_c};
}

InGlass in_glass_of(const DrinkFacts& drink, const analysis::Specs& specs, const BuiltProgram& built,
                    const Outcome& outcome) {
  InGlass in_glass;
  double share = drink.shared ? 1 / drink.serves : 1;
  in_glass.liquid_ml = volume_ml(outcome.liquid) * share;
  in_glass.foam_ml = outcome.foam_ml * share;
  in_glass.ice = drink.served_on.use.ice;
  in_glass.ice_g = drink.shared ? 0 : outcome.ice_g;
  for (std::size_t i = 0; i < built.program.operations.size(); ++i) {
    const auto& operation = built.program.operations[i];
    const auto* add = operation.as<operation::Add>();
    if (!add || !add->is_float || outcome.added_g[i] <= 0) continue;
    const auto& slot = built.program.slots[add->slot];
    units::Millilitres volume = units::Grams(outcome.added_g[i]) / slot.density;
    in_glass.floats.emplace_back(slot.stock, volume.value * share);
  }
  double density = concentrations(outcome.liquid).density_g_per_ml;
  double ice_ml = in_glass.ice_g / ice_density_g_per_ml;
  double packs = in_glass.ice.valid() ? std::clamp(specs[in_glass.ice].packs, 0.1, 0.9) : cubes_pack;
  double floating_ml = density > 0 ? std::min(ice_ml, in_glass.ice_g / density) : 0;
  // A heap that reaches the bottom does not float: the liquid fills the room between the pieces.
  double between_ml = in_glass.liquid_ml / (1 - packs) - in_glass.liquid_ml;
  in_glass.ice_below_ml = std::min(floating_ml, between_ml);
  in_glass.ice_above_ml = ice_ml - in_glass.ice_below_ml;
  in_glass.level_ml = in_glass.liquid_ml + in_glass.ice_below_ml + in_glass.foam_ml;
  return in_glass;
}

}  // namespace gill::model

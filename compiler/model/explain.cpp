#include "model/explain.h"

#include <fmt/format.h>

#include "base/percent.h"
#include "model/constants.h"

namespace gill::model {
namespace {

using namespace reckoning;

std::string say(const Fitted& fitted) {
  return fmt::format(
      "The published fit gives {:.3f} of added water to one of drink at {:.1f} % abv{}; the ice balance of "
      "this case over that of the reference (20 C drink, 300 g of 0 C ice to 100 ml) is {:.3f}, and the time "
      "reaches {:.3f} of the usual.",
      fitted.fit_dilution, base::percent_of_share(fitted.strength),
      fitted.strength_clamped ? " (held to the fit's range of 10 to 50 %)" : "", fitted.balance_ratio,
      fitted.time_share);
}

std::string say(const Balanced& balanced) {
  return fmt::format(
      "The energy balance with the ice at rest gives {:.1f} g of melt and {:.1f} C; the time reaches {:.3f} "
      "of "
      "it.",
      balanced.equilibrium_melt_g, balanced.equilibrium_c, balanced.time_share);
}

std::string say(const ByHands& hands) {
  return fmt::format("This house's hands melt {:.2f} times that (its `hands` line).", hands.factor);
}

// Less than this is in no digit, g.
constexpr double least_told_g = 0.05;

std::string say(const Diluted& diluted) {
  if (diluted.is_blended)
    return fmt::format(
        "All of the ice is drunk, melted or blended in: {:.1f} g of water join the drink; the energy balance "
        "puts it at {:.1f} C.",
        diluted.water_g, diluted.end_c);
  if (diluted.film_g >= least_told_g)
    return fmt::format(
        "{:.1f} g of water join the drink, {:.1f} g of it from the surface of the ice; the energy balance "
        "puts it at "
        "{:.1f} C.",
        diluted.water_g, diluted.film_g, diluted.end_c);
  return fmt::format("{:.1f} g of water join the drink; the energy balance puts it at {:.1f} C.",
                     diluted.water_g, diluted.end_c);
}

std::string say(const MetGlass& met) {
  return fmt::format("A glass at {:.0f} C brings it from {:.1f} to {:.1f} C.", met.glass_c, met.before_c,
                     met.after_c);
}

std::string say(const CooledOnly& cooled) {
  return fmt::format("The water is in the bottle already: the ice only cools, to {:.1f} C.", cooled.end_c);
}

std::string say(const HeldBack& held) {
  switch (held.what) {
    case HeldBack::What::solids:
      return fmt::format(
          "{:.1f} g of solids stay behind and keep about {:.1f} g of liquid (an estimate; `makes` replaces "
          "it).",
          held.left_g, held.liquid_g);
    case HeldBack::What::fat:
      return fmt::format(
          "{:.1f} g of fat are taken off and keep about {:.1f} g of liquid (an estimate; `makes` replaces "
          "it).",
          held.left_g, held.liquid_g);
    case HeldBack::What::removed:
      return fmt::format(
          "{:.1f} g are taken out and keep about {:.1f} g of liquid (an estimate; `makes` replaces it).",
          held.left_g, held.liquid_g);
    case HeldBack::What::curd:
      return fmt::format(
          "{:.1f} g of curd stay behind and keep about {:.1f} g of liquid (an estimate; `makes` replaces "
          "it).",
          held.left_g, held.liquid_g);
  }
  return {};
}

std::string say(const BoiledOff& boiled) {
  return fmt::format(
      "{:.1f} of {:.1f} g of alcohol go off in the open at {:.0f} C: an estimate, from the retention at a "
      "simmer "
      "(USDA Table of Nutrient Retention Factors, from memory) and none at {:.0f} C.",
      boiled.lost_g, boiled.of_g, boiled.heated_to_c, alcohol_goes_from_c);
}

std::string say(const Carbonated& gas) {
  return fmt::format(
      "{:.2f} volumes of gas take {:.1f} bar over the air's pressure at {:.0f} C and {:.1f} bar at the "
      "fridge's {:.0f} C (water's figures; sugar takes a little more). Only a vessel rated for more, with a "
      "relief valve.",
      gas.volumes, gas.pressure_bar, gas.drink_c, gas.fridge_pressure_bar, gas.fridge_c);
}

std::string say(const Reduced&) { return "Boiling drives off ethanol before water: an estimate."; }

}  // namespace

std::string explain(const Reckoning& reckoning) {
  return std::visit([](const auto& figures) { return say(figures); }, reckoning);
}

}  // namespace gill::model

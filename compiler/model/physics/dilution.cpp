#include "model/physics/dilution.h"

#include <algorithm>
#include <cmath>

#include "model/physics/energy_balance.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/numeric.h"
#include "model/physics/tables.h"
#include "model/physics/usual_times.h"
#include "model/physics/volume.h"

namespace gill::model {
namespace {

// The case the fits were measured in (Liquid Intelligence, W. W. Norton, 2014, from memory): a drink at room
// temperature, plenty of ice at 0 °C, here 300 g to 100 ml.
constexpr double lowest_fitted_strength = 0.10;
constexpr double highest_fitted_strength = 0.50;
constexpr double reference_room_c = 20.0;
constexpr double reference_ice_g_per_ml = 3.0;

// Bar ice at 0 °C carries 3 to 8 % of its mass as water, cubes about this much. Common practice, no source.
constexpr double bar_ice_wet_share = 0.05;

// What a drink takes from a room: 1 K in 100 s for 100 ml in a stemmed glass, 25 K below the room (common
// practice).
constexpr double room_w_per_k = 0.17;
constexpr double longest_in_room_s = 3600.0;
constexpr double seconds_per_pass = 2.0;

/// How a method approaches its end.
struct Pace {
  double usual_time;     // seconds, or passes
  double time_constant;  // the same, for cubed ice; 0: all the way at once
  double usual_share;    // 1 − exp(−usual_time/time_constant): share of the way gone in the usual time
  bool holds_bar_ice;    // its figures were found with bar ice, whose own water is in them
};

// Shake: within a hundredth of its end after 15 s, as measured ("Cocktail Science in General", Cooking
// Issues, 2009–2010); stir: two minutes do what a shake does (the same). The others are common practice,
// chosen so that the usual time gives the usual dilution: swizzled and churned 40–60 % with crushed ice and
// the water on it, thrown 25–35 % in six passes, rolled 20–30 % in five, built 10–25 %.
constexpr Pace pace_of(ChillMethod method) noexcept {
  switch (method) {
    case ChillMethod::shake:
      return {usual_shake_s, 4, 0.950212931632136, true};
    case ChillMethod::stir:
      return {usual_stir_s, 30, 0.632120558828558, true};
    case ChillMethod::whip:
      return {usual_whip_s, 0, 1, true};
    case ChillMethod::swizzle:
      return {20, 45, 0.358819611570045, false};
    case ChillMethod::throw_:
      return {6, 7.5, 0.550671035882778, true};
    case ChillMethod::roll:
      return {5, 5, 0.632120558828558, true};
    case ChillMethod::blend:
      return {20, 0, 1, true};
    case ChillMethod::churn:
      return {20, 45, 0.358819611570045, false};
    case ChillMethod::build:
      return {8, 25, 0.273850962926309, false};
  }
  return {0, 0, 1, true};
}

double clamp_strength(double strength) noexcept {
  return std::clamp(strength, lowest_fitted_strength, highest_fitted_strength);
}

// Share of the way gone after `time`: 0…1.
double approach(const Pace& pace, double melt_rate, double time) noexcept {
  if (pace.time_constant == 0) return 1.0;
  return -std::expm1(-std::max(time, 0.0) * std::max(melt_rate, 0.0) / pace.time_constant);
}

// The same drink, as much of it, at another strength: ethanol and water change places.
Masses at_strength(const Masses& drink, double drink_ml, double strength) noexcept {
  Masses changed = drink;
  changed[Component::ethanol] = strength * drink_ml * ethanol_water::ethanol_density_g_per_ml;
  const auto excess = [&](double water) noexcept {
    changed[Component::water] = water;
    return volume_ml(changed) - drink_ml;
  };
  const double guess = drink[Component::water] + drink[Component::ethanol] - changed[Component::ethanol];
  changed[Component::water] = numeric::zero_of_increasing(excess, 0.0, 2.0 * drink_ml, guess, 1.0, 1e-4);
  return changed;
}

// Heat that a drink about 0 °C takes from the room in `seconds`, over what the reference case has in
// `reference_s`.
double room_heat_j(double seconds, double room_c, double reference_s) noexcept {
  const double exposed = std::clamp(seconds, 0.0, longest_in_room_s);
  return std::max(room_w_per_k * (exposed * room_c - reference_s * reference_room_c), 0.0);
}

// `excess` held below `room` without a corner: nearly all of it while it is small against the room there is.
double held_below(double excess, double room) noexcept {
  if (!(excess > 0) || !(room > 0)) return 0.0;
  const double square = (excess / room) * (excess / room);
  return excess / std::sqrt(std::sqrt(1.0 + square * square));
}

// Share of the ice and the vessel that has come to the drink's temperature. Ice gives off its cold before it
// melts: its skin warms to 0 °C first. So this runs ahead of the share of the melt and meets it at the end.
double share_warmed(double melt_share) noexcept {
  const double share = std::min(melt_share, 1.0);
  return share * (2.0 - share);
}

// Equilibrium melt of the reference case. Beyond the range of the fits: of the same drink at the nearest
// strength in it.
double reference_melt_g(const Masses& drink, double drink_ml, double strength, double start_c) noexcept {
  const double clamped = clamp_strength(strength);
  const Masses reference = clamped == strength ? drink : at_strength(drink, drink_ml, clamped);
  const double ice_g = reference_ice_g_per_ml * drink_ml;
  return EnergyBalance(reference, start_c, {.ice_g = ice_g}, ice_g).equilibrium().melt_g;
}

// The bath as it counts against a method's own figures: of the water on the ice, what bar ice carries as well
// is ice.
IceBath as_counted(IceBath bath, bool holds_bar_ice) noexcept {
  bath.ice_g = std::max(bath.ice_g, 0.0);
  bath.surface_water_g = std::max(bath.surface_water_g, 0.0);
  if (!holds_bar_ice) return bath;
  const double own_g = std::min(bath.surface_water_g, surface_water_share(bar_ice_wet_share, bath.ice_c) *
                                                          (bath.ice_g + bath.surface_water_g));
  bath.surface_water_g -= own_g;
  bath.ice_g += own_g;
  return bath;
}

}  // namespace

double surface_water_share(double wet_share, double ice_c) noexcept {
  const double frozen = tables::ice_heat_capacity_j_per_g_k * -std::min(ice_c, 0.0) / tables::fusion_j_per_g;
  return std::max(wet_share - frozen, 0.0);
}

double shaken_dilution(double strength) noexcept {
  const double a = clamp_strength(strength);
  return -1.567 * a * a + 1.742 * a + 0.203;
}

double stirred_dilution(double strength) noexcept {
  const double a = clamp_strength(strength);
  return -1.21 * a * a + 1.246 * a + 0.145;
}

double usual_time(ChillMethod method) noexcept { return pace_of(method).usual_time; }

double seconds_of_building(ChillMethod method, double time) noexcept {
  const Pace pace = pace_of(method), build = pace_of(ChillMethod::build);
  if (pace.time_constant == 0) return build.usual_time;
  return std::max(time, 0.0) * build.time_constant / pace.time_constant;
}

namespace {

/// Melt of a shake or a stir: what was measured at its usual time, scaled to where this drink and ice would
/// end
/// (`end_melt_g`) and to the time that was taken (`chilled.time_share`).
void melt_by_fit(Chilled& chilled, ChillMethod method, const Masses& drink, double drink_ml,
                 const FitCase& fit, double end_melt_g, double ice_g) noexcept {
  const double strength = drink[Component::ethanol] / (ethanol_water::ethanol_density_g_per_ml * drink_ml);
  chilled.basis = Chilled::Basis::fit;
  chilled.strength_clamped = clamp_strength(strength) != strength;
  chilled.fit_dilution =
      method == ChillMethod::shake ? shaken_dilution(strength) : stirred_dilution(strength);
  chilled.reference_melt_g = reference_melt_g(drink, drink_ml, strength, fit.start_c);
  const double fit_g = chilled.fit_dilution * drink_ml * ethanol_water::water_density_g_per_ml;
  const double usual_g = std::min(fit_g * end_melt_g / chilled.reference_melt_g, ice_g);
  const double further_g = usual_g * (chilled.time_share - 1.0);
  chilled.melt_g =
      further_g > 0 ? usual_g + held_below(further_g, end_melt_g - usual_g) : usual_g + further_g;
}

}  // namespace

Chilled chill(ChillMethod method, const Masses& drink, double start_c, const IceBath& bath, double melt_rate,
              double time_s, double room_c, const FitCase& fit) noexcept {
  const double drink_ml = volume_ml(drink);
  if (!(drink_ml > 0)) return {.end_c = start_c, .ice_left_g = bath.ice_g, .time_share = 0};

  const Pace pace = pace_of(method);
  const IceBath counted = as_counted(bath, pace.holds_bar_ice && !fit.in_glass);
  const bool fitted = method == ChillMethod::shake || method == ChillMethod::stir;

  IceBath warmed = counted;
  const double seconds = counts_passes(method) ? seconds_per_pass * time_s : time_s;
  warmed.heat_j += room_heat_j(seconds, room_c, fitted ? pace.usual_time : 0.0);
  const EnergyBalance balance(drink, start_c, warmed, reference_ice_g_per_ml * drink_ml);
  const IceBalance end = balance.equilibrium();
  // Ice takes no water from a drink in the time of a shake, but what it brought may freeze to it again.
  const double end_melt_g = std::max(end.melt_g, fitted ? 0.0 : -counted.surface_water_g);

  Chilled chilled;
  chilled.equilibrium_melt_g = end.melt_g;
  chilled.equilibrium_c = end.end_c;
  if (fitted) {
    chilled.time_share = approach(pace, melt_rate, time_s) / pace.usual_share;
    melt_by_fit(chilled, method, drink, drink_ml, fit, end_melt_g, counted.ice_g);
  } else {
    chilled.time_share = approach(pace, melt_rate, time_s);
    // A film freezes as soon as it touches so cold a drink; melting takes its time.
    chilled.melt_g = end_melt_g < 0 ? end_melt_g : chilled.time_share * end_melt_g;
  }
  chilled.water_added_g = chilled.melt_g + counted.surface_water_g;
  chilled.ice_left_g = counted.ice_g - chilled.melt_g;
  chilled.all_melted = !(chilled.ice_left_g > 0);
  const double balanced_c = balance.temperature_c(chilled.melt_g, share_warmed(chilled.time_share));
  const double warmest_c =
      std::max({start_c, room_c, counted.vessel_j_per_k > 0 ? counted.vessel_c : start_c});
  chilled.end_c = std::max(std::min(balanced_c, warmest_c), balance.freezing_point_c(chilled.melt_g));
  return chilled;
}

}  // namespace gill::model

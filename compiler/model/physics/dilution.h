#pragma once

#include <cstdint>

#include "model/physics/components.h"
#include "model/physics/ice_balance.h"

/// How much water a method adds and how cold it gets.
namespace gill::model {

/// Ways of chilling. `throw_` and `roll` count passes instead of seconds.
enum class ChillMethod : std::uint8_t { shake, stir, whip, swizzle, throw_, roll, blend, churn, build };
inline constexpr std::size_t chill_method_count = 9;
constexpr std::size_t index_of(ChillMethod method) noexcept { return static_cast<std::size_t>(method); }

/// The published fits: added water over undiluted volume, from strength (v/v, 0…1; clamped to 0.10…0.50).
/// Source: Liquid Intelligence, W. W. Norton, 2014, coefficients from memory; they agree with the ice balance
/// to ±0.04 between 15 and 35 %.
double shaken_dilution(double strength) noexcept;
double stirred_dilution(double strength) noexcept;

/// What is usual when a spec gives no time: seconds, or passes for `throw_` and `roll`. Common practice, no
/// source.
double usual_time(ChillMethod method) noexcept;

/// True for `throw_` and `roll`, whose "time" is a count of passes.
constexpr bool counts_passes(ChillMethod method) noexcept {
  return method == ChillMethod::throw_ || method == ChillMethod::roll;
}

/// For how many seconds a drink stands on its ice, built, to come as far towards its end as `method` does in
/// `time` (seconds, or passes): what chills on the serving ice counts towards the time until a drink is
/// served.
double seconds_of_building(ChillMethod method, double time) noexcept;

/// Result of chilling, with what explains it.
struct Chilled {
  double melt_g = 0;         ///< ice turned to water; below 0 where some of the surface water froze again
  double end_c = 0;          ///< never below the freezing point of the diluted drink
  double water_added_g = 0;  ///< melt and surface water: what goes into the drink, at least 0
  double ice_left_g = 0;     ///< in a blended drink it is suspended in it and drunk

  enum class Basis : std::uint8_t { fit, balance };
  Basis basis = Basis::balance;  ///< fit: a published fit, corrected by two balances
  double fit_dilution = 0;  ///< the fit's own figure at the usual time with reference ice; 0 for `balance`
  bool strength_clamped = false;  ///< the drink's strength is outside 0.10…0.50, where the fits hold
  double reference_melt_g = 0;  ///< fit only: equilibrium with 300 g of 0 °C ice to 100 ml, drink at 20 °C
  double equilibrium_melt_g = 0;  ///< equilibrium with the ice given
  double equilibrium_c = 0;
  double time_share = 1;  ///< share of the fit (can pass 1), or of the equilibrium, reached in the time
  bool all_melted = false;
};

/// The case that the fits were measured in, as far as it goes with the drink.
struct FitCase {
  /// Poured together from parts at 20 °C: warmer than they by the heat of mixing.
  double start_c = 20;
  /// Worked in the glass, with the glass's ice: none of the water on it is in the method's figures.
  bool in_glass = false;
};

/// Water that clings to ice, as a share of its mass, from what clings to it at 0 °C: colder ice has frozen
/// some of it, or all.
double surface_water_share(double wet_share, double ice_c) noexcept;

/// Chills `drink` from `start_c` with `bath` for `time_s` seconds (passes for `throw_` and `roll`) in a room
/// at `room_c`. `melt_rate` says how readily the ice melts, 1 for cubed, more for crushed, less for large: it
/// divides the time constant.
///
/// Shake and stir: fit × equilibrium(case)/equilibrium(reference: the same drink at `fit.start_c`, 300 g of
/// ice at 0 °C to 100 ml) × time factor; so the reference case at the usual time gives the published fit
/// itself. Longer approaches the equilibrium and does not pass it, unless the fit is above it already. Whip
/// and blend: the equilibrium, so all the ice where the energy allows. The others: the share of the
/// equilibrium reached in the time; where a drink is colder than its freezing point allows, the water on the
/// ice freezes again.
///
/// What the figures of shake, stir, whip, throw, roll and blend were found with is in them: bar ice with its
/// own water on it (`bar_ice_wet_share`) and a tin at 20 °C, which are set against the core of the ice, whose
/// cold such a short time does not reach. So of the bath's surface water only what is beyond that counts.
/// Build, swizzle and churn count all of it, and the vessel (the glass) as it is.
///
/// A drink colder than its ice is warmed by the ice's core. The fits were measured with as much of that as
/// 300 g of ice to 100 ml give: of more ice than that the rest keeps its temperature, and less ice gives the
/// less (energy_balance.h). Of the room, only what it gives beyond the fits' own 20 °C and usual time counts.
///
/// Continuous throughout. More time never gives less melt; colder ice never more melt; more ice at 0 °C never
/// less. Until some of the ice lasts, and from 300 g to 100 ml on, more ice of a kind never gives a warmer
/// drink (but for 0.1 K where ice just suffices and the fit is above the equilibrium).
Chilled chill(ChillMethod method, const Masses& drink, double start_c, const IceBath& bath, double melt_rate,
              double time_s, double room_c, const FitCase& fit = {}) noexcept;

}  // namespace gill::model

#pragma once

#include "model/physics/components.h"

/// Carbon dioxide in drinks.
namespace gill::model {

/// Grams in a litre of gas at 0 °C and 1.01325 bar: one "volume" in a litre of drink. Handbook value.
inline constexpr double carbon_dioxide_g_per_volume_litre = 1.977;

/// Grams of gas dissolved in `drink_ml` at so many volumes.
constexpr double carbon_dioxide_g_from_volumes(double volumes, double drink_ml) noexcept {
  return volumes * drink_ml * (carbon_dioxide_g_per_volume_litre / 1000.0);
}

/// Volumes of gas in `drink_ml`; 0 for no drink.
constexpr double volumes_from_carbon_dioxide_g(double carbon_dioxide_g, double drink_ml) noexcept {
  return drink_ml > 0 ? carbon_dioxide_g * 1000.0 / (carbon_dioxide_g_per_volume_litre * drink_ml) : 0.0;
}

/// What gas dissolves in: its temperature, its alcohol and its sugar.
struct GasSolvent {
  double celsius = 20;
  double strength = 0;  ///< v/v, 0…1
  double sugar_g_per_l = 0;
};

/// The same of a liquid by its masses.
GasSolvent gas_solvent(const Masses& liquid, double celsius) noexcept;

/// Volumes that dissolve at 1.01325 bar of gas. By temperature as in water: "Carbon dioxide in water and
/// seawater: the solubility of a non-ideal gas", Marine Chemistry 2 (1974), Elsevier, fresh water; valid
/// −1…40 °C, clamped outside. By alcohol and sugar the factors (0.86 − 0.01 A)/0.86 and 1 − 0.00144 S (A in %
/// vol, S in g/l) of the Community methods for the analysis of wines, Regulation (EEC) No 2676/90, chapter
/// 37: made for wines at 20 °C. Above 18 % vol and 200 g/l they stay as they are there: spirit dissolves more
/// again (Journal of Solution Chemistry 16 (1987), Springer, finds a minimum), and no formula reaches so far.
double carbon_dioxide_solubility_volumes(const GasSolvent& solvent) noexcept;

/// Pressure over the surrounding air, in bar, that holds so many volumes in this liquid; negative below one
/// atmosphere of gas. Henry's law, pure gas in the headspace, air at 1.01325 bar.
double carbonation_pressure_bar_gauge(double volumes, const GasSolvent& solvent) noexcept;

/// Volumes that dissolve under this gauge pressure: the inverse.
double volumes_at_pressure(double bar_gauge, const GasSolvent& solvent) noexcept;

}  // namespace gill::model

#pragma once

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

/// Volumes that dissolve in water at 1.01325 bar of gas: "Carbon dioxide in water and seawater: the
/// solubility of a non-ideal gas", Marine Chemistry 2 (1974), Elsevier, fresh water. Valid −1…40 °C; clamped
/// outside. Drinks differ: sugar dissolves less (about 1 % less for each 1 % of it), strong alcohol more.
double carbon_dioxide_solubility_volumes(double celsius) noexcept;

/// Pressure over the surrounding air, in bar, that holds so many volumes at this temperature; negative below
/// one atmosphere of gas. Henry's law, pure gas in the headspace, air at 1.01325 bar.
double carbonation_pressure_bar_gauge(double volumes, double celsius) noexcept;

/// Volumes that dissolve under this gauge pressure: the inverse.
double volumes_at_pressure(double bar_gauge, double celsius) noexcept;

}  // namespace gill::model

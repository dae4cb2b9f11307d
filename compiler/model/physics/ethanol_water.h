#pragma once

/// Density and strength of ethanol and water: OIML R 22 (1975), International alcoholometric tables,
/// Organisation Internationale de Métrologie Légale; the same formula stands in Council Directive 76/766/EEC.
///
/// Valid for mass fractions 0…1 and −20…+40 °C, above the freezing point. Outside, mass fraction and
/// temperature are clamped to those limits, so the answer is the one at the nearest valid point.
namespace gill::model::ethanol_water {

inline constexpr double lowest_celsius = -20.0;
inline constexpr double highest_celsius = 40.0;

/// Water at 20 °C, g/ml (R 22, coefficient A1).
inline constexpr double water_density_g_per_ml = 0.99820123;
/// Ethanol at 20 °C, g/ml: the sum of the twelve A coefficients of R 22.
inline constexpr double ethanol_density_g_per_ml = 0.7892391233;

/// Density in g/ml of the mixture with this mass fraction of ethanol.
double density_g_per_ml(double mass_fraction, double celsius) noexcept;

/// The same at 20 °C, faster.
double density_g_per_ml(double mass_fraction) noexcept;

/// Strength as a label states it: volume of ethanol over volume of the mixture, both at 20 °C; 0…1.
double strength_from_mass_fraction(double mass_fraction) noexcept;

/// Inverse of `strength_from_mass_fraction`, to 1e-12 or better. Strength is clamped to 0…1.
double mass_fraction_from_strength(double strength) noexcept;

/// Mass fraction of the mixture with this density at this temperature: what a hydrometer reads. Density falls
/// as ethanol rises, so there is one answer; outside the densities of water and ethanol it is 0 or 1.
double mass_fraction_from_density(double density_g_per_ml, double celsius) noexcept;

}  // namespace gill::model::ethanol_water

#pragma once

/// Density of sugar solutions: the ICUMSA equation (Methods Book, specification SPS-4, International
/// Commission for Uniform Methods of Sugar Analysis), joined to OIML R 22 at no sugar.
///
/// Valid for mass fractions 0…0.80 and about 0…80 °C. The mass fraction is clamped to 0…0.80; temperature to
/// −20…80 °C.
namespace gill::model::sucrose {

inline constexpr double highest_mass_fraction = 0.80;

/// Density in g/ml of a solution with this mass fraction of sucrose (0.50 is 50 brix).
double density_g_per_ml(double mass_fraction, double celsius = 20.0) noexcept;

/// What a gram of dissolved sucrose adds to the volume of its water, ml/g at 20 °C (0.615 thin … 0.635 at 80
/// %).
double apparent_specific_volume_ml_per_g(double mass_fraction) noexcept;

/// The same at another temperature.
double apparent_specific_volume_ml_per_g(double mass_fraction, double celsius) noexcept;

/// Mass fraction of the solution with this density; 0 or 0.80 outside the table.
double mass_fraction_from_density(double density_g_per_ml, double celsius = 20.0) noexcept;

}  // namespace gill::model::sucrose

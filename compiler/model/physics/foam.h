#pragma once

/// How far foam raises a drink: share of the liquid's volume added as foam. Common practice, no source.
namespace gill::model {

/// A usual figure with its range.
struct FoamRise {
  double low = 0;
  double typical = 0;
  double high = 0;
};

/// Egg white, 15–20 ml in a drink of 120–150 ml, shaken dry and then with ice.
inline constexpr FoamRise foam_of_egg_white{0.20, 0.25, 0.35};
/// The same, strained from the ice and shaken dry last.
inline constexpr FoamRise foam_of_egg_white_dry_last{0.30, 0.375, 0.45};
/// Pineapple juice or cooking water of chickpeas, 20–30 ml; falls in 3 to 5 minutes.
inline constexpr FoamRise foam_of_juice_or_pulse_water{0.15, 0.20, 0.25};
/// Cream, 30 ml, shaken.
inline constexpr FoamRise foam_of_cream{0.05, 0.075, 0.10};
/// A whole egg, shaken.
inline constexpr FoamRise foam_of_whole_egg{0.10, 0.15, 0.20};
/// What is left of a foam when more than `foam_breaking_fat_ml` of free fat or oil is in the drink.
inline constexpr double foam_left_with_fat = 0.5;
inline constexpr double foam_breaking_fat_ml = 1.0;

}  // namespace gill::model

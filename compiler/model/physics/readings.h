#pragma once

#include <optional>

#include "model/physics/components.h"

/// What the instruments of a bar would show of a liquid, all at 20 °C: they know no sugar, only light and
/// weight, so acids, alcohol and extract are read as sugar.
namespace gill::model {

/// Refractive index at 589 nm (sodium D) and 20 °C; nothing where there is no water or alcohol, or more than
/// a tenth of fat, in which the line of a refractometer is a haze.
///
/// (n − 1) V is the sum of what each part brings by its grams (Gladstone and Dale's rule). What water with
/// ethanol brings and what sugar brings are taken from the published tables of each, so both are met exactly;
/// acids and salt by their refraction in thin solution, the rest as sugar. Undissolved things, fat and gas
/// bend no light here.
std::optional<double> refractive_index(const Masses& masses) noexcept;

/// What a refractometer shows: the mass per cent of sugar in water that bends light as far. 0…85, the scale's
/// end.
std::optional<double> refractometer_brix(const Masses& masses) noexcept;

/// How far that reading may lie off for what the rule does not know, brix: acids by 3 % of what they read,
/// salt, protein and extract by 10 %, alcohol beside sugar by 3 %. Common practice, no source. The
/// instrument's own error is not in it.
double refractometer_doubt_brix(const Masses& masses) noexcept;

/// Density over that of water, both at 20 °C: the scale of a hydrometer.
double specific_gravity(double density_g_per_ml) noexcept;

/// What a saccharometer shows: the mass per cent of sugar in water as heavy; nothing for what is lighter than
/// water.
std::optional<double> hydrometer_brix(double density_g_per_ml) noexcept;

/// What an alcoholmeter shows, v/v 0…1: the strength of water and alcohol as light; nothing for what is
/// heavier than water, where it sinks no deeper than its last mark.
std::optional<double> hydrometer_strength(double density_g_per_ml) noexcept;

}  // namespace gill::model

#pragma once
#include <string_view>

#include "lint/lint.h"

/// Questions that several rules ask of what is in a vessel.
namespace gill::lint {

/// Who decides, for the end of every safety caution.
inline constexpr std::string_view who_decides = "Your local health code and a trained person decide.";

// Food is held hot from this on, °C. FDA Food Code 2022, 3-501.16 (from memory).
inline constexpr double hot_holding_c = 57;
// Cooked food is cooled to this within two hours, °C. FDA Food Code 2022, 3-501.14.
inline constexpr double first_cooling_c = 21;
// Spirit of this strength and more is taken in the trade to keep what holds neither egg nor dairy. Common
// practice, no source.
inline constexpr double self_keeping_strength = 0.20;
/// True from that strength on (volume fractions). A label's figure comes back from the masses that were
/// solved of it some billionths off, and what says 20 % abv is as strong as that.
inline bool reaches_strength(double strength, double limit) { return strength > limit - 1e-6; }

// What may stand without cold so long, in seconds. FDA Food Code 2022, 3-501.19: four hours (from memory).
inline constexpr double max_without_cold_s = 4 * 3600;
// Colder than this, °C, something stands in a fridge. Common practice, no source.
inline constexpr double fridge_to_c = 8;
// Casein comes out of milk at about pH 4.6, which this much acid brings about (g citric equivalents in 100 ml
// of what is mixed). Dairy chemistry handbooks, from memory; orange juice with cream stays below.
inline constexpr double curdling_acid = 0.3;
// An egg with this share of fat has its yolk.
inline constexpr double yolk_from_fat = 0.05;
// Less water than this share and it is a powder, a crumb or a fat.
inline constexpr double dry_below_water = 0.3;
// Less of something than this (ml) seasons a drink, and mixes by itself. Common practice, no source.
inline constexpr double seasoning_below_ml = 5;

/// Dairy whose `treated` line names no heat treatment.
bool is_raw_dairy(const analysis::Stock& stock);
/// Fresh fruit or herb, whole or cut: nothing bought dry, nothing pressed.
bool is_fresh_plant(const analysis::Stock& stock);

// Less gas than this (volumes) is flat on the tongue. Common practice, no source.
inline constexpr double flat_below_volumes = 0.3;
/// The gas in a vessel's liquid, volumes of CO2.
double gas_volumes(const model::VesselState& vessel);

/// True where a line of the method dehydrates.
bool is_dried(const analysis::Recipe& recipe);

/// A strain of any kind, or a dump: what brings the drink from the shaker into the glass.
bool moves_to_the_glass(analysis::Verb verb);
/// True where the drink's own `ice` line names crushed ice.
bool is_on_crushed_ice(const DrinkCase& drink);

/// The line that mixes a drink which no later line moves out of the mixing vessel; nothing where it reaches
/// the glass.
const model::TraceStep* stays_in_vessel(const DrinkCase& drink);

/// True where the method line at that place of the order says word for word what the line before it does, or
/// is a garnish that stands there already.
bool repeats_a_step(const analysis::Recipe& recipe, std::size_t place);

/// A drink of a hot family, or one named as a hot drink and not on ice, that is served at drinking-cold.
bool is_hot_drink_gone_cold(const DrinkCase& drink);

/// The limit of cold holding where the house stands, with its source.
std::string_view cold_limit(const analysis::Specs& specs);

/// `30 d`, `4 h`, `2 y`: a duration as it is said.
std::string duration_words(double days);

/// Water activity near 25 °C by mole fractions: ln aw = ln Xw − 6.47 Xs² for sugar (the one-constant
/// equation; agrees with sugar-technology tables to about 0.01, from memory), salt as two ions. Ethanol is
/// left out: it lowers the true value. 1 where there is no water.
double water_activity(const model::Masses& masses);

/// The entry of an amount line, or nothing.
const model::Entry* entry_of_amount(const std::vector<model::Entry>& entries, std::size_t amount_index);

}  // namespace gill::lint

#pragma once

/// Figures of the simulation that belong to no table of physics: habits of bars, each with where it comes
/// from.
namespace gill::model {

/// Ice put on top of a drink that stands on ice already, of what the glass takes. Common practice, no source.
inline constexpr double more_ice_share = 0.25;

// Ice without a `with`: 300 g to 100 ml, the language's own rule.
inline constexpr double shaker_ice_g_per_100_ml = 300;
// A whip without a `with`: a few pebbles to 100 ml, as much as melts wholly in a drink from the room. Common
// practice, no source.
inline constexpr double whip_ice_g_per_100_ml = 25;
// Ice that is blended in without a measure: a cup of crushed ice, 140 g, to a drink of 115 ml. All of it is
// drunk. Common practice, no source (recipes give 100 to 180 g).
inline constexpr double blend_ice_g_per_100_ml = 120;
// How much of a glass a scoop of ice fills: share of `holds`, by the heap's outline. Common practice, no
// source.
inline constexpr double glass_heap_share = 0.75;
// Share of a heap of cubes that is ice: of a dumped shaker, and of ice that says nothing else. Common
// practice, no source.
inline constexpr double cubes_pack = 0.57;
// g/ml at 0 °C. CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press.
inline constexpr double ice_density_g_per_ml = 0.9167;
// A piece of ice from this weight on stands alone in a glass. Common practice, no source.
inline constexpr double single_piece_from_g = 60;

// What a strain leaves on ice and tin; the language allows at most 1 %.
inline constexpr double strain_loss_share = 0.01;

// What a rinse leaves in the glass, ml, and what is poured for it. Common practice, no source.
inline constexpr double rinse_stays_ml = 1.5;
inline constexpr double rinse_poured_ml = 5;
// One press of an atomiser, ml. Common practice, no source (0.10 to 0.15).
inline constexpr double mist_ml = 0.12;
// What a full rim takes of salt and of sugar, g, and the share of it that is drunk. Common practice, no
// source.
inline constexpr double salt_rim_g = 1.5;
inline constexpr double sugar_rim_g = 3;
inline constexpr double rim_drunk_share = 0.5;

// A scoop of ice that nobody measured can as well be this much of what is reckoned with, and so little over
// the brim (share of what the glass holds) is within what jiggers and glasses are good for. Common practice,
// no source.
inline constexpr double min_scoop_share = 0.5, petty_overflow_share = 0.02;

// `hot` means this, °C: the language's own rule.
inline constexpr double hot_c = 90;
// A drink at this or more, °C, is a hot one: where it is put together so, no ice is assumed, and served so,
// none is missed. Common practice, no source.
inline constexpr double hot_drink_from_c = 40;

// A glass rinsed with hot water, °C, when the drink comes. Common practice, no source.
inline constexpr double warmed_glass_c = 60;
// A glass that nobody describes: what it holds, ml, and where its line is, as a share of that. Common
// practice, no source.
inline constexpr double unnamed_glass_ml = 300;
inline constexpr double usual_line_share = 0.85;
// How full of drink and ice a glass with a scoop of ice is filled, and how full it is topped, as shares of
// what it holds; a scoop is never less than this share of itself. Common practice, no source.
inline constexpr double full_with_ice_share = 0.95;
inline constexpr double topped_up_share = 0.97;
inline constexpr double min_scoop_of_heap = 0.25;
// What the ice is expected to add before the drink is reckoned, as a factor. Common practice, no source.
inline constexpr double expected_with_melt = 1.1;

// Fat that sets above a spirit keeps this much liquid with it, g to g: 375 ml of spirit with 120 g of oil
// comes back as about 300 ml. Common practice, no source.
inline constexpr double liquid_held_by_fat = 0.59;
// Strained solids keep this much liquid, g to g of dry matter. Common practice, no source (1.5 pressed to 4
// drained).
inline constexpr double liquid_held_by_solids = 2.5;
inline constexpr double liquid_held_by_pressed_solids = 1.5;
// Fresh fruit and herbs that are strained off keep so much of what their cells hold, in the liquid that they
// stand in; cooked soft, less; muddled, blended or pressed, none. Common practice, no source (drained fruit
// weighs 0.7 to 1.0 of what went in).
inline constexpr double kept_by_cells = 0.8, kept_by_cooked_cells = 0.5;
// From this, °C, fruit is cooked soft. Common practice, no source.
inline constexpr double cells_soften_from_c = 80;
// Fresh is what holds more water than this and less salt (brine opens cells), g/g.
inline constexpr double fresh_water_share = 0.5, fresh_salt_share = 0.02;
// At this or colder, °C, fat that is solid in the kitchen stays in a strainer, and any fat. Common practice,
// no source.
inline constexpr double solid_fat_sets_c = 10, any_fat_sets_c = -10;
// Of the fat that swims on top, a ladle and a strainer take so much. Common practice, no source.
inline constexpr double skimmed_share = 0.95, strained_set_fat_share = 0.98;
// A milk clarification takes nearly all fat and, with the curd, the casein: four fifths of milk's protein.
// General dairy science, from memory.
inline constexpr double clarified_fat_share = 0.98;
inline constexpr double clarified_protein_share = 0.8;
// Curd keeps this much liquid, g to g of fat and protein. Common practice, no source.
inline constexpr double liquid_held_by_curd = 3;

// Share of the gas that a shake in a closed tin drives out. Common practice, no source.
inline constexpr double gas_left_after_shaking = 0.1;
// Heated to this, °C, a drink is flat. Common practice, no source.
inline constexpr double gas_gone_from_c = 50;

// How far things lie to either side where nobody says. A label's strength: Regulation (EU) No 1169/2011,
// Annex XII, from memory (0.3 % vol; beer up to 5.5 % vol 0.5; other beer and what sparkles 1), told of what
// holds more than 1.2 % vol. A jigger: this share of the pour, and never less than so many ml; a top to a
// line by eye; the melt of one pair of hands beside another's; room and ice. Common practice, no source.
inline constexpr double label_strength_width = 0.003, weak_beer_strength_width = 0.005,
                        sparkling_strength_width = 0.01;
inline constexpr double weak_beer_to_strength = 0.055, labelled_from_strength = 0.012;
inline constexpr double jigger_share = 0.02, jigger_min_ml = 0.5;
inline constexpr double top_share = 0.05;
inline constexpr double melt_share = 0.15;
// What strained solids, fat and fruit keep: theirs is a wide range in bars. Common practice, no source
// (solids 1.5 to 4 g to a gram, fruit 0.6 to 1.0 of its volume).
inline constexpr double hold_share = 0.4;
inline constexpr double room_width_k = 2, ice_width_k = 2;
// A juice that says nothing of its days: fresh citrus differs by 15 to 20 % in acid, less in sugar. Common
// practice, no source.
inline constexpr double juice_acid_share = 0.15, juice_sugar_share = 0.1;

// What a bar's instruments are good for where a line says nothing: a scale to the gram, a jug to a hundredth
// and never better than a millilitre, a thermometer in a thin drink, a refractometer that nobody zeroed
// today, a hydrometer in what is not quite at 20 °C; a share of what a titration, a distillation or a sum
// gives. Common practice, no source.
inline constexpr double scale_error_g = 1;
inline constexpr double jug_error_share = 0.01, jug_error_ml = 1;
inline constexpr double thermometer_error_k = 0.5;
inline constexpr double refractometer_error_brix = 0.5;
inline constexpr double hydrometer_error_g_per_ml = 0.003;
inline constexpr double reading_error_share = 0.05;

// Ethanol boils off before water: its share in the vapour over its share in a thin liquid, by mass, falls
// from about 10 as the liquid gets stronger; one figure serves for an estimate. Perry's Chemical Engineers'
// Handbook, McGraw-Hill, vapour-liquid equilibrium of ethanol and water, from memory.
inline constexpr double ethanol_relative_volatility = 9;

// Alcohol left in what is cooked in the open, by minutes at the simmer: stirred into a boiling liquid and
// taken off the heat, then simmered. USDA Table of Nutrient Retention Factors, Release 6, U.S. Department of
// Agriculture, from memory.
struct AlcoholLeft {
  double minutes, share;
};
inline constexpr AlcoholLeft alcohol_left_at_the_simmer[] = {{0, 0.85},  {15, 0.40},  {30, 0.35}, {60, 0.25},
                                                             {90, 0.20}, {120, 0.10}, {150, 0.05}};
// Below this, °C, so little goes off in the time of a drink that it is not counted; from here to a simmer in
// a straight line. Common practice, no source.
inline constexpr double alcohol_goes_from_c = 60;
// A simmer stays just under the boil, °C, and one without a time lasts so long, s. Common practice, no
// source.
inline constexpr double simmer_c = 95;
inline constexpr double usual_simmer_s = 900;

// A drink at rest takes so many times as long as a stirred one to come to rest with its ice. Common practice,
// no source: a drink on one large piece gains a tenth to a quarter of its volume in ten minutes.
inline constexpr double stirred_over_still = 20;
// When a drink on ice is looked at again, min.
inline constexpr double later_minutes[] = {5, 10};

// Fresh fruit and herbs are mostly water: share of what no line states. USDA tables, from memory.
inline constexpr double water_share_of_fruit = 0.88;
inline constexpr double water_share_of_herbs = 0.80;
// More sugar than this (g/g) and a fruit is a dried one.
inline constexpr double dried_fruit_sugar = 0.3;

}  // namespace gill::model

#pragma once

#include <array>
#include <cstddef>

#include "model/physics/components.h"

/// Figures of the physics, as published, with their sources. Nothing here is fitted by us unless it says so.
namespace gill::model::tables {

// ---------------------------------------------------------------------------------------------------------------
// OIML R 22 (1975), International alcoholometric tables, Organisation Internationale de Métrologie Légale;
// the same formula is annexed to Council Directive 76/766/EEC. kg/m3; p is mass fraction of ethanol, u is the
// temperature in °C less 20: rho = A1 + sum A_k p^(k−1) + sum B_k u^k + sum C_ik p^k u^i.

inline constexpr std::array<double, 12> r22_a{9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3,
                                              1.352215441e4, -8.829278388e4, 3.062874042e5, -6.138381234e5,
                                              7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4};
inline constexpr std::array<double, 6> r22_b{-2.0618513e-1, -5.2682542e-3, 3.6130013e-5,
                                             -3.8957702e-7, 7.1693540e-9,  -9.9739231e-11};
inline constexpr std::array<double, 11> r22_c1{
    1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2,
    3.924090430035045e3,  -1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4,
    1.852373922069467e4,  -7.420201433430137e3, 1.285617841998974e3};
inline constexpr std::array<double, 10> r22_c2{
    -1.193013005057010e-2, 2.517399633803461e-1, -2.170575700536993,   1.353034988843029e1,
    -5.029988758547014e1,  1.096355666577570e2,  -1.422753946421155e2, 1.080435942856230e2,
    -4.414153236817392e1,  7.442971530188783};
inline constexpr std::array<double, 9> r22_c3{
    -6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1,
    1.022992966719220,     -2.895696483903638,   4.810060584300675,
    -4.672147440794683,    2.458043105903461,    -5.411227621436812e-1};
inline constexpr std::array<double, 4> r22_c4{4.075376675622027e-6, -8.763058573471110e-6,
                                              6.515031360099368e-6, -1.515784836987210e-6};
inline constexpr std::array<double, 2> r22_c5{-2.788074354782409e-8, 1.345612883493354e-8};

/// Water from 40 to 100 °C by tens, g/ml, where R 22 ends. International Association for the Properties of
/// Water and Steam, IAPWS-95, at one atmosphere (from memory).
inline constexpr std::array<double, 7> hot_water_density_g_per_ml{0.99222, 0.98803, 0.98320, 0.97776,
                                                                  0.97179, 0.96531, 0.95835};

// ---------------------------------------------------------------------------------------------------------------
// Sucrose: ICUMSA Methods Book, specification SPS-4, International Commission for Uniform Methods of Sugar
// Analysis. kg/m3; w is mass fraction, T = (t − 20)/100: rho = rho_water + sum a(j,i) w^i T^j; a row for each
// j, from i = 1.

inline constexpr std::array<double, 6> icumsa_0{385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890};
inline constexpr std::array<double, 5> icumsa_1{-46.2720, -7.1720, 1.1597, 5.1126, 17.5254};
inline constexpr std::array<double, 4> icumsa_2{59.7712, 7.2491, 12.3630, -35.4791};
inline constexpr std::array<double, 3> icumsa_3{-47.2207, -21.6977, 27.6301};
inline constexpr std::array<double, 2> icumsa_4{18.3184, 12.3081};

// ---------------------------------------------------------------------------------------------------------------
// Volume of the other solutes, ml/g at 20 °C, by component. "CRC" is evaluated from the densities of the CRC
// Handbook of Chemistry and Physics, 102nd edition, CRC Press, "Concentrative properties of aqueous
// solutions".

inline constexpr std::array<double, component_count> specific_volume_ml_per_g{
    1.0 / 0.99820123,    // water: R 22
    1.0 / 0.7892391233,  // ethanol: R 22
    0.6152,              // sugar: ICUMSA, thin solution
    0.597,               // citric: CRC, 5–20 % by mass (0.595–0.598)
    0.60,                // malic: from memory, ±0.03
    0.56,                // tartaric: from memory, ±0.03
    0.785,               // lactic: CRC, 10–40 % (0.783–0.789)
    0.864,               // acetic: CRC, 5–10 %
    0.475,               // phosphoric: CRC, 5–10 % (0.470–0.480)
    0.61,                // ascorbic: from memory, ±0.03
    1.09,  // fat: milk fat and kitchen oils 0.91–0.93 g/ml; common handbook value, from memory
    0.74,  // protein: partial specific volume of food proteins 0.70–0.75; from memory
    0.32,  // salt: sodium chloride at 10 %, apparent 0.323; from memory of the CRC table
    0.62,  // other: taken as carbohydrate
    0.65,  // solids: dry plant matter about 1.5 g/ml; common handbook value, from memory
    0.76,  // carbon dioxide: partial molar volume 33.5 ml/mol in water; from memory
};

// ---------------------------------------------------------------------------------------------------------------
// Refractive index at 589 nm and 20 °C.

/// Sucrose in water by steps of 5 % by mass, 0…85 %. ICUMSA Methods Book, refractive index of sucrose
/// solutions (from memory; the four digits of the CRC Handbook agree).
inline constexpr std::array<double, 18> sucrose_refractive_index{
    1.33299, 1.34026, 1.34782, 1.35568, 1.36384, 1.37233, 1.38115, 1.39032, 1.39986,
    1.40978, 1.42009, 1.43080, 1.44193, 1.45348, 1.46546, 1.47787, 1.49071, 1.50398};

/// Ethanol in water by steps of 2 % by mass, 0…100 %. CRC Handbook, as above.
inline constexpr std::array<double, 51> ethanol_refractive_index{
    1.33299, 1.3342, 1.3354, 1.3367, 1.3381, 1.3395, 1.3410, 1.3425, 1.3440, 1.3455, 1.3469, 1.3484, 1.3498,
    1.3511,  1.3524, 1.3535, 1.3546, 1.3557, 1.3566, 1.3575, 1.3583, 1.3590, 1.3598, 1.3604, 1.3610, 1.3616,
    1.3621,  1.3626, 1.3630, 1.3634, 1.3638, 1.3641, 1.3644, 1.3647, 1.3650, 1.3652, 1.3654, 1.3655, 1.3657,
    1.3657,  1.3658, 1.3657, 1.3656, 1.3655, 1.3653, 1.3650, 1.3646, 1.3642, 1.3636, 1.3630, 1.3614};

/// What a gram brings to (n − 1) V, ml, by component. "CRC" is worked out from its indices and densities at
/// 10 % by mass. Water, ethanol and sugar are read in their tables; fat, solids and gas bend no light.
inline constexpr std::array<double, component_count> specific_refraction_ml_per_g{
    0,       // water
    0,       // ethanol
    0,       // sugar
    0.3230,  // citric: CRC
    0.3230,  // malic: as citric, no table found
    0.3230,  // tartaric: as citric, no table found
    0.3608,  // lactic: CRC
    0.3590,  // acetic: CRC
    0.2471,  // phosphoric: CRC at 10 %, from memory
    0.3230,  // ascorbic: as citric, no table found
    0,       // fat
    0.428,   // protein: 0.185 ml/g over water's place, from memory
    0.2713,  // salt: CRC at 10 %, from memory
    0.3482,  // other: as sugar
    0,       // solids
    0,       // carbon dioxide
};

// ---------------------------------------------------------------------------------------------------------------
// Freezing point depressions, K, for each whole per cent by mass of solute in (solute + water).

/// A row of a published table.
struct Depression {
  double mass_percent, kelvin;
};

/// Spreads published rows over whole per cents, in straight lines between rows, so that finding a place needs
/// no search.
template <std::size_t last, std::size_t rows>
constexpr std::array<double, last + 1> by_whole_percent(const Depression (&table)[rows]) {
  std::array<double, last + 1> grid{};
  std::size_t row = 0;
  for (std::size_t percent = 0; percent <= last; ++percent) {
    const auto at = static_cast<double>(percent);
    while (row + 2 < rows && table[row + 1].mass_percent < at) ++row;
    const double along =
        (at - table[row].mass_percent) / (table[row + 1].mass_percent - table[row].mass_percent);
    grid[percent] = table[row].kelvin + along * (table[row + 1].kelvin - table[row].kelvin);
  }
  return grid;
}

/// Ethanol, 0…100 %. To 68 %: CRC Handbook, as above. From there a straight line to the melting point of pure
/// ethanol, −114.1 °C (handbook value): no more than an order of magnitude, there is no such table.
inline constexpr auto ethanol_depression = by_whole_percent<100>({
    {0, 0.00},   {1, 0.40},   {2, 0.81},   {3, 1.23},   {4, 1.65},   {5, 2.09},    {6, 2.54},   {7, 2.99},
    {8, 3.47},   {9, 3.96},   {10, 4.47},  {11, 5.00},  {12, 5.56},  {13, 6.13},   {14, 6.73},  {15, 7.36},
    {16, 8.01},  {17, 8.69},  {18, 9.40},  {19, 10.14}, {20, 10.92}, {22, 12.60},  {24, 14.47}, {26, 16.41},
    {28, 18.43}, {30, 20.47}, {32, 22.44}, {34, 24.27}, {36, 25.98}, {38, 27.62},  {40, 29.26}, {42, 30.98},
    {44, 32.68}, {46, 34.36}, {48, 36.04}, {50, 37.67}, {52, 39.20}, {54, 40.65},  {56, 42.06}, {58, 43.49},
    {60, 44.93}, {62, 46.28}, {64, 47.52}, {66, 48.64}, {68, 49.52}, {100, 114.1},
});

/// Sucrose, 0…80 %. To 42 %: CRC Handbook, as above. From there by the Norrish water activity,
/// ln a = ln x_water − 6.47 x_sucrose² (constant from memory), scaled by 1.0375 to meet the last row.
inline constexpr auto sucrose_depression = by_whole_percent<80>({
    {0, 0.00},   {1, 0.06},   {2, 0.11},   {3, 0.17},   {4, 0.23},   {5, 0.29},   {6, 0.35},   {7, 0.42},
    {8, 0.49},   {9, 0.55},   {10, 0.63},  {11, 0.70},  {12, 0.77},  {13, 0.85},  {14, 0.93},  {15, 1.01},
    {16, 1.10},  {17, 1.19},  {18, 1.27},  {19, 1.37},  {20, 1.47},  {22, 1.67},  {24, 1.89},  {26, 2.12},
    {28, 2.37},  {30, 2.64},  {32, 2.94},  {34, 3.27},  {36, 3.63},  {38, 4.02},  {40, 4.45},  {42, 4.93},
    {44, 5.42},  {46, 5.96},  {48, 6.55},  {50, 7.20},  {52, 7.93},  {54, 8.73},  {56, 9.63},  {58, 10.65},
    {60, 11.79}, {62, 13.08}, {64, 14.56}, {66, 16.26}, {68, 18.22}, {70, 20.52}, {72, 23.21}, {74, 26.42},
    {76, 30.28}, {78, 34.98}, {80, 40.79},
});

/// Citric acid: CRC Handbook, as above.
inline constexpr auto citric_depression = by_whole_percent<30>({
    {0, 0.00},  {1, 0.11},  {2, 0.21},  {3, 0.32},  {4, 0.43},  {5, 0.54},  {6, 0.65},
    {7, 0.76},  {8, 0.88},  {9, 1.00},  {10, 1.12}, {12, 1.38}, {14, 1.66}, {16, 1.95},
    {18, 2.26}, {20, 2.57}, {22, 2.88}, {24, 3.21}, {26, 3.55}, {28, 3.89}, {30, 4.25},
});

/// Lactic acid: CRC Handbook, as above.
inline constexpr auto lactic_depression = by_whole_percent<20>({
    {0, 0.00},
    {1, 0.19},
    {2, 0.38},
    {3, 0.57},
    {4, 0.76},
    {5, 0.95},
    {6, 1.16},
    {7, 1.36},
    {8, 1.57},
    {9, 1.79},
    {10, 2.02},
    {12, 2.49},
    {14, 2.99},
    {16, 3.48},
    {18, 3.96},
    {20, 4.44},
});

/// Acetic acid: CRC Handbook, as above.
inline constexpr auto acetic_depression = by_whole_percent<36>({
    {0, 0.00},   {1, 0.32},   {2, 0.63},   {3, 0.94},   {4, 1.26},   {5, 1.58},  {6, 1.90},  {7, 2.23},
    {8, 2.56},   {9, 2.89},   {10, 3.23},  {11, 3.57},  {12, 3.91},  {13, 4.26}, {14, 4.61}, {15, 4.97},
    {16, 5.33},  {17, 5.69},  {18, 6.06},  {19, 6.43},  {20, 6.81},  {22, 7.57}, {24, 8.36}, {26, 9.17},
    {28, 10.00}, {30, 10.84}, {32, 11.70}, {34, 12.55}, {36, 13.38},
});

/// Phosphoric acid: CRC Handbook, as above.
inline constexpr auto phosphoric_depression = by_whole_percent<40>({
    {0, 0.00},   {1, 0.24},   {2, 0.46},   {3, 0.69},   {4, 0.93},   {5, 1.16},   {6, 1.38},   {7, 1.62},
    {8, 1.88},   {9, 2.16},   {10, 2.45},  {11, 2.72},  {12, 3.01},  {13, 3.38},  {14, 3.76},  {15, 4.08},
    {16, 4.45},  {17, 4.82},  {18, 5.25},  {19, 5.72},  {20, 6.23},  {22, 7.38},  {24, 8.69},  {26, 10.12},
    {28, 11.64}, {30, 13.23}, {32, 14.94}, {34, 16.81}, {36, 18.85}, {38, 21.09}, {40, 23.58},
});

/// Salt (sodium chloride): CRC Handbook, as above, from memory; an older edition's rows at 5, 10, 15, 20 and
/// 23 % (3.0, 6.6, 10.9, 16.5, 20.7) were seen in public and agree. 23 % is nearly the eutectic.
inline constexpr auto salt_depression = by_whole_percent<23>({
    {0, 0.00},
    {1, 0.59},
    {2, 1.19},
    {3, 1.79},
    {4, 2.41},
    {5, 3.05},
    {6, 3.70},
    {7, 4.38},
    {8, 5.08},
    {9, 5.81},
    {10, 6.56},
    {12, 8.18},
    {14, 9.94},
    {16, 11.89},
    {18, 14.04},
    {20, 16.46},
    {22, 19.18},
    {23, 20.7},
});

/// Acids without a table of their own freeze as citric acid does, mole for mole: ratios of molar masses.
inline constexpr double malic_as_citric = 192.124 / 134.087;
inline constexpr double tartaric_as_citric = 192.124 / 150.087;
inline constexpr double ascorbic_as_citric = 192.124 / 176.12;

/// Dissolved carbon dioxide: 1.86 K for a mole in a kilogram of water, 44.01 g/mol. K per g in a g of (gas +
/// water).
inline constexpr double carbon_dioxide_depression_k = 1.86 / 44.01 * 1000.0;

// ---------------------------------------------------------------------------------------------------------------
// Heat.

/// Heat capacity of ethanol and water, J/(g K), at −20, −10, 0, 10, 20 °C; a row for each 5 % by mass from 0
/// to 60 %. From the polynomial of "Properties of secondary working fluids for indirect systems",
/// International Institute of Refrigeration, 2010; below 11 % in a straight line to water.
inline constexpr std::size_t heat_temperatures = 5;
inline constexpr double heat_first_celsius = -20.0;
inline constexpr double heat_step_kelvin = 10.0;
inline constexpr std::array<std::array<double, heat_temperatures>, 13> ethanol_water_heat_capacity{{
    {4.325, 4.261, 4.217, 4.192, 4.182},
    {4.378, 4.326, 4.288, 4.263, 4.250},
    {4.432, 4.391, 4.359, 4.335, 4.318},
    {4.430, 4.405, 4.384, 4.367, 4.355},
    {4.366, 4.356, 4.349, 4.344, 4.342},
    {4.261, 4.267, 4.274, 4.282, 4.291},
    {4.131, 4.151, 4.170, 4.191, 4.211},
    {3.986, 4.017, 4.048, 4.079, 4.111},
    {3.834, 3.874, 3.915, 3.956, 3.996},
    {3.681, 3.729, 3.777, 3.825, 3.874},
    {3.530, 3.585, 3.639, 3.694, 3.749},
    {3.384, 3.444, 3.504, 3.564, 3.626},
    {3.242, 3.308, 3.374, 3.440, 3.508},
}};
/// Pure ethanol at the same temperatures: 2.27 at 0 °C and 2.44 at 25 °C are handbook values; the others lie
/// on a smooth line through them (from memory).
inline constexpr std::array<double, heat_temperatures> ethanol_heat_capacity{2.16, 2.21, 2.27, 2.34, 2.41};

/// Heat of mixing ethanol and water at 298.15 K, J/mol: x(1−x)(a0 + a1 x^0.5 + a2 x^1.5 + a3 x^2.5 + a4
/// x^4.5), x mole fraction of ethanol. Journal of Chemical Thermodynamics 7 (1975), Academic Press, a = b + c
/// T + d T².
inline constexpr double mixing_kelvin = 298.15;
constexpr double mixing_coefficient(double b, double c, double d) {
  return b * 1e5 + c * 1e3 * mixing_kelvin + d * mixing_kelvin * mixing_kelvin;
}
inline constexpr std::array<double, 5> mixing_heat{
    mixing_coefficient(-3.63868, 1.83829, -2.32763), mixing_coefficient(9.25982, -4.83586, 6.37228),
    mixing_coefficient(-14.04894, 7.51661, -10.11280), mixing_coefficient(10.91318, -5.89498, 7.98868),
    mixing_coefficient(-2.79986, 1.50557, -2.03127)};
inline constexpr double water_g_per_mol = 18.0153;
inline constexpr double ethanol_g_per_mol = 46.068;

/// Heat capacity of everything else, J/(g K), by component; water and ethanol have their own tables.
inline constexpr std::array<double, component_count> solute_heat_capacity{
    0,    0,
    1.75,  // sugar: apparent in solution, from the sugar industry's formula for heat capacity of juices
    1.75, 1.75, 1.75, 1.75, 1.75, 1.75, 1.75,  // acids: taken as sugar; a per cent of them changes little
    1.98,  // fat    | ASHRAE Handbook, Refrigeration, "Thermal properties of foods", at 0 °C, from memory
    2.01,  // protein|
    1.09,  // salt   | (its row for ash)
    1.75,  // other: taken as sugar
    1.85,  // solids | (its row for fibre)
    0,     // carbon dioxide: a few grams in a litre
};

/// Ice: heat of fusion at 0 °C and heat capacity near 0 °C, CRC Handbook of Chemistry and Physics.
inline constexpr double fusion_j_per_g = 333.55;
inline constexpr double ice_heat_capacity_j_per_g_k = 2.09;

}  // namespace gill::model::tables

#include "model/physics/heat.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "model/physics/mixture_heat.h"
#include "model/physics/numeric.h"
#include "model/physics/tables.h"

namespace gill::model {
namespace {

constexpr std::size_t temperatures = tables::heat_temperatures;
constexpr std::size_t mixtures = 21;  // 0, 5 … 100 % ethanol by mass
constexpr double zero_celsius = 25.0;

using Row = std::array<double, temperatures>;

// The published rows and, beyond the last, straight lines to pure ethanol.
constexpr std::array<Row, mixtures> capacity = [] {
  std::array<Row, mixtures> rows{};
  const std::size_t published = tables::ethanol_water_heat_capacity.size();
  for (std::size_t row = 0; row < published; ++row) rows[row] = tables::ethanol_water_heat_capacity[row];
  const Row& last = rows[published - 1];
  for (std::size_t row = published; row < mixtures; ++row) {
    const double along = static_cast<double>(row + 1 - published) / static_cast<double>(mixtures - published);
    for (std::size_t i = 0; i < temperatures; ++i)
      rows[row][i] = last[i] + along * (tables::ethanol_heat_capacity[i] - last[i]);
  }
  return rows;
}();

// Heat capacity summed up from 25 °C to each temperature of the table.
constexpr std::array<Row, mixtures> warmth = [] {
  std::array<Row, mixtures> rows{};
  const double highest = tables::heat_first_celsius + tables::heat_step_kelvin * (temperatures - 1);
  for (std::size_t row = 0; row < mixtures; ++row) {
    const Row& cp = capacity[row];
    rows[row][temperatures - 1] = cp[temperatures - 1] * (highest - zero_celsius);
    for (std::size_t i = temperatures - 1; i-- > 0;)
      rows[row][i] = rows[row][i + 1] - 0.5 * tables::heat_step_kelvin * (cp[i] + cp[i + 1]);
  }
  return rows;
}();

double between(const std::array<Row, mixtures>& rows, std::size_t row, double along,
               std::size_t column) noexcept {
  return rows[row][column] + along * (rows[row + 1][column] - rows[row][column]);
}

// A temperature among those of the table. Beyond its ends the heat capacity stays what it is there.
struct Place {
  std::size_t knot;  // between this temperature and the next
  double inside;     // so far from one to the other, 0…1
  double beyond;     // steps below the first (negative) or above the last
};
Place place(double celsius) noexcept {
  const double steps = (celsius - tables::heat_first_celsius) * (1.0 / tables::heat_step_kelvin);
  constexpr auto last = static_cast<double>(temperatures - 1);
  const double held = std::clamp(steps, 0.0, last);
  const std::size_t knot = std::min(static_cast<std::size_t>(held), temperatures - 2);
  return {knot, held - static_cast<double>(knot), steps - held};
}

}  // namespace

double heat_of_mixing_j(double ethanol_g, double water_g) noexcept {
  if (!(ethanol_g > 0) || !(water_g > 0)) return 0.0;
  const double ethanol = ethanol_g / tables::ethanol_g_per_mol;
  const double all = ethanol + water_g / tables::water_g_per_mol;
  const double x = ethanol / all;
  const double root = std::sqrt(x);
  const auto& a = tables::mixing_heat;
  const double bracket = a[0] + root * (a[1] + x * (a[2] + x * (a[3] + x * x * a[4])));
  return ethanol * (1.0 - x) * bracket;
}

double solute_heat_capacity_j_per_k(const Masses& masses) noexcept {
  double sum = 0;
  for (std::size_t i = 0; i < component_count; ++i) sum += masses.grams[i] * tables::solute_heat_capacity[i];
  return sum;
}

MixtureHeat::MixtureHeat(double ethanol_g, double water_g, double solute_heat_capacity_j_per_k) noexcept
    : solvent_g_(ethanol_g + water_g),
      mixing_j_(heat_of_mixing_j(ethanol_g, water_g)),
      solute_j_per_k_(solute_heat_capacity_j_per_k) {
  const double steps = solvent_g_ > 0 ? std::clamp(ethanol_g / solvent_g_, 0.0, 1.0) * (mixtures - 1) : 0.0;
  row_ = std::min(static_cast<std::size_t>(steps), mixtures - 2);
  along_ = steps - static_cast<double>(row_);
}

double MixtureHeat::enthalpy_j(double celsius) const noexcept {
  const Place at = place(celsius);
  const double cp = between(capacity, row_, along_, at.knot);
  const double rise = between(capacity, row_, along_, at.knot + 1) - cp;
  const double warm = tables::heat_step_kelvin *
                      (at.inside * (cp + 0.5 * at.inside * rise) + at.beyond * (cp + at.inside * rise));
  return solvent_g_ * (between(warmth, row_, along_, at.knot) + warm) + mixing_j_ +
         solute_j_per_k_ * (celsius - zero_celsius);
}

double MixtureHeat::heat_capacity_j_per_k(double celsius) const noexcept {
  const Place at = place(celsius);
  const double cp = between(capacity, row_, along_, at.knot);
  const double rise = between(capacity, row_, along_, at.knot + 1) - cp;
  return solvent_g_ * (cp + at.inside * rise) + solute_j_per_k_;
}

double MixtureHeat::temperature_c(double enthalpy_j) const noexcept {
  constexpr double middle = 0.0;  // °C
  const double slope = heat_capacity_j_per_k(middle);
  if (!(slope > 0)) return 0.0;
  const auto excess = [&](double celsius) noexcept { return this->enthalpy_j(celsius) - enthalpy_j; };
  const double guess = middle + (enthalpy_j - this->enthalpy_j(middle)) / slope;
  return numeric::zero_of_increasing(excess, -300.0, 1000.0, guess, slope, 1e-5);
}

double liquid_enthalpy_j(const Masses& masses, double celsius) noexcept {
  return MixtureHeat(masses).enthalpy_j(celsius);
}

double liquid_heat_capacity_j_per_k(const Masses& masses, double celsius) noexcept {
  return MixtureHeat(masses).heat_capacity_j_per_k(celsius);
}

double ice_enthalpy_j_per_g(double celsius) noexcept {
  return water_at_0_c_enthalpy_j_per_g - tables::fusion_j_per_g +
         tables::ice_heat_capacity_j_per_g_k * std::min(celsius, 0.0);
}

double temperature_from_enthalpy_c(const Masses& masses, double enthalpy_j) noexcept {
  return MixtureHeat(masses).temperature_c(enthalpy_j);
}

}  // namespace gill::model

#include "model/physics/energy_balance.h"

#include <algorithm>
#include <cmath>

#include "model/physics/freezing.h"
#include "model/physics/heat.h"
#include "model/physics/mixture_heat.h"
#include "model/physics/numeric.h"
#include "model/physics/tables.h"

namespace gill::model {
namespace {

constexpr double lowest_celsius = -200.0;
constexpr double highest_celsius = 300.0;

// Of a drink's water, the most that is ever let freeze onto the ice.
constexpr double max_frozen = 0.9;

IceBath tidied(IceBath bath) noexcept {
  bath.ice_g = std::max(bath.ice_g, 0.0);
  bath.ice_c = std::min(bath.ice_c, 0.0);
  bath.surface_water_g = std::max(bath.surface_water_g, 0.0);
  bath.vessel_j_per_k = std::max(bath.vessel_j_per_k, 0.0);
  return bath;
}

}  // namespace

EnergyBalance::EnergyBalance(const Masses& drink, double start_c, const IceBath& bath,
                             double max_warming_ice_g) noexcept
    : drink_(drink),
      bath_(tidied(bath)),
      warming_ice_g_(std::min(bath_.ice_g, max_warming_ice_g)),
      solute_heat_capacity_j_per_k_(model::solute_heat_capacity_j_per_k(drink)),
      ice_j_per_g_(ice_enthalpy_j_per_g(bath_.ice_c)) {
  const MixtureHeat heat(drink[Component::ethanol], drink[Component::water], solute_heat_capacity_j_per_k_);
  before_j_ = heat.enthalpy_j(start_c) + bath_.surface_water_g * water_at_0_c_enthalpy_j_per_g + bath_.heat_j;
  drink_[Component::water] += bath_.surface_water_g;
}

double EnergyBalance::freezing_point_c(double melt_g) const noexcept {
  return model::freezing_point_c(drink_, drink_[Component::water] + melt_g);
}

// Heat that what is left of the ice takes in on its way to the drink's temperature (negative: gives off).
double EnergyBalance::ice_warming_j(double melt_g, double celsius) const noexcept {
  const double iced = std::min(celsius, 0.0);
  const double rise = iced - bath_.ice_c;
  const double grams = (rise > 0 ? bath_.ice_g : warming_ice_g_) - melt_g;
  return tables::ice_heat_capacity_j_per_g_k * std::max(grams, 0.0) * rise;
}

// What the state after lacks of the heat there is; rises with temperature and with melt.
double EnergyBalance::heat_missing_j(double melt_g, double celsius) const noexcept {
  const MixtureHeat heat(drink_[Component::ethanol], drink_[Component::water] + melt_g,
                         solute_heat_capacity_j_per_k_);
  return heat.enthalpy_j(celsius) - melt_g * ice_j_per_g_ + ice_warming_j(melt_g, celsius) +
         bath_.vessel_j_per_k * (celsius - bath_.vessel_c) - before_j_;
}

double EnergyBalance::temperature_c(double melt_g, double part) const noexcept {
  const double melt = std::min(melt_g, bath_.ice_g);
  const MixtureHeat heat(drink_[Component::ethanol], drink_[Component::water] + melt,
                         solute_heat_capacity_j_per_k_);
  const double vessel = part * bath_.vessel_j_per_k;
  const double target = before_j_ + melt * ice_j_per_g_ + vessel * bath_.vessel_c;
  const auto missing = [&](double celsius) noexcept {
    return heat.enthalpy_j(celsius) + part * ice_warming_j(melt, celsius) + vessel * celsius - target;
  };
  // From 0 °C down the ice is cooled along with the drink; the first step takes the slope of the side the end
  // is on.
  const double at_zero = missing(0.0);
  const double ice = at_zero > 0 ? part * tables::ice_heat_capacity_j_per_g_k * warming_ice_g_ : 0.0;
  const double slope = heat.heat_capacity_j_per_k(0.0) + vessel + ice;
  if (!(slope > 0)) return 0.0;
  return numeric::zero_of_increasing(missing, lowest_celsius, highest_celsius, -at_zero / slope, slope, 1e-4);
}

IceBalance EnergyBalance::equilibrium() const noexcept {
  const double water = drink_[Component::water];
  const double solvent = water + drink_[Component::ethanol];
  const double low = std::min(-max_frozen * water, 0.0);
  const double high = bath_.ice_g;
  // The end lies between the drink's own freezing point and 0 °C: about two thirds of the way down. One look
  // at the heat missing there, and the heat that melting takes, give a first guess within a few grams.
  const double freezing = freezing_point_c(0.0);
  const double near = 0.65 * freezing;
  const double melting = tables::fusion_j_per_g + 2.1 * near;
  const double guess = -heat_missing_j(0.0, near) / melting;
  const double capacity = 4.1 * solvent + solute_heat_capacity_j_per_k_ + bath_.vessel_j_per_k +
                          tables::ice_heat_capacity_j_per_g_k * bath_.ice_g;
  const double slope = melting - near * capacity / (solvent + std::max(guess, 0.0) + 1e-9);
  const auto missing = [&](double melt) noexcept { return heat_missing_j(melt, freezing_point_c(melt)); };
  const double melt = numeric::zero_of_increasing(missing, low, high, guess, slope, 1e-4);
  const bool at_limit = melt >= high || melt <= low;
  const double end =
      at_limit ? std::max(temperature_c(melt), freezing_point_c(melt)) : freezing_point_c(melt);
  return {.melt_g = melt, .end_c = end, .all_melted = melt >= high};
}

}  // namespace gill::model

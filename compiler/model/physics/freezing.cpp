#include "model/physics/freezing.h"

#include <algorithm>

#include "model/physics/numeric.h"
#include "model/physics/tables.h"

namespace gill::model {
namespace {

// Depression by `solute` grams in `water` grams, from a table by whole per cents of solute in (solute +
// water).
template <std::size_t count>
double depression(const std::array<double, count>& table, double solute, double water) noexcept {
  return solute > 0 ? numeric::interpolate(table, 100.0 * solute / (solute + water)) : 0.0;
}

double sugar_depression(double sugar, double water) noexcept {
  if (!(sugar > 0)) return 0.0;
  constexpr auto last = static_cast<double>(tables::sucrose_depression.size() - 1);
  return numeric::interpolate(tables::sucrose_depression, std::min(100.0 * sugar / (sugar + water), last));
}

double acid_depression(const Masses& masses, double water) noexcept {
  const double as_citric = masses[Component::citric] + tables::malic_as_citric * masses[Component::malic] +
                           tables::tartaric_as_citric * masses[Component::tartaric] +
                           tables::ascorbic_as_citric * masses[Component::ascorbic];
  return depression(tables::citric_depression, as_citric, water) +
         depression(tables::lactic_depression, masses[Component::lactic], water) +
         depression(tables::acetic_depression, masses[Component::acetic], water) +
         depression(tables::phosphoric_depression, masses[Component::phosphoric], water);
}

}  // namespace

double freezing_point_c(const Masses& masses) noexcept {
  return freezing_point_c(masses, masses[Component::water]);
}

double freezing_point_c(const Masses& masses, double water_g) noexcept {
  const double water = std::max(water_g, 0.0);
  double sum = depression(tables::ethanol_depression, masses[Component::ethanol], water);
  sum += sugar_depression(masses[Component::sugar] + masses[Component::other], water);
  sum += acid_depression(masses, water);
  sum += depression(tables::salt_depression, masses[Component::salt], water);
  const double gas = masses[Component::carbon_dioxide];
  if (gas > 0) sum += tables::carbon_dioxide_depression_k * gas / (gas + water);
  return -sum;
}

}  // namespace gill::model

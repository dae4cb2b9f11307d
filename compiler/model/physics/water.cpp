#include "model/physics/water.h"

#include <algorithm>

#include "model/physics/ethanol_water.h"
#include "model/physics/numeric.h"
#include "model/physics/tables.h"

namespace gill::model::water {

double density_g_per_ml(double celsius) noexcept {
  if (celsius <= ethanol_water::highest_celsius) {
    const double u = std::max(celsius, ethanol_water::lowest_celsius) - 20.0;
    return 1e-3 * (tables::r22_a[0] + u * numeric::polynomial(tables::r22_b, u));
  }
  // Scaled so that it begins where R 22 ends.
  const double begin = 1e-3 * (tables::r22_a[0] + 20.0 * numeric::polynomial(tables::r22_b, 20.0));
  const double place = (std::min(celsius, 100.0) - ethanol_water::highest_celsius) / 10.0;
  return numeric::interpolate(tables::hot_water_density_g_per_ml, place) *
         (begin / tables::hot_water_density_g_per_ml[0]);
}

}  // namespace gill::model::water

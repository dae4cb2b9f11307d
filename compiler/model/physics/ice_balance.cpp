#include "model/physics/ice_balance.h"

#include "model/physics/energy_balance.h"

namespace gill::model {

IceBalance equilibrium(const Masses& drink, double start_c, const IceBath& bath) noexcept {
  return EnergyBalance(drink, start_c, bath, bath.ice_g).equilibrium();
}

double temperature_after_melt_c(const Masses& drink, double start_c, const IceBath& bath,
                                double melt_g) noexcept {
  return EnergyBalance(drink, start_c, bath, bath.ice_g).temperature_c(melt_g);
}

}  // namespace gill::model

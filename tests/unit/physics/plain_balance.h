#pragma once
#include "model/physics/energy_balance.h"

/// The plain balance, in which all that is left of the ice has the drink's temperature: drinks go through the
/// same `EnergyBalance`, with the ice held to what their fit was measured with.
namespace gill::model::testing {

inline EnergyBalance plain_balance(const Masses& drink, double start_c, const IceBath& bath) {
  return EnergyBalance(drink, start_c, bath, bath.ice_g);
}

inline IceBalance equilibrium(const Masses& drink, double start_c, const IceBath& bath) {
  return plain_balance(drink, start_c, bath).equilibrium();
}

}  // namespace gill::model::testing

#include "units/quantity.h"

#include <cmath>

namespace gill::units {

std::string_view noun_of(Kind kind) {
  switch (kind) {
    case Kind::volume:
      return "a volume";
    case Kind::mass:
      return "a mass";
    case Kind::count:
      return "a count";
    case Kind::part:
      return "a number of parts";
    case Kind::time:
      return "a time";
    case Kind::temperature:
      return "a temperature";
    case Kind::strength:
      return "a strength";
    case Kind::mass_concentration:
      return "a concentration by volume";
    case Kind::mass_fraction:
      return "a concentration by mass";
    case Kind::density:
      return "a density";
    case Kind::gas:
      return "an amount of gas";
    case Kind::pressure:
      return "a pressure";
    case Kind::energy:
      return "an energy";
    case Kind::money:
      return "a price";
    case Kind::share:
      return "a share";
    case Kind::length:
      return "a length";
  }
  return "";
}

double Quantity::relative_tolerance() const {
  double size = std::abs(number());
  return tolerance && size > 0 ? *tolerance / size : 0;
}

}  // namespace gill::units

#pragma once
#include <compare>

#include "base/exact.h"

/// Quantities as C++ types. Each kind that amounts are turned into and recipes are lowered to is a type of
/// its own, so that a volume cannot be added to a mass nor a strength read as a concentration. The number
/// inside is in the unit that the type is named after.
///
/// Where they end: the physics works on masses in grams (`model::Masses`) and names the unit of every other
/// number (`volume_ml`, `end_c`); facts are plain numbers with the unit in the name, too, because they are
/// only compared, rounded and printed, under names that the outputs share.
namespace gill::units {

/// An amount that adds to its own kind and scales by plain numbers.
template <typename Kind>
struct Measure {
  double value = 0;

  constexpr Measure() = default;
  constexpr explicit Measure(double number) : value(number) {}
  constexpr auto operator<=>(const Measure&) const = default;

  friend constexpr Measure operator+(Measure a, Measure b) { return Measure(a.value + b.value); }
  friend constexpr Measure operator-(Measure a, Measure b) { return Measure(a.value - b.value); }
  friend constexpr Measure operator*(Measure a, double k) { return Measure(a.value * k); }
  friend constexpr Measure operator*(double k, Measure a) { return Measure(k * a.value); }
  friend constexpr Measure operator/(Measure a, double k) { return Measure(a.value / k); }
  friend constexpr double operator/(Measure a, Measure b) { return a.value / b.value; }
  constexpr Measure& operator+=(Measure b) { return value += b.value, *this; }
  constexpr Measure& operator-=(Measure b) { return value -= b.value, *this; }
};

using Millilitres = Measure<struct VolumeKind>;
using Grams = Measure<struct MassKind>;
using Seconds = Measure<struct TimeKind>;
/// Ethanol at 20 °C over the whole at 20 °C, by volume: 0.40 is 40 % abv.
using AlcoholByVolume = Measure<struct StrengthKind>;
/// Grams in one millilitre of the whole: 0.06 is 6 % w/v.
using GramsInMillilitre = Measure<struct MassConcentrationKind>;
/// Grams in one gram of the whole: 0.5 is 50 % w/w or 50 brix.
using MassFraction = Measure<struct MassFractionKind>;
/// Grams a millilitre of the thing itself.
using Density = Measure<struct DensityKind>;
/// Litres of CO2 at 0 °C and 1.01325 bar in one litre.
using GasVolumes = Measure<struct GasKind>;
/// A plain share of one: 0.03 is 3 %.
using Share = Measure<struct ShareKind>;

constexpr Grams operator*(Millilitres volume, Density density) { return Grams(volume.value * density.value); }
constexpr Grams operator*(Density density, Millilitres volume) { return volume * density; }
constexpr Millilitres operator/(Grams mass, Density density) {
  return Millilitres(mass.value / density.value);
}
constexpr Density operator/(Grams mass, Millilitres volume) { return Density(mass.value / volume.value); }
constexpr Grams operator*(Millilitres volume, GramsInMillilitre content) {
  return Grams(volume.value * content.value);
}
constexpr Grams operator*(Grams mass, MassFraction content) { return Grams(mass.value * content.value); }

/// A point on the temperature scale; only differences (in kelvin) add to it.
struct Celsius {
  double value = 20;

  constexpr Celsius() = default;
  constexpr explicit Celsius(double number) : value(number) {}
  constexpr auto operator<=>(const Celsius&) const = default;
  friend constexpr double operator-(Celsius a, Celsius b) { return a.value - b.value; }
};

/// An exact sum of money in one currency; sums of different currencies do not add.
struct Money {
  base::Exact amount = 0;
  std::string currency;
};

}  // namespace gill::units

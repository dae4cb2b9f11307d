#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/exact.h"
#include "base/id.h"
#include "source/source_file.h"
#include "units/measures.h"

namespace gill::units {

/// The kinds of quantity that the language knows. A value is kept in the kind's base unit, named here.
enum class Kind : std::uint8_t {
  volume,              ///< ml
  mass,                ///< g
  count,               ///< pieces
  part,                ///< parts of a drink's size
  time,                ///< s
  temperature,         ///< °C
  strength,            ///< fraction by volume
  mass_concentration,  ///< g in one ml (`% w/v`, `g/l`)
  mass_fraction,       ///< g in one g (`% w/w`, `brix`)
  density,             ///< g/ml
  gas,                 ///< volumes of CO2
  pressure,            ///< bar
  energy,              ///< kJ
  money,               ///< units of its currency
  share,               ///< fraction of one
  length,              ///< mm
};

/// The kind as a noun for messages: `a volume`, `a time`.
std::string_view noun_of(Kind kind);

struct Unit;
using UnitId = base::Id<Unit>;

/// One quantity of the language: exact, in its kind's base unit, with its tolerance and the unit it was
/// written in.
struct Quantity {
  Kind kind = Kind::count;
  /// The value; of a range its middle, of a half-open range its one end.
  base::Exact value = 0;
  /// Both ends of a range, or the value twice; infinite where a range is open.
  double low = 0;
  double high = 0;
  bool is_range = false;
  /// Half the width within which the value lies, in the base unit; nothing where neither line nor unit states
  /// one.
  std::optional<double> tolerance;
  UnitId unit;
  /// ISO 4217 code of money, else empty.
  std::string currency;
  source::Span span;

  double number() const { return base::to_double(value); }
  /// The tolerance as a share of the value; 0 where none is stated.
  double relative_tolerance() const;

  std::optional<Millilitres> volume() const { return as<Millilitres>(Kind::volume); }
  std::optional<Grams> mass() const { return as<Grams>(Kind::mass); }
  std::optional<Seconds> time() const { return as<Seconds>(Kind::time); }
  std::optional<Celsius> temperature() const { return as<Celsius>(Kind::temperature); }
  std::optional<AlcoholByVolume> strength() const { return as<AlcoholByVolume>(Kind::strength); }
  std::optional<GramsInMillilitre> mass_concentration() const {
    return as<GramsInMillilitre>(Kind::mass_concentration);
  }
  std::optional<MassFraction> mass_fraction() const { return as<MassFraction>(Kind::mass_fraction); }
  std::optional<Density> density() const { return as<Density>(Kind::density); }
  std::optional<GasVolumes> gas() const { return as<GasVolumes>(Kind::gas); }

 private:
  template <typename Type>
  std::optional<Type> as(Kind wanted) const {
    if (kind != wanted) return std::nullopt;
    return Type(number());
  }
};

}  // namespace gill::units

#pragma once
#include <string>

#include "units/unit_table.h"

/// Amounts as a person can measure them.
namespace gill::render::wording {

using units::Quantity;
using units::Unit;
using units::UnitTable;

/// An amount in print; `unit` is empty for a plain count.
struct Measure {
  std::string number;
  std::string unit;
  bool operator==(const Measure&) const = default;
};

/// `22.5 ml`, `2`.
std::string text_of(const Measure& measure);

/// An amount in its kind's base unit (ml, g, pieces), rounded to what a person can measure in `unit`: ml to a
/// half (to one above a hundred, to a twentieth below one), grams to a tenth (to one above a hundred, to a
/// hundredth below one), ounces and spoons to the eighth or third that lies within 2 %, else to two decimals.
Measure measure_in(double base_value, const Unit& unit);

/// The amount in the unit in which it was written, exactly as given (two decimals at the most), ranges
/// included: `2–3 dashes`, `1 2/3 oz`, `8 leaves`.
Measure measure_as_given(const Quantity& quantity, const UnitTable& units);

/// So many times the amount, in the unit in which it was written: exactly for a whole number of times, else
/// rounded as in `measure_in`.
Measure measure_times(const Quantity& quantity, double factor, const UnitTable& units);

/// So many times a quantity: exact for a whole number of times.
Quantity times(const Quantity& quantity, double factor);

/// The amount in another unit of its kind: exact where that can be measured, else rounded as in `measure_in`.
Measure measure_converted(const Quantity& quantity, const Unit& unit);

/// Any quantity in its own unit, as words: `10–12 s`, `65 °C`, `up to 0.5 % abv`, `3 weeks`, `12.50 GBP`.
std::string text_of(const Quantity& quantity, const UnitTable& units);

/// True for units that are counted out with a tool of their own and differ from one to the next (a dash, a
/// barspoon): they are printed as they are written and not turned into millilitres.
bool is_loose(const Unit& unit);

/// True for ml, cl, dl and l.
bool is_metric_volume(const Unit& unit);

}  // namespace gill::render::wording

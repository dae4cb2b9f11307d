#include "render/wording/measures.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::render::wording {

using base::Exact;
using units::Kind;

namespace {

// A unit looser than a level spoon is a tool of its own. Common practice: dashes and barspoons differ by a
// third.
constexpr double loose_share = 0.15;
// How far an ounce fraction may lie from the amount: less than a jigger's own error. Common practice.
constexpr double fraction_share = 0.02;

double round_to(double value, double step) { return std::round(value / step) * step; }

/// The step of a person's tools for an amount in ml or g.
double step_of(double base_value, Kind kind) {
  double size = std::abs(base_value);
  if (size >= 100) return 1;
  if (kind == Kind::mass) return size >= 1 ? 0.1 : 0.01;
  return size >= 1 ? 0.5 : 0.05;
}

bool is_metric(const Unit& unit) {
  static constexpr std::array<std::string_view, 7> symbols = {"ml", "cl", "dl", "l", "g", "kg", "mg"};
  for (auto symbol : symbols)
    if (unit.symbol == symbol) return true;
  return false;
}

/// Decimals at which a metric unit shows a step of the base unit.
int places_of(const Unit& unit, double step) {
  double smallest = step / base::to_double(unit.factor);
  int places = 0;
  while (places < 6 && smallest < 0.999) smallest *= 10, ++places;
  return places;
}

std::string fraction_number(double value) {
  Exact best = 0;
  double distance = std::abs(value);
  for (int parts : {8, 3}) {
    Exact near = Exact(static_cast<long long>(std::llround(value * parts)), parts);
    double away = std::abs(base::to_double(near) - value);
    if (away < distance) distance = away, best = near;
  }
  if (best > 0 && distance <= fraction_share * value) return base::to_fraction(best);
  return trimmed(value, 2);
}

std::string unit_word(const Unit& unit, bool is_one) {
  if (unit.symbol == "C" || unit.symbol == "F") return "°" + unit.symbol;
  static constexpr std::array<std::array<std::string_view, 3>, 4> times = {
      {{"d", "day", "days"}, {"wk", "week", "weeks"}, {"mo", "month", "months"}, {"y", "year", "years"}}};
  for (const auto& time : times)
    if (unit.kind == Kind::time && unit.symbol == time[0]) return std::string(time[is_one ? 1 : 2]);
  return is_one ? unit.symbol : unit.plural;
}

/// A value of the base unit as a number of the unit, exactly.
Exact in_unit(const Exact& base_value, const Unit& unit) { return (base_value - unit.offset) / unit.factor; }

std::string exact_number(const Exact& number, const Unit* unit) {
  std::string text =
      !unit || (!is_metric(*unit) && (unit->kind == Kind::volume || unit->kind == Kind::count ||
                                      unit->kind == Kind::part || unit->kind == Kind::mass))
          ? base::to_fraction(number)
          : base::to_decimal(number, 2);
  return text.starts_with('-') ? "−" + text.substr(1) : text;
}

/// The end of a range, which is kept as a double, as a number of the unit.
std::string end_number(double base_value, const Unit* unit) {
  double value =
      unit ? (base_value - base::to_double(unit->offset)) / base::to_double(unit->factor) : base_value;
  return trimmed(value, 2);
}

std::string number_text(const Quantity& quantity, const Unit* unit) {
  if (!quantity.is_range || quantity.low == quantity.high)
    return exact_number(unit ? in_unit(quantity.value, *unit) : quantity.value, unit);
  if (std::isinf(quantity.low)) return "up to " + end_number(quantity.high, unit);
  if (std::isinf(quantity.high)) return "at least " + end_number(quantity.low, unit);
  return end_number(quantity.low, unit) + "–" + end_number(quantity.high, unit);
}

bool is_one(const Quantity& quantity, const Unit& unit) {
  return !quantity.is_range && in_unit(quantity.value, unit) <= 1;
}

}  // namespace

std::string text_of(const Measure& measure) {
  return measure.unit.empty() ? measure.number : measure.number + " " + measure.unit;
}

bool is_loose(const Unit& unit) { return unit.tolerance && *unit.tolerance >= loose_share; }

bool is_metric_volume(const Unit& unit) { return unit.kind == Kind::volume && is_metric(unit); }

Measure measure_in(double base_value, const Unit& unit) {
  double factor = base::to_double(unit.factor);
  if (unit.kind == Kind::count)
    return {trimmed(base_value / factor, 1), unit_word(unit, base_value <= factor)};
  if (!is_metric(unit)) return {fraction_number(base_value / factor), unit_word(unit, base_value <= factor)};
  double step = step_of(base_value, unit.kind);
  return {trimmed(round_to(base_value, step) / factor, places_of(unit, step)), unit_word(unit, false)};
}

Measure measure_as_given(const Quantity& quantity, const UnitTable& units) {
  if (!quantity.unit.valid()) return {number_text(quantity, nullptr), {}};
  const Unit& unit = units[quantity.unit];
  return {number_text(quantity, &unit), unit_word(unit, is_one(quantity, unit))};
}

Quantity times(const Quantity& quantity, double factor) {
  if (factor == 1) return quantity;
  Quantity many = quantity;
  bool is_whole = factor == std::floor(factor) && factor < 1e6;
  // A millionth of the amount is beyond every tool.
  many.value = is_whole ? quantity.value * Exact(static_cast<long long>(factor))
                        : Exact(std::llround(quantity.number() * factor * 1e6), 1000000);
  many.low *= factor;
  many.high *= factor;
  if (many.tolerance) *many.tolerance *= factor;
  return many;
}

Measure measure_times(const Quantity& quantity, double factor, const UnitTable& units) {
  Quantity many = times(quantity, factor);
  if (factor == std::floor(factor)) return measure_as_given(many, units);
  if (quantity.unit.valid()) return measure_converted(many, units[quantity.unit]);
  return {trimmed(many.number(), 1), {}};
}

Measure measure_converted(const Quantity& quantity, const Unit& unit) {
  if (!quantity.is_range) return measure_in(quantity.number(), unit);
  auto end = [&](double value) { return measure_in(value, unit).number; };
  Measure middle = measure_in(quantity.number(), unit);
  if (std::isinf(quantity.low)) return {"up to " + end(quantity.high), middle.unit};
  if (std::isinf(quantity.high)) return {"at least " + end(quantity.low), middle.unit};
  return {end(quantity.low) + "–" + end(quantity.high), middle.unit};
}

std::string text_of(const Quantity& quantity, const UnitTable& units) {
  if (quantity.kind == Kind::money) return units::price_text({quantity.value, quantity.currency});
  return text_of(measure_as_given(quantity, units));
}

}  // namespace gill::render::wording

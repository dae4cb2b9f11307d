#pragma once

#include <span>
#include <string_view>

/// Units of alcohol, or standard drinks, as countries reckon them.
namespace gill::model {

struct AlcoholUnit {
  std::string_view country;  ///< ISO 3166-1 alpha-2; `WHO` for the figure of its AUDIT questionnaire
  std::string_view name;     ///< what it is called there, singular: "unit", "standard drink"
  double ethanol_g = 0;
  std::string_view source;  ///< and how sure it is
};

/// All that are known, in order of country.
std::span<const AlcoholUnit> alcohol_units() noexcept;

/// The country's unit, or null where none is known. `UK` is understood for `GB`; letters in either case.
const AlcoholUnit* find_alcohol_unit(std::string_view country) noexcept;

/// How many units so many grams of ethanol are.
constexpr double units_of(const AlcoholUnit& unit, double ethanol_g) noexcept {
  return ethanol_g / unit.ethanol_g;
}

}  // namespace gill::model

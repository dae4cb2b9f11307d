#pragma once
#include <boost/multiprecision/cpp_int.hpp>
#include <optional>
#include <string>
#include <string_view>

namespace gill::base {

/// An exact rational number. Amounts, unit factors and money stay exact until they are printed.
using Exact = boost::multiprecision::cpp_rational;

/// The most digits one number of the language may hold.
inline constexpr std::size_t most_digits = 38;

/// Reads `60`, `22.5`, `.75`, `3/4`, `1 1/2`, `½`, `1½` or `1 ½`, with an optional leading `-` or `−`.
/// Nothing when the text is no such number, divides by zero or holds more than 38 digits.
std::optional<Exact> parse_exact(std::string_view text);

/// The nearest double.
double to_double(const Exact& number);

/// The number rounded half up to `places` decimals, without trailing zeros: `22.5`, `0.33`.
std::string to_decimal(const Exact& number, unsigned places);

/// The number with exactly `places` decimals, rounded half up: `14.00`.
std::string to_fixed(const Exact& number, unsigned places);

/// The number as bars write it when it is a whole or an eighth (`1 1/2`, `3/4`), else as a decimal.
std::string to_fraction(const Exact& number);

}  // namespace gill::base

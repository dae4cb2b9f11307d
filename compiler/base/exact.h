#pragma once
#include <compare>
#include <concepts>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace gill::base {

/// An exact rational number. Amounts, unit factors and money stay exact until they are printed.
/// Numbers whose parts fit a machine word are kept so; larger ones go to Boost.Multiprecision, out of this
/// header, which everything includes.
class Exact {
 public:
  Exact() = default;
  template <std::integral Integer>
  Exact(Integer whole) : Exact(static_cast<std::int64_t>(whole), std::int64_t{1}) {}
  /// `above / below`; `below` is not 0.
  Exact(std::int64_t numerator, std::int64_t denominator);
  /// The very value of a finite double.
  explicit Exact(double value);
  /// A whole number of any length from its decimal digits.
  static Exact from_digits(std::string_view digits);

  friend Exact operator+(const Exact& a, const Exact& b);
  friend Exact operator-(const Exact& a, const Exact& b);
  friend Exact operator*(const Exact& a, const Exact& b);
  /// `b` is not 0.
  friend Exact operator/(const Exact& a, const Exact& b);
  Exact operator-() const { return Exact() - *this; }
  Exact& operator+=(const Exact& more) { return *this = *this + more; }
  Exact& operator-=(const Exact& less) { return *this = *this - less; }
  Exact& operator*=(const Exact& factor) { return *this = *this * factor; }
  Exact& operator/=(const Exact& divisor) { return *this = *this / divisor; }
  friend bool operator==(const Exact& a, const Exact& b) { return (a <=> b) == 0; }
  friend std::strong_ordering operator<=>(const Exact& a, const Exact& b);

  struct Large;

 private:
  friend struct ExactParts;
  std::int64_t numerator_ = 0;
  std::int64_t denominator_ = 1;
  /// Set when the number does not fit; the two above are not used then.
  std::shared_ptr<const Large> large_;
};

/// The most digits one number of the language may hold.
inline constexpr std::size_t max_digits = 38;

/// Reads `60`, `22.5`, `.75`, `3/4`, `1 1/2`, `½`, `1½` or `1 ½`, with an optional leading `-` or `−`.
/// Nothing when the text is no such number, divides by zero or holds more than 38 digits.
std::optional<Exact> parse_exact(std::string_view text);

/// About how many digits the longer of its two parts has, above or below the line.
std::size_t digits_in(const Exact& number);

/// The nearest double.
double to_double(const Exact& number);
/// Ten to that power.
Exact power_of_ten(unsigned exponent);
/// The largest whole number that is no more, and the smallest that is no less.
Exact floor(const Exact& number);
Exact ceiling(const Exact& number);

/// The number rounded half up to `places` decimals, without trailing zeros: `22.5`, `0.33`.
std::string to_decimal(const Exact& number, unsigned places);

/// The number with exactly `places` decimals, rounded half up: `14.00`.
std::string to_fixed(const Exact& number, unsigned places);

/// The number as bars write it when it is a whole or an eighth (`1 1/2`, `3/4`), else as a decimal.
std::string to_fraction(const Exact& number);

}  // namespace gill::base

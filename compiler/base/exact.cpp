#include "base/exact.h"

#include <array>
#include <cstdint>

namespace gill::base {
namespace {

using Integer = boost::multiprecision::cpp_int;

struct VulgarFraction {
  std::string_view text;
  int numerator;
  int denominator;
};

// Unicode "Number Forms" and Latin-1 vulgar fractions.
constexpr std::array<VulgarFraction, 18> vulgar_fractions = {{
    {"½", 1, 2}, {"⅓", 1, 3}, {"⅔", 2, 3}, {"¼", 1, 4}, {"¾", 3, 4}, {"⅕", 1, 5},
    {"⅖", 2, 5}, {"⅗", 3, 5}, {"⅘", 4, 5}, {"⅙", 1, 6}, {"⅚", 5, 6}, {"⅛", 1, 8},
    {"⅜", 3, 8}, {"⅝", 5, 8}, {"⅞", 7, 8}, {"⅐", 1, 7}, {"⅑", 1, 9}, {"⅒", 1, 10},
}};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view take_digits(std::string_view& text) {
  std::size_t n = 0;
  while (n < text.size() && is_digit(text[n])) ++n;
  auto digits = text.substr(0, n);
  text.remove_prefix(n);
  return digits;
}

bool take(std::string_view& text, std::string_view prefix) {
  if (!text.starts_with(prefix)) return false;
  text.remove_prefix(prefix.size());
  return true;
}

void skip_space(std::string_view& text) {
  while (take(text, " ") || take(text, "\t") || take(text, "\u00a0")) {
  }
}

Integer integer(std::string_view digits) {
  // Up to 18 digits fit a machine word.
  if (digits.size() <= 18) {
    std::uint64_t small = 0;
    for (char c : digits) small = small * 10 + static_cast<std::uint64_t>(c - '0');
    return small;
  }
  Integer value = 0;
  for (char c : digits) value = value * 10 + (c - '0');
  return value;
}

Integer power_of_ten(std::size_t n) {
  Integer value = 1;
  for (std::size_t i = 0; i < n; ++i) value *= 10;
  return value;
}

std::optional<Exact> take_vulgar(std::string_view& text) {
  for (const auto& fraction : vulgar_fractions)
    if (take(text, fraction.text)) return Exact(fraction.numerator, fraction.denominator);
  return std::nullopt;
}

std::optional<Exact> take_slash_fraction(std::string_view numerator, std::string_view& text) {
  auto denominator = take_digits(text);
  if (denominator.empty()) return std::nullopt;
  Integer below = integer(denominator);
  if (below == 0) return std::nullopt;
  return Exact(integer(numerator), below);
}

std::size_t count_digits(std::string_view text) {
  std::size_t n = 0;
  for (char c : text) n += is_digit(c) ? 1 : 0;
  return n;
}

std::optional<Exact> parse_unsigned(std::string_view text) {
  if (auto vulgar = take_vulgar(text)) return text.empty() ? vulgar : std::nullopt;
  auto whole = take_digits(text);
  if (take(text, ".")) {
    auto decimals = take_digits(text);
    if (decimals.empty() || !text.empty()) return std::nullopt;
    return Exact(integer(whole) * power_of_ten(decimals.size()) + integer(decimals),
                 power_of_ten(decimals.size()));
  }
  if (whole.empty()) return std::nullopt;
  if (take(text, "/")) {
    auto fraction = take_slash_fraction(whole, text);
    return text.empty() ? fraction : std::nullopt;
  }
  if (text.empty()) return Exact(integer(whole));
  skip_space(text);
  if (auto vulgar = take_vulgar(text))
    return text.empty() ? std::optional<Exact>(Exact(integer(whole)) + *vulgar) : std::nullopt;
  auto numerator = take_digits(text);
  if (numerator.empty() || !take(text, "/")) return std::nullopt;
  auto fraction = take_slash_fraction(numerator, text);
  if (!fraction || !text.empty()) return std::nullopt;
  return Exact(integer(whole)) + *fraction;
}

/// The number times 10^places, rounded half away from zero.
Integer scaled(const Exact& number, unsigned places) {
  Integer above = boost::multiprecision::numerator(number) * power_of_ten(places);
  Integer below = boost::multiprecision::denominator(number);
  bool negative = above < 0;
  if (negative) above = -above;
  Integer rounded = (2 * above + below) / (2 * below);
  return negative ? Integer(-rounded) : rounded;
}

}  // namespace

std::optional<Exact> parse_exact(std::string_view text) {
  if (count_digits(text) > most_digits) return std::nullopt;
  bool negative = take(text, "-") || take(text, "−");
  auto value = parse_unsigned(text);
  if (value && negative) *value = -*value;
  return value;
}

double to_double(const Exact& number) {
  const auto& above = number.backend().data().numerator().backend();
  const auto& below = number.backend().data().denominator().backend();
  // One machine word over one of at most 53 bits each: a single rounding, so the quotient is the nearest double.
  constexpr std::uint64_t exactly_a_double = std::uint64_t{1} << 53;
  if (above.size() == 1 && below.size() == 1 && above.limbs()[0] <= exactly_a_double && below.limbs()[0] <= exactly_a_double) {
    double quotient = static_cast<double>(above.limbs()[0]) / static_cast<double>(below.limbs()[0]);
    return above.sign() ? -quotient : quotient;
  }
  return static_cast<double>(number);
}

std::string to_fixed(const Exact& number, unsigned places) {
  Integer value = scaled(number, places);
  bool negative = value < 0;
  if (negative) value = -value;
  std::string digits = value.str();
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  if (places > 0) digits.insert(digits.size() - places, 1, '.');
  return negative ? "-" + digits : digits;
}

std::string to_decimal(const Exact& number, unsigned places) {
  std::string text = to_fixed(number, places);
  if (places == 0) return text;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string to_fraction(const Exact& number) {
  Integer above = boost::multiprecision::numerator(number);
  Integer below = boost::multiprecision::denominator(number);
  if (above < 0 || below > 8 || (8 % below != 0 && below != 3)) return to_decimal(number, 2);
  Integer whole = above / below;
  Integer rest = above % below;
  if (rest == 0) return whole.str();
  std::string fraction = rest.str() + "/" + below.str();
  return whole == 0 ? fraction : whole.str() + " " + fraction;
}

}  // namespace gill::base

#include "base/exact.h"

#include <array>
#include <boost/multiprecision/cpp_int.hpp>
#include <cstdlib>
#include <numeric>

#include "base/characters.h"

namespace gill::base {

using Integer = boost::multiprecision::cpp_int;
using Rational = boost::multiprecision::cpp_rational;
__extension__ typedef __int128 Wide;

struct Exact::Large {
  Rational value;
};

/// The only door to a number's inside.
struct ExactParts {
  static bool is_small(const Exact& number) { return !number.large_; }
  static std::int64_t numerator(const Exact& number) { return number.numerator_; }
  static std::int64_t denominator(const Exact& number) { return number.denominator_; }

  static Rational rational(const Exact& number) {
    return number.large_ ? number.large_->value : Rational(number.numerator_, number.denominator_);
  }

  static Exact from(const Rational& value) {
    Integer numerator = boost::multiprecision::numerator(value),
            denominator = boost::multiprecision::denominator(value);
    constexpr std::int64_t maximum = INT64_MAX;
    Exact number;
    if (numerator <= maximum && numerator >= -maximum && denominator <= maximum) {
      number.numerator_ = static_cast<std::int64_t>(numerator);
      number.denominator_ = static_cast<std::int64_t>(denominator);
    } else {
      number.large_ = std::make_shared<const Exact::Large>(Exact::Large{value});
    }
    return number;
  }

  /// The fraction in its lowest terms when it fits machine words; `below` is above 0.
  static std::optional<Exact> reduced(Wide numerator, Wide denominator) {
    Wide a = numerator < 0 ? -numerator : numerator, b = denominator;
    while (b != 0) {
      Wide rest = a % b;
      a = b;
      b = rest;
    }
    if (a > 1) {
      numerator /= a;
      denominator /= a;
    }
    constexpr Wide maximum = INT64_MAX;
    if (numerator > maximum || numerator < -maximum || denominator > maximum) return std::nullopt;
    Exact number;
    number.numerator_ = static_cast<std::int64_t>(numerator);
    number.denominator_ = static_cast<std::int64_t>(denominator);
    return number;
  }
};

namespace {

bool both_small(const Exact& a, const Exact& b) { return ExactParts::is_small(a) && ExactParts::is_small(b); }

/// Machine words where the operation fits them, else the library.
template <typename Small, typename Big>
Exact computed(const Exact& a, const Exact& b, Small small, Big big) {
  if (both_small(a, b))
    if (auto result =
            small(static_cast<Wide>(ExactParts::numerator(a)), static_cast<Wide>(ExactParts::denominator(a)),
                  static_cast<Wide>(ExactParts::numerator(b)), static_cast<Wide>(ExactParts::denominator(b))))
      return *result;
  return ExactParts::from(big(ExactParts::rational(a), ExactParts::rational(b)));
}

}  // namespace

Exact::Exact(std::int64_t numerator, std::int64_t denominator) {
  if (denominator < 0) {
    numerator = -numerator;
    denominator = -denominator;
  }
  std::int64_t common = std::gcd(numerator, denominator);
  numerator_ = common > 1 ? numerator / common : numerator;
  denominator_ = common > 1 ? denominator / common : denominator;
}

Exact::Exact(double value) { *this = ExactParts::from(Rational(value)); }

// Products of two 63-bit numbers stay below 2^126, and the sum of two such products below 2^127.
Exact operator+(const Exact& a, const Exact& b) {
  return computed(
      a, b,
      [](Wide an, Wide ad, Wide bn, Wide bd) { return ExactParts::reduced(an * bd + bn * ad, ad * bd); },
      [](const Rational& x, const Rational& y) { return Rational(x + y); });
}
Exact operator-(const Exact& a, const Exact& b) {
  return computed(
      a, b,
      [](Wide an, Wide ad, Wide bn, Wide bd) { return ExactParts::reduced(an * bd - bn * ad, ad * bd); },
      [](const Rational& x, const Rational& y) { return Rational(x - y); });
}
Exact operator*(const Exact& a, const Exact& b) {
  return computed(
      a, b, [](Wide an, Wide ad, Wide bn, Wide bd) { return ExactParts::reduced(an * bn, ad * bd); },
      [](const Rational& x, const Rational& y) { return Rational(x * y); });
}
Exact operator/(const Exact& a, const Exact& b) {
  return computed(
      a, b,
      [](Wide an, Wide ad, Wide bn, Wide bd) {
        return bn < 0 ? ExactParts::reduced(-an * bd, ad * -bn) : ExactParts::reduced(an * bd, ad * bn);
      },
      [](const Rational& x, const Rational& y) { return Rational(x / y); });
}

std::strong_ordering operator<=>(const Exact& a, const Exact& b) {
  if (both_small(a, b)) {
    Wide left = static_cast<Wide>(ExactParts::numerator(a)) * ExactParts::denominator(b);
    Wide right = static_cast<Wide>(ExactParts::numerator(b)) * ExactParts::denominator(a);
    return left <=> right;
  }
  int order = ExactParts::rational(a).compare(ExactParts::rational(b));
  return order <=> 0;
}

namespace {

struct VulgarFraction {
  std::string_view text;
  int numerator;
  int denominator;
};

// Unicode "Number Forms" and Latin-1 vulgar fractions.
constexpr std::array<VulgarFraction, 18> vulgar_fractions = {{
    {"½", 1, 2},
    {"⅓", 1, 3},
    {"⅔", 2, 3},
    {"¼", 1, 4},
    {"¾", 3, 4},
    {"⅕", 1, 5},
    {"⅖", 2, 5},
    {"⅗", 3, 5},
    {"⅘", 4, 5},
    {"⅙", 1, 6},
    {"⅚", 5, 6},
    {"⅛", 1, 8},
    {"⅜", 3, 8},
    {"⅝", 5, 8},
    {"⅞", 7, 8},
    {"⅐", 1, 7},
    {"⅑", 1, 9},
    {"⅒", 1, 10},
}};

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
  Integer value = 0;
  for (char c : digits) value = value * 10 + (c - '0');
  return value;
}

/// `digits / 10^places`: machine words when there are few digits.
Exact decimal(std::string_view whole, std::string_view decimals) {
  constexpr std::size_t word_digits = 18;
  if (whole.size() + decimals.size() <= word_digits) {
    std::int64_t numerator = 0, denominator = 1;
    for (char c : whole) numerator = numerator * 10 + (c - '0');
    for (char c : decimals) {
      numerator = numerator * 10 + (c - '0');
      denominator *= 10;
    }
    return Exact(numerator, denominator);
  }
  return Exact::from_digits(std::string(whole) + std::string(decimals)) /
         power_of_ten(static_cast<unsigned>(decimals.size()));
}

std::optional<Exact> take_vulgar(std::string_view& text) {
  for (const auto& fraction : vulgar_fractions)
    if (take(text, fraction.text)) return Exact(fraction.numerator, fraction.denominator);
  return std::nullopt;
}

std::optional<Exact> take_slash_fraction(std::string_view numerator, std::string_view& text) {
  auto digits = take_digits(text);
  if (digits.empty()) return std::nullopt;
  Exact denominator = decimal(digits, {});
  if (denominator == 0) return std::nullopt;
  return decimal(numerator, {}) / denominator;
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
    return decimal(whole, decimals);
  }
  if (whole.empty()) return std::nullopt;
  if (take(text, "/")) {
    auto fraction = take_slash_fraction(whole, text);
    return text.empty() ? fraction : std::nullopt;
  }
  if (text.empty()) return decimal(whole, {});
  skip_space(text);
  if (auto vulgar = take_vulgar(text))
    return text.empty() ? std::optional<Exact>(decimal(whole, {}) + *vulgar) : std::nullopt;
  auto numerator = take_digits(text);
  if (numerator.empty() || !take(text, "/")) return std::nullopt;
  auto fraction = take_slash_fraction(numerator, text);
  if (!fraction || !text.empty()) return std::nullopt;
  return decimal(whole, {}) + *fraction;
}

/// The number times 10^places, rounded half away from zero.
Integer scaled(const Exact& number, unsigned places) {
  Rational value = ExactParts::rational(number);
  Integer numerator =
      boost::multiprecision::numerator(value) * boost::multiprecision::pow(Integer(10), places);
  Integer denominator = boost::multiprecision::denominator(value);
  bool negative = numerator < 0;
  if (negative) numerator = -numerator;
  Integer rounded = (2 * numerator + denominator) / (2 * denominator);
  return negative ? Integer(-rounded) : rounded;
}

}  // namespace

std::optional<Exact> parse_exact(std::string_view text) {
  if (count_digits(text) > max_digits) return std::nullopt;
  bool negative = take(text, "-") || take(text, "−");
  auto value = parse_unsigned(text);
  if (value && negative) *value = -*value;
  return value;
}

Exact Exact::from_digits(std::string_view digits) { return ExactParts::from(Rational(integer(digits))); }

std::size_t digits_in(const Exact& number) {
  Rational value = ExactParts::rational(number);
  Integer longer = std::max<Integer>(abs(boost::multiprecision::numerator(value)),
                                     boost::multiprecision::denominator(value));
  constexpr double digits_a_bit = 0.30103;  // log10(2)
  return static_cast<std::size_t>(static_cast<double>(msb(longer)) * digits_a_bit) + 1;
}

double to_double(const Exact& number) {
  // Two numbers of at most 53 bits: a single rounding, so the quotient is the nearest double.
  constexpr std::int64_t exactly_a_double = std::int64_t{1} << 53;
  if (ExactParts::is_small(number) && std::abs(ExactParts::numerator(number)) <= exactly_a_double &&
      ExactParts::denominator(number) <= exactly_a_double)
    return static_cast<double>(ExactParts::numerator(number)) /
           static_cast<double>(ExactParts::denominator(number));
  return static_cast<double>(ExactParts::rational(number));
}

Exact power_of_ten(unsigned exponent) {
  return ExactParts::from(Rational(boost::multiprecision::pow(Integer(10), exponent)));
}

Exact floor(const Exact& number) {
  Rational value = ExactParts::rational(number);
  Integer numerator = boost::multiprecision::numerator(value),
          denominator = boost::multiprecision::denominator(value);
  Integer whole = numerator / denominator;
  if (numerator < 0 && whole * denominator != numerator) --whole;
  return ExactParts::from(Rational(whole));
}

Exact ceiling(const Exact& number) { return -floor(-number); }

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
  Rational value = ExactParts::rational(number);
  Integer numerator = boost::multiprecision::numerator(value),
          denominator = boost::multiprecision::denominator(value);
  if (numerator < 0 || denominator > 8 || (8 % denominator != 0 && denominator != 3))
    return to_decimal(number, 2);
  Integer whole = numerator / denominator;
  Integer rest = numerator % denominator;
  if (rest == 0) return whole.str();
  std::string fraction = rest.str() + "/" + denominator.str();
  return whole == 0 ? fraction : whole.str() + " " + fraction;
}

}  // namespace gill::base

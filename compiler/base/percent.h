#pragma once

/// The one place where a share becomes per cent and grams a millilitre become grams in 100 ml, and back. The
/// language's kinds are shares and g/ml; figures that people read are per cent and g/100 ml.
namespace gill::base {

/// 0.4 → 40. Numbers may be exact.
template <typename Number>
constexpr Number percent_of_share(const Number& share) {
  return share * 100;
}
/// 40 → 0.4.
template <typename Number>
constexpr Number share_of_percent(const Number& percent) {
  return percent / 100;
}
/// 0.06 g/ml → 6 g/100 ml.
constexpr double per_100_ml(double per_ml) { return per_ml * 100; }
/// 6 g/100 ml → 0.06 g/ml.
constexpr double per_ml(double per_100_ml) { return per_100_ml / 100; }

}  // namespace gill::base

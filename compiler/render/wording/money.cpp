#include "render/wording/money.h"

#include "render/wording/numbers.h"

namespace gill::render::wording {

std::string money(double amount, const std::string& currency) {
  std::string digits = fixed(amount, 2);
  return currency.empty() ? digits : digits + " " + currency;
}

std::optional<double> price_without_tax(const units::Money& price, const analysis::House& house,
                                        const std::string& currency) {
  double amount = base::to_double(price.amount);
  if (price.currency != currency) {
    std::optional<double> factor;
    for (const auto& rate : house.rates) {
      if (rate.from == price.currency && rate.to == currency) factor = base::to_double(rate.factor);
      if (rate.to == price.currency && rate.from == currency && rate.factor > 0)
        factor = 1 / base::to_double(rate.factor);
    }
    if (!factor) return std::nullopt;
    amount *= *factor;
  }
  return house.tax && house.tax->included ? amount / (1 + house.tax->rate) : amount;
}

}  // namespace gill::render::wording

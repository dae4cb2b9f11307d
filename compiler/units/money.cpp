#include "units/money.h"

#include <algorithm>

namespace gill::units {
namespace {

struct MinorUnit {
  std::string_view currency;
  unsigned decimals;
};

constexpr MinorUnit minor_units[] = {
#define CURRENCY(code, decimals) {#code, decimals},
#include "units/currencies.def"
#undef CURRENCY
};
constexpr unsigned usual_decimals = 2;
/// A price written more finely than this is rounded all the same.
constexpr unsigned most_decimals = 6;

std::string with_code(const std::string& digits, const std::string& currency) {
  return currency.empty() ? digits : digits + " " + currency;
}

/// With exactly so many decimals and a real minus sign; what rounds to nothing has no sign.
std::string digits(const base::Exact& amount, unsigned decimals) {
  if (amount >= 0) return base::to_fixed(amount, decimals);
  std::string number = base::to_fixed(-amount, decimals);
  bool is_zero = number.find_first_not_of("0.") == std::string::npos;
  return is_zero ? number : "−" + number;
}

}  // namespace

unsigned decimals_of(std::string_view currency) {
  auto found = std::find_if(std::begin(minor_units), std::end(minor_units),
                            [&](const MinorUnit& known) { return known.currency == currency; });
  return found == std::end(minor_units) ? usual_decimals : found->decimals;
}

std::string sign_of(std::string_view currency) {
  struct Sign {
    std::string_view currency, sign;
  };
  static constexpr Sign signs[] = {{"GBP", "£"}, {"EUR", "€"}, {"USD", "$"}, {"JPY", "¥"}, {"AUD", "$"},
                                   {"CAD", "$"}, {"NZD", "$"}, {"SGD", "$"}, {"HKD", "$"}, {"MXN", "$"},
                                   {"CNY", "¥"}, {"INR", "₹"}, {"KRW", "₩"}, {"ILS", "₪"}, {"THB", "฿"},
                                   {"UAH", "₴"}, {"VND", "₫"}, {"PHP", "₱"}, {"NGN", "₦"}, {"TRY", "₺"}};
  for (const auto& known : signs)
    if (known.currency == currency) return std::string(known.sign);
  return currency.empty() ? std::string() : std::string(currency) + " ";
}

std::string money_digits(const Money& money) { return digits(money.amount, decimals_of(money.currency)); }

std::string piece_digits(const Money& money) {
  static const base::Exact small(1, 10);
  unsigned decimals = decimals_of(money.currency);
  bool is_small = money.amount > 0 && money.amount < small && decimals > 0;
  return digits(money.amount, decimals + (is_small ? 1 : 0));
}

std::string money_text(const Money& money) { return with_code(money_digits(money), money.currency); }

std::string price_digits(const Money& price) {
  unsigned decimals = decimals_of(price.currency);
  while (decimals < most_decimals &&
         base::to_decimal(price.amount, decimals) != base::to_decimal(price.amount, most_decimals))
    ++decimals;
  return digits(price.amount, decimals);
}

std::string price_text(const Money& price) { return with_code(price_digits(price), price.currency); }

unsigned cell_decimals(std::string_view currency) { return decimals_of(currency) + 2; }

}  // namespace gill::units

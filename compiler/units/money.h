#pragma once
#include <string>
#include <string_view>

#include "units/measures.h"

/// Money in print. Sums stay exact until here.
namespace gill::units {

inline bool operator==(const Money& a, const Money& b) {
  return a.amount == b.amount && a.currency == b.currency;
}

/// Decimals of a currency's smallest coin (ISO 4217 minor unit): none for the yen, three for the dinar, two
/// for most and for a code that nobody knows.
unsigned decimals_of(std::string_view currency);

/// A sum that was reckoned, rounded half up to its smallest coin: `2.15 GBP`, `364 JPY`, `−0.40 EUR`; without
/// a currency the number alone.
std::string money_text(const Money& money);
/// The same without the code, for where a heading or a column names the currency.
std::string money_digits(const Money& money);

/// The sign that a currency goes by where it is at home, as menus print it before the number: `£`, `€`; its
/// code and a blank where it has none that everybody reads. Unicode CLDR, the currencies' narrow symbols.
std::string sign_of(std::string_view currency);

/// What one of many costs: a decimal more below a tenth, where the coin would round it away.
std::string piece_digits(const Money& money);

/// A price that somebody wrote: the coin's decimals, and more where it was written more finely (`0.125 EUR`
/// for a leaf), so that what is printed is what stands in the spec.
std::string price_text(const Money& price);
std::string price_digits(const Money& price);

/// Decimals in the cells of a spreadsheet, which are summed up further: a hundredth of the smallest coin.
unsigned cell_decimals(std::string_view currency);

}  // namespace gill::units

#pragma once
#include <string>
#include <string_view>

/// What lists say of the tax on a price, in English, German, French, Spanish and Italian.
namespace gill::stock {

enum class TaxWord : std::uint8_t {
  none,
  tax,          ///< its name: `VAT`, `MwSt`
  with_tax,     ///< `incl`, `TTC`
  without_tax,  ///< `excl`, `HT`, `+`
  maybe_with,   ///< `with`, `con`: of the tax only where its name stands beside it
};

/// A word in small letters, without accents and points.
TaxWord tax_word(std::string_view word);

/// What a text says of the tax.
struct SaidOfTax {
  bool names_tax = false, is_with = false, is_without = false;
  /// Every word of it is of the tax, or a number, or says nothing.
  bool is_of_tax_alone = false;
};
SaidOfTax said_of_tax(std::string_view text);

/// What a cell beside a price, below `title`, says of the tax in that price.
enum class TaxInPrice : std::uint8_t { not_said, without, with, unclear };
TaxInPrice tax_in_price(std::string_view title, std::string_view cell);

}  // namespace gill::stock

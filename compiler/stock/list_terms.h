#pragma once
#include <string>
#include <string_view>

/// What stands above and below a supplier's list, and is meant of all its prices.
namespace gill::stock {

struct ListTerms {
  /// They hold the tax; they are of one bottle or piece, or by the kilogram or the litre; something comes off
  /// them or on top.
  bool has_tax = false, of_one = false, of_measure = false, is_changed = false;
  /// The code of their currency; empty where the line says none.
  std::string currency;
  /// Why that currency is none that prices can be reckoned in: what to write.
  std::string money_doubt;
};

/// `at_home`: the house's currency.
ListTerms list_terms(std::string_view line, std::string_view at_home);

}  // namespace gill::stock

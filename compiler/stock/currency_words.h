#pragma once
#include <string>
#include <string_view>

/// What a title, a cell or a line of a supplier's list says of the money.
namespace gill::stock {

struct NamedMoney {
  /// ISO 4217; empty where the words name none.
  std::string currency;
  /// Why the money is not one that Gill can reckon with, as what to write: `dollars` of which country,
  /// cents. Empty where it is.
  std::string doubt;
  bool names_money() const { return !currency.empty() || !doubt.empty(); }
};

/// A code, a sign or words in five languages: `EUR`, `€`, `Swiss francs`, `livres sterling`. Money that many
/// countries call alike is that of `at_home`, where it is called so there.
NamedMoney named_money(std::string_view text, std::string_view at_home);

}  // namespace gill::stock

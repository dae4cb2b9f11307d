#pragma once
#include <string>
#include <string_view>

namespace gill::importer {

/// True of `12 €`, `€12.50`, `EUR 9,50`, `12.-`, and nothing beside it.
bool is_price(std::string_view text);

/// Words with a price behind them: `Ferryman €14`, `50 ml gin, €0.99`, `Moor - 9.50`, `Lily (12 €)`.
struct Priced {
  std::string words, price;

  bool empty() const { return price.empty(); }
};
/// Empty where no price ends the words. A number without a currency is one only where it has two decimals.
Priced price_behind(std::string_view text);

}  // namespace gill::importer

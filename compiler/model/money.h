#pragma once
#include <optional>
#include <string>

#include "model/facts.h"

/// What a house does with money: rates, tax, pour cost, prices that meet a target. Every output asks here, so
/// that the book, the cost report, the findings and the comparison tell one figure.
namespace gill::model {

using base::Exact;
using units::Money;

/// The decimal of a double: 15 significant digits, which is all that a double vouches for (its DBL_DIG).
Exact decimal_of(double value);
/// The number rounded half up (away from nothing) to so many decimals.
Exact rounded(const Exact& number, unsigned places);
/// A cost kept to the billionth of its currency, past which it only holds what physics could not vouch for.
Exact settled(const Exact& cost);

/// A part of a cost kept to 24 decimals: past what 15 digits of grams can say, and the fractions stay short.
Exact fine(const Exact& part);

/// Money turned into another currency by the house's `rate` lines, the first that fits; nothing without one.
std::optional<Money> in_currency(const Money& money, const std::string& currency,
                                 const analysis::House& house);

/// What a litre and a kilogram of it cost, to the billionth; nothing while a price is missing.
std::optional<Money> cost_per_l(const StockFacts& facts);
std::optional<Money> cost_per_kg(const StockFacts& facts);

/// What it costs in the measure in which it is taken, and that measure in words: each piece of what is
/// counted, a litre of what is liquid, a kilogram of the rest.
struct UnitCost {
  Money money;
  bool is_piece = false;
  std::string_view words;
};
std::optional<UnitCost> unit_cost(const StockFacts& facts, bool is_liquid);

/// A price with and without the house's tax. Menus hold it where the house says `included`, else it comes on
/// top; without a `tax` line both are the menu's.
struct TaxedPrice {
  Money with_tax, without_tax;
};
TaxedPrice taxed(const Money& on_menu, const analysis::House& house);
/// The one of the two that the menu shows.
const Money& on_menu(const TaxedPrice& price, const analysis::House& house);

/// Cost over price without tax, in per cent, both in the currency of the cost; nothing for a price of
/// nothing.
std::optional<Exact> pour_cost_percent(const Exact& cost, const Exact& price_without_tax);
/// What of the price without tax is not cost, in per cent.
inline Exact gross_profit_percent(const Exact& pour_cost_percent) { return 100 - pour_cost_percent; }
/// The highest pour cost that the house aims at, in per cent; nothing where it aims at none.
std::optional<Exact> target_pour_cost_percent(const analysis::House& house);

/// A drink's price on a menu, in the house's currency.
struct MenuPrice : TaxedPrice {
  analysis::MenuId menu;
  const analysis::MenuEntry* entry = nullptr;
};

/// Where two menus stand in time: by their last day (one without an end runs longest), their first, and their
/// name.
bool runs_before(const analysis::Menu& a, const analysis::Menu& b);
/// What one line of a menu asks, in `currency`. Nothing where it has no price, or where no rate turns its
/// currency into that one.
std::optional<MenuPrice> price_of(const analysis::MenuEntry& entry, analysis::MenuId menu,
                                  const analysis::House& house, const std::string& currency);
/// The price of a drink on one menu, or (with an invalid id) on the menu that runs last among those that
/// price it. Nothing where none does, or where no rate turns its currency into the house's.
std::optional<MenuPrice> price_of(analysis::DrinkId drink, analysis::MenuId menu,
                                  const analysis::Specs& specs, const std::string& currency);
/// The lowest price, as the menu shows it, whose pour cost meets the house's: tax put on where prices hold
/// it, rounded up to the house's step, else to the currency's smallest coin (ISO 4217). Nothing where the
/// house aims at none.
std::optional<Exact> price_for_target(const analysis::House& house, const Exact& cost,
                                      const std::string& currency);

}  // namespace gill::model

#pragma once
#include <span>

#include "model/facts.h"

namespace gill::model {

/// What a list names, in its order (`analysis/allergen_lists.h`); the EU's where nobody knows the list.
std::span<const std::string_view> allergen_list(std::string_view name);
/// The heading of a code on any list: `cereals:rye` stands under `cereals`.
std::string_view heading_of(std::string_view code);
/// True where a list's entry names the code: itself, or the group that it is of.
bool is_under(std::string_view code, std::string_view entry);
/// The first entry that names the code; the number of entries where none does.
std::size_t place_on(std::span<const std::string_view> list, std::string_view code);

/// Adds what one thing brings to what a whole holds. `as_possible` for a permitted substitute: it may be in
/// the glass.
void add_allergens(Allergens& whole, const Allergens& part, bool as_possible);
/// What an ingredient's own lines say.
Allergens stated_allergens(const analysis::Stock& stock, analysis::StockId id);
/// Puts present before possible and each in the list's order; a code that is present is not listed as
/// possible too.
void order_allergens(Allergens& allergens, std::string_view list);

}  // namespace gill::model

#pragma once
#include "model/facts.h"

namespace gill::model {

/// The allergens that a list names, in its order (EU: Regulation (EU) No 1169/2011, Annex II; US: 21 U.S.C.
/// 321(qq)). The EU's serves for the UK too, and for lists that are not known.
const std::vector<std::string_view>& allergen_list(std::string_view name);
/// The heading of a code on any list: `cereals:rye` stands under `cereals`.
std::string_view heading_of(std::string_view code);

/// Adds what one thing brings to what a whole holds. `as_possible` for a permitted substitute: it may be in
/// the glass.
void add_allergens(Allergens& whole, const Allergens& part, bool as_possible);
/// What an ingredient's own lines say.
Allergens stated_allergens(const analysis::Stock& stock, analysis::StockId id);
/// Puts present before possible and each in the list's order; a code that is present is not listed as
/// possible too.
void order_allergens(Allergens& allergens, std::string_view list);

/// True when one of them comes from an animal; `certain` false also counts what only may be there.
bool is_animal_allergen(std::string_view code);

}  // namespace gill::model

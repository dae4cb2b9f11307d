#pragma once
#include "model/facts.h"

namespace gill::model {

/// Where an ingredient comes from: what its `origin` lines say; without one, what its kind can only be (fruit
/// is a plant). A listed allergen that an animal gives (milk, egg, fish, crustaceans, molluscs) always
/// counts. Of a prep only what its own lines add.
Origins stated_origins(const analysis::Stock& stock, analysis::StockId id);

/// Adds where a part comes from to a whole. `as_possible` for a permitted substitute and for what is
/// optional: it may be in the glass.
void add_origins(Origins& whole, const Origins& part, bool as_possible);

/// Something an animal gave, alive or dead.
bool is_of_animals(analysis::Origin origin);
/// True where a part surely comes from an animal, alive or dead.
bool is_surely_of_animals(const Origins& origins);

/// Nothing that an animal gives in it.
Answer vegan(const Origins& origins);
/// Nothing of an animal's body in it; milk, egg and what bees make may be.
Answer vegetarian(const Origins& origins);

}  // namespace gill::model

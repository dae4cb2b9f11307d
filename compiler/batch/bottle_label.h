#pragma once
#include "print/labels.h"

namespace gill::batch {

/// The label of the house bottle of a batched drink.
print::Label bottle_label(const render::document::BookIndex& index, analysis::DrinkId id);

}  // namespace gill::batch

#pragma once
#include "render/document/book_index.h"

namespace gill::render::document {

/// A drink as a schema.org/Recipe in JSON-LD (https://schema.org/Recipe): name, yield, ingredients, steps,
/// and nutrition where it is evaluated. It claims nothing: no diet, no health, and nothing of allergens
/// beyond what the description says.
std::string recipe_data(const BookIndex& index, analysis::DrinkId id);

}  // namespace gill::render::document

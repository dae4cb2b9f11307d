#pragma once
#include "render/document/book_index.h"

namespace gill::render::document {

/// What a drink is built on: of what gives it the most alcohol, the thing of the library that it is like
/// (`London dry gin` of a house's bottle), through preps. Empty where there is next to no alcohol.
std::string base_of(const BookIndex& index, analysis::DrinkId id);

/// The filters of the first page: what there is to choose from.
Finder finder_of(const BookIndex& index);

/// The names, parts, tags, allergens and places of every page, as a line of script that hands them to the
/// book's script.
std::string find_data(const BookIndex& index);

}  // namespace gill::render::document

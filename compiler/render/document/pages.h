#pragma once
#include "render/document/book_index.h"

/// One function a kind of page, each in a file of its own.
namespace gill::render::document {

Page index_page(const BookIndex& index);
Page drink_page(const BookIndex& index, analysis::DrinkId id);
Page prep_page(const BookIndex& index, analysis::StockId id);
Page ingredient_page(const BookIndex& index, analysis::StockId id);
/// All preps on one page: how each is kept and how much there should be.
Page prep_list_page(const BookIndex& index);
/// Every prep as whoever inspects the house asks of it: storage, keeping, heat and cold, processes,
/// allergens, cautions.
Page inspection_page(const BookIndex& index);
/// Every menu by strength and by sugar to acid, drawn and in figures.
Page balance_page(const BookIndex& index);
Page allergens_page(const BookIndex& index);
Page glossary_page(const BookIndex& index);

}  // namespace gill::render::document

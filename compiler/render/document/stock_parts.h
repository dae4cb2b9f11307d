#pragma once
#include "render/document/book_index.h"

/// Parts that the pages of preps and of ingredients share.
namespace gill::render::document {

/// What stands first on its page: errors and allergens.
std::vector<Block> stock_notices(const BookIndex& index, analysis::StockId id, bool valid);

/// What uses it: directly, and through preps. Without blocks when nothing does.
std::vector<Block> used_in(const BookIndex& index, analysis::StockId id);

/// Strength, sugar, acid, density and the like, those that it has.
FactList composition_facts(const BookIndex& index, analysis::StockId id, bool valid);

/// What one costs by the litre or the kilogram; empty in a house without prices.
Run cost_words(const BookIndex& index, analysis::StockId id, bool valid);

/// `30 days, chilled`.
Run keeping_words(const analysis::Keeps& keeps, const units::UnitTable& units);

/// Both of the house's columns: `640 ml, 21 1/3 oz`.
Run in_columns(const BookIndex& index, double volume_ml, const std::vector<units::UnitId>& show);

}  // namespace gill::render::document

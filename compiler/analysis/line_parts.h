#pragma once
#include <cstdint>
#include <string_view>

#include "symbols/symbol_table.h"
#include "syntax/line_view.h"
#include "units/unit_table.h"

/// Where the parts of a line end: asked by the readers, and by who lays lines out in columns.
namespace gill::analysis {

/// How many items the keyword takes at the beginning of the line, whatever its case; 0 where it does not
/// stand there.
std::size_t match_keyword(const syntax::LineView& line, std::string_view keyword);

/// The keyword of a property line in a declaration of that kind, the longest, as it is written properly;
/// empty where none stands there.
std::string_view property_keyword(const syntax::LineView& line, symbols::DeclarationKind kind);

/// The item at which the name of a price line ends and the pack begins; the line's size where none does.
std::size_t price_name_end(const syntax::LineView& line, const units::UnitTable& units);

/// What a drink for several is sold by: `a bowl` is the whole, `a cup`, `per glass` one serve.
enum class SoldBy : std::uint8_t { nothing, whole, serve };
/// What `bowl` or `cup` means.
SoldBy sold_by_word(std::string_view word);
SoldBy sold_by_at(const syntax::LineView& line, std::size_t at);

/// The item at which a menu line's name ends: ` at PRICE`, a price alone (`Osier Sour 12.50 EUR`) or a comma.
std::size_t entry_name_end(const syntax::LineView& line);

/// The first comma at or after an item, or the end of the line.
std::size_t comma_or_end(const syntax::LineView& line, std::size_t first);

}  // namespace gill::analysis

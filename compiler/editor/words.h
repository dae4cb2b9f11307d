#pragma once
#include <optional>
#include <string>

#include "editor/house_view.h"

/// What an editor says in a few words beside a name or a line. Figures and their decimals are those of the
/// book.
namespace gill::editor {

/// `18.2 % abv, 112 ml, 1.85 GBP`; says so where an error keeps it from being worked out.
std::string figures_in_brief(const HouseView& view, analysis::DrinkId id);
/// `makes 610 ml, 40.1 % abv`, `40.0 % abv`; empty where there is nothing to say.
std::string figures_in_brief(const HouseView& view, analysis::StockId id);

/// How well a folded name answers the folded letters that were typed of it: 0 where it begins with them, 1
/// where a word of it does, 2 where they stand in it in their order; nothing where they do not.
std::optional<int> match_of(const std::string& name, const std::string& typed);

/// `67 ml, 31.2 % abv` of what is in the vessel; empty where nothing is.
std::string liquid_in_brief(const model::Masses& masses);

}  // namespace gill::editor

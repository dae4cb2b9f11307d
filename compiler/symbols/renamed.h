#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "symbols/symbol_table.h"

namespace gill::symbols {

/// After an edit of one file of which `renew_places` says that more than places differ: takes the new name of
/// one of its declarations, where nothing else of the headers has changed, as somebody types it. Gives the
/// names that mean something else now, the old and the new one, as `AskedNames` keeps them. Nothing, and
/// nothing is taken, where the table has to be made anew: a name that somebody else has or that something is
/// `like`, a name of the library, of a unit or of the house.
std::optional<std::array<std::uint64_t, 2>> take_new_name(SymbolTable& names, std::size_t file_index,
                                                          const std::vector<syntax::File>& files,
                                                          const source::SourceSet& sources);

}  // namespace gill::symbols

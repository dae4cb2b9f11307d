#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.h"

/// Rules and their pages as `gill why` shows them on a terminal.
namespace gill::lint {

/// A page wrapped to `width` columns; examples stand as they are, set in. `styled` adds terminal styles and
/// changes no word.
std::string page_as_text(std::string_view page, std::size_t width, bool styled);

/// Every rule by its group: name, severity, what it finds; wrapped to `width` columns.
std::string list_of_rules(std::size_t width);

/// The rule that is meant by what somebody typed: any case, `_` for `-`, in square brackets or not.
/// Nothing where no rule has that name.
std::optional<diagnostics::Rule> find_typed_rule(std::string_view typed);

/// Up to four names that may have been meant by a name that no rule has: the nearest in spelling, then those
/// that share a word with it.
std::vector<std::string> rules_like(std::string_view typed);

}  // namespace gill::lint

#pragma once
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "costing/costing.h"
#include "render/document/document.h"
#include "render/terminal/text_table.h"

/// Small things that every output of a plan shares.
namespace gill::costing {

using render::terminal::text_notes;
using render::terminal::text_table;
using render::terminal::TextColumn;

/// Portions that a menu line expects to sell on a weekday (0 is Monday).
double sells_on(const analysis::MenuEntry& entry, std::size_t weekday);
double sells_in_a_week(const analysis::MenuEntry& entry);

/// The menu of that name, an invalid id for an empty name; a full sentence where there is none.
std::variant<analysis::MenuId, std::string> find_menu(const House& house, std::string_view name);

/// `Monday` … of 0 to 6.
std::string_view weekday_name(std::size_t weekday);

/// What names are sorted by.
std::string name_key(const std::string& name);

/// Text on one line, with nothing that a Gill file refuses.
std::string one_line(std::string_view text);
/// A name as Gill writes it: in quotes where it holds anything out of the ordinary.
std::string gill_name(std::string_view written);

/// The amount in the measure that suits it: `540 ml`, `1.08 l`, `48`, `320 g`.
std::string amount_text(std::optional<double> ml, double grams, double pieces);

/// What stands on every page of a plan or a count.
render::document::Frame desk_frame(const House& house);

}  // namespace gill::costing

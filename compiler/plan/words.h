#pragma once
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plan/costing.h"

/// Small things that every output of a plan shares.
namespace gill::plan {

/// Portions that a menu line expects to sell on a weekday (0 is Monday).
double sells_on(const spec::MenuEntry& entry, std::size_t weekday);
double sells_in_a_week(const spec::MenuEntry& entry);

/// The menu of that name, an invalid id for an empty name; a full sentence where there is none.
std::variant<spec::MenuId, std::string> find_menu(const House& house, std::string_view name);

/// `Monday` … of 0 to 6.
std::string_view weekday_name(std::size_t weekday);

/// What names are sorted by.
std::string name_key(const std::string& name);

/// Text on one line, with nothing that a Gill file refuses.
std::string one_line(std::string_view text);
/// A name as Gill writes it: in quotes where it holds anything out of the ordinary.
std::string gill_name(std::string_view written);

/// Money in print: `2.15 GBP`, with the decimals of its currency.
std::string money_text(const Exact& amount, const std::string& currency);

/// A table in plain text: columns as wide as they must be, numbers to the right. A row may be shorter than
/// the titles.
struct TextColumn {
  std::string title;
  bool to_the_right = false;
};
std::string text_table(const std::vector<TextColumn>& columns,
                       const std::vector<std::vector<std::string>>& rows);

/// Sentences as a block of lines no wider than 100 columns, later lines set in by two.
std::string text_notes(const std::vector<std::string>& notes);

}  // namespace gill::plan

#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "costing/costing.h"

namespace gill::importer {

using namespace costing;

/// An ingredient line as people write it, taken apart.
struct IngredientLine {
  /// As Gill writes it: `1 1/2`, `10..12`; empty where the line has none.
  std::string number;
  /// A spelling that the house knows; empty for a count.
  std::string unit;
  /// The same once more in another unit, `2 oz` of `60 ml (2 oz) gin`; mostly empty.
  std::string other_measure;
  /// `hot`, `chilled` before the name, where the house's name leaves it out.
  std::string warmth;
  /// As the house calls it; empty where no name fits.
  std::string name;
  /// A permitted substitute: `honey syrup or maple syrup`.
  std::string substitute;
  /// The name as it was written.
  std::string written_name;
  /// What stood in brackets or behind a comma.
  std::string remark;
  /// `top`, `rinse` where the line says so.
  std::string verb;
  bool is_optional = false;
  /// `~30 ml`, `ca. 30 ml`.
  bool is_about = false;
};

/// Reads `2 oz rye`, `rye 2 oz`, `Lemon juice: 3/4 oz (fresh)`, `juice of 1/2 lime`, `soda water to top`.
/// Nothing when there is neither a number nor a word that stands for one.
std::optional<IngredientLine> read_ingredient_line(std::string_view text, const House& house);

/// A number of people's at the start of the text as Gill writes it, and how many bytes it takes: `1-1/2`,
/// `1,5`, `½`, `2-3`, `two`. Nothing where none begins.
struct LeadingNumber {
  std::string gill;
  std::size_t bytes = 0;
};
std::optional<LeadingNumber> leading_number(std::string_view text);

/// `1½` as `1 1/2`, wherever it stands.
std::string with_plain_fractions(std::string_view text);

}  // namespace gill::importer

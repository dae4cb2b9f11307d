#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "importer/old_spec.h"

namespace gill::importer {

/// Adds every schema.org `Recipe` of a JSON text, however it is wrapped; false where the text is no JSON.
/// Which of them are preps nobody has looked at. `first_line`: which line of its file the text begins on.
bool read_recipes(std::string_view json, std::vector<OldSpec>& specs, std::size_t first_line = 1);

/// A script in a page, and the line on which it begins.
struct PageScript {
  std::string text;
  std::size_t line = 1;
};
/// The scripts of JSON-LD in a page of HTML; none where it has none.
std::vector<PageScript> json_scripts_of(std::string_view html);

}  // namespace gill::importer

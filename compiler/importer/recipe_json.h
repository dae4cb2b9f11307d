#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "importer/old_spec.h"

namespace gill::importer {

/// Adds every schema.org `Recipe` of a JSON text, however it is wrapped; false where the text is no JSON.
bool read_recipes(std::string_view json, std::vector<OldSpec>& specs);

/// The scripts of JSON-LD in a page of HTML; none where it has none.
std::vector<std::string> json_scripts_of(std::string_view html);

}  // namespace gill::importer

#pragma once
#include <string>
#include <string_view>

namespace gill::importer {

/// Whether every word and number of the source stands in what was written of it; `and`, which parts steps,
/// may be a new line.
bool keeps_all_words(std::string_view source, std::string_view written);

}  // namespace gill::importer

#pragma once
#include <string>
#include <string_view>

namespace gill::importer {

/// `“Snow Line”`, `"Fondue" (no, really)`: the marks around a name are none of it.
std::string without_quotes(const std::string& name);

/// The bytes of a number that counts the drinks: `4 - `, `#4 - `; 0 where none stands.
std::size_t counting_number_at(std::string_view name);

}  // namespace gill::importer

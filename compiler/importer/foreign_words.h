#pragma once
#include <string>
#include <string_view>

namespace gill::importer {

/// What German, French, Spanish and Italian cards call a good, a piece, a glass or ice, in the library's
/// words; empty for any other words.
std::string_view english_thing(std::string_view words);

/// The same of a unit: `EL`, `traits`.
std::string_view english_unit(std::string_view word);

/// A step in one of those languages as the language has it: `doppelt abseihen`, `compléter de tonic`; empty
/// for any other words.
std::string english_step(std::string_view clause);

}  // namespace gill::importer

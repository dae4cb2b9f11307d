#pragma once
#include <string_view>

namespace gill::importer {

/// True for a folded line that begins with a step: `shake`, `dbl strain`, `top w/ soda`.
bool begins_with_verb(std::string_view folded);

/// True for words that nothing but a step begins with: `shake`, `Double strain`, `remuer`.
bool begins_with_order(std::string_view text);

/// True for a line that tells somebody to do something, whether the language reads it or not: `Fine strain
/// into 2 coupes`, `In zwei Gläser abseihen`. A name may begin with a step's word as well: `Dry Dock 49`.
/// What stands below a blank line is rather a name.
bool tells_a_step(std::string_view line, bool after_blank);

/// `shake with ice`, `build over ice`: what nobody does with what is made ahead. An ice bath is another
/// thing.
bool is_made_with_ice(std::string_view line);

}  // namespace gill::importer

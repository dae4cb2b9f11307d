#pragma once
#include <string>
#include <string_view>

#include "model/allergen_words.h"

namespace gill::render::wording {

// Findings and pages say the same words: their home is the model.
using model::allergen_short;
using model::allergen_words;

/// A text in which code words stand (`nuts:hazelnut`), with the words that people say in their place.
std::string with_allergen_words(std::string_view text);

/// True when the house's list names it or its group.
bool is_on_list(std::string_view code, std::string_view list);

/// What stands wherever allergens are told.
extern const std::string evaluated_line;
extern const std::string shared_equipment_line;
/// What stands wherever there is a caution.
extern const std::string local_code_line;

}  // namespace gill::render::wording

#pragma once
#include <string>
#include <string_view>

namespace gill::render::wording {

/// A code word as people say it, with the group that lists name it by: `hazelnut (nut)`, `barley (cereal with gluten)`.
std::string allergen_words(std::string_view code);

/// The shortest that is still plain: `hazelnut`, `barley`, `egg`.
std::string allergen_short(std::string_view code);

/// A text in which code words stand (`nuts:hazelnut`), with the words that people say in their place.
std::string with_allergen_words(std::string_view text);

/// True when the house's list names it or its group.
bool is_on_list(std::string_view code, std::string_view list);

/// What stands wherever allergens are told.
extern const std::string worked_out_line;
extern const std::string shared_equipment_line;
/// What stands wherever there is a caution.
extern const std::string local_code_line;

}  // namespace gill::render::wording

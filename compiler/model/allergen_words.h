#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace gill::model {

/// The shortest word for an allergen's code that is still plain: `hazelnut`, `barley`, `egg`.
std::string allergen_short(std::string_view code);
/// A code word as people say it, with the group that lists name it by: `hazelnut (nut)`, `barley (cereal with
/// gluten)`.
std::string allergen_words(std::string_view code);
/// Several of them as people say them.
std::vector<std::string> allergen_words(const std::vector<std::string>& codes);
/// A code as a spec writes it: `nuts: almond`.
std::string allergen_as_written(std::string_view code);

}  // namespace gill::model

#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace gill::driver {

/// A text in the midst of a merge with the first of the two versions between git's marks (`<<<<<<<`,
/// `=======`,
/// `>>>>>>>`); nothing where no such marks stand in it.
std::optional<std::string> first_side_of_merge(std::string_view text);

}  // namespace gill::driver

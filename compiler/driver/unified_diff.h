#pragma once
#include <string>
#include <string_view>

namespace gill::driver {

/// The change of one file as a unified diff, with `a/` and `b/` before its path as git writes it; empty where
/// nothing changes.
std::string unified_diff(const std::string& path, std::string_view before, std::string_view after);

}  // namespace gill::driver

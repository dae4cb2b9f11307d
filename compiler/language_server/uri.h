#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace gill::language_server {

/// The path of a `file:` URI of this machine, without `.` and `..` in it; nothing for any other.
std::optional<std::string> path_of_uri(std::string_view uri);
/// The `file:` URI of an absolute path.
std::string uri_of_path(std::string_view path);
/// The last part of a URI's path, for a document that is no file; never empty.
std::string name_of_uri(std::string_view uri);

}  // namespace gill::language_server

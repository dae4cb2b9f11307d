#pragma once
#include <string_view>
#include <vector>

namespace gill::driver {

/// One file of the standard library, which the program carries inside.
struct EmbeddedFile {
  std::string_view path;
  std::string_view text;
};

/// Every file of the standard library, in the order of their paths.
const std::vector<EmbeddedFile>& standard_library();

}  // namespace gill::driver

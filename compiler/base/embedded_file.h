#pragma once
#include <string_view>
#include <vector>

namespace gill::base {

/// A text file that the program carries inside: made of a folder by `gill_embed` in compiler/CMakeLists.txt.
struct EmbeddedFile {
  /// Below the folder that was embedded, with `/` between its parts.
  std::string_view path;
  std::string_view text;
};

/// The text of the file of that path; empty when there is none.
inline std::string_view text_of(const std::vector<EmbeddedFile>& files, std::string_view path) {
  for (const auto& file : files)
    if (file.path == path) return file.text;
  return {};
}

}  // namespace gill::base

#include "driver/read_file.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <sstream>

namespace gill::driver {

namespace fs = std::filesystem;

FileError too_large(const std::string& path) { return {fmt::format("{} is too large to be a spec", path)}; }

std::variant<std::string, FileError> read_file(const std::string& path) {
  std::error_code error;
  auto status = fs::status(path, error);
  if (error) return FileError{fmt::format("cannot open {}: {}", path, error.message())};
  if (fs::is_directory(status))
    return FileError{fmt::format("{} is a folder, and a file is asked for", path)};
  if (fs::is_regular_file(status) && fs::file_size(path, error) > max_file_bytes && !error)
    return too_large(path);
  std::ifstream stream(path, std::ios::binary);
  if (!stream) return FileError{fmt::format("cannot open {}: permission denied or not readable", path)};
  std::ostringstream content;
  // An empty file has nothing to copy, which a stream takes for a failure.
  if (stream.peek() != std::ifstream::traits_type::eof()) content << stream.rdbuf();
  if (stream.bad() || !content) return FileError{fmt::format("cannot read {}", path)};
  return std::move(content).str();
}

}  // namespace gill::driver

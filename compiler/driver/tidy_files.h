#pragma once
#include <string>
#include <variant>
#include <vector>

#include "driver/tidy_house.h"

namespace gill::driver {

/// What became of one file that was asked for.
struct TidiedText {
  /// As it was asked for, or as it lies below the folder that was.
  std::string path;
  std::string before, after;
  bool changes() const { return before != after; }
};

struct TidiedFiles {
  std::vector<TidiedText> files;
  std::size_t unread_lines = 0;
  std::size_t kept = 0;
};

/// The files, and all `.gill` files of the folders, written anew. Each is judged with the house around it:
/// the folders from its own upwards as long as they hold `.gill` files themselves. A file that stands by
/// itself, or whose folder holds several houses, is judged alone. Nothing is written; the error names what
/// cannot be read.
std::variant<TidiedFiles, FileError> tidy_files(const std::vector<std::string>& paths);

/// A text that is no file, judged by itself.
TidiedFiles tidy_text(const std::string& name, std::string text);

/// Puts a changed file in place of the old one in one step. A file that is no longer what was read is left.
std::optional<FileError> write_tidied(const TidiedText& file);

}  // namespace gill::driver

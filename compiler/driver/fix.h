#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "driver/compile.h"

/// `check --fix`: corrections that can mean only one thing, put into the files.
namespace gill::driver {

/// One stretch of a file that was corrected.
struct Correction {
  std::string path;  ///< relative to the house
  std::size_t line = 1;
  diagnostics::Rule rule;
  std::string old_text, new_text;
};

struct FixedHouse {
  /// Every file; what was not corrected keeps every byte (line ends, byte-order mark, a last line without its
  /// end).
  HouseFiles files;
  /// In the order of their places.
  std::vector<Correction> corrections;
  /// The house with its corrections in, through every stage.
  std::unique_ptr<Compilation> compiled;
};

/// Applies the safe corrections until none is left: mending one mistake of a line can bring the next to
/// light.
FixedHouse apply_safe_fixes(HouseFiles house);

/// Puts a file's new bytes in place of the old ones in one step, with the same permissions; a link stays one.
/// On failure the old file stands.
std::optional<FileError> replace_file(const std::string& path, std::string_view content);

/// Where a file of a house lies: `house_path` is the house's folder, or the file itself.
std::string path_on_disk(const std::string& house_path, const std::string& relative_path);

}  // namespace gill::driver

#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace gill::driver {

/// Why something could not be done with a file: a full sentence.
struct FileError {
  std::string message;
};

/// What some editors put before a text; it is no part of it.
inline constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";

/// One file of a house: its path relative to the house, and its bytes.
struct HouseFile {
  std::string path;
  std::string text;
};

/// A house as it lies in files.
struct HouseFiles {
  /// The house's folder name (or file name without `.gill`): what it is called when it does not say.
  std::string name;
  std::vector<HouseFile> files;
  /// The folder below the top of the repository in which it stood then, where it stands in another now.
  std::optional<std::string> folder_before_move = {};
};

/// The only door through which the stages meet files. Tests open another one.
class FileAccess {
 public:
  virtual ~FileAccess() = default;
  /// Every `.gill` file of a house, in the order of their paths. Folders whose names begin with `.` are
  /// skipped, and so is `skipped_folder` (where a build writes). The error names the folder or the file and
  /// says what is wrong with it: not there, not readable, no specs in it.
  virtual std::variant<HouseFiles, FileError> read_house(const std::string& path,
                                                         const std::string& skipped_folder) = 0;
};

/// The disk.
class DiskAccess final : public FileAccess {
 public:
  std::variant<HouseFiles, FileError> read_house(const std::string& path,
                                                 const std::string& skipped_folder) override;
};

/// Files that tests keep in memory, as `path → text`.
class MemoryAccess final : public FileAccess {
 public:
  explicit MemoryAccess(std::map<std::string, std::string> files) : files_(std::move(files)) {}
  std::variant<HouseFiles, FileError> read_house(const std::string& path,
                                                 const std::string& skipped_folder) override;

 private:
  std::map<std::string, std::string> files_;
};

}  // namespace gill::driver

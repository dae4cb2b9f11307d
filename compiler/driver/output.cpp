#include "driver/output.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

namespace gill::driver {

namespace fs = std::filesystem;

namespace {

// Marks a folder that a build wrote and may replace.
constexpr std::string_view marker_name = ".gill-output";
constexpr std::string_view marker_text = "This folder is written by gill and replaced at the next build.\n";

std::optional<FileError> write_file(const fs::path& path, std::string_view content) {
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  if (error)
    return FileError{
        fmt::format("cannot make the folder {}: {}", path.parent_path().string(), error.message())};
  std::ofstream stream(path, std::ios::binary | std::ios::trunc);
  stream.write(content.data(), static_cast<std::streamsize>(content.size()));
  stream.close();
  if (!stream) return FileError{fmt::format("cannot write {}: {}", path.string(), std::strerror(errno))};
  return std::nullopt;
}

/// Two builds side by side take turns: the folder above holds the lock, so nothing stays behind when one is
/// killed. Where a file system cannot lock, they do not wait.
class Turn {
 public:
  explicit Turn(const fs::path& above) : folder_(open(above.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (folder_ >= 0) flock(folder_, LOCK_EX);
  }
  ~Turn() {
    if (folder_ >= 0) close(folder_);
  }
  Turn(const Turn&) = delete;

 private:
  int folder_;
};

bool may_be_replaced(const fs::path& folder) {
  std::error_code error;
  return fs::is_empty(folder, error) || fs::exists(folder / marker_name, error);
}

/// Swaps two folders in one step; where the file system cannot, renames one after the other.
std::optional<FileError> exchange(const fs::path& fresh, const fs::path& place) {
  std::error_code error;
  if (!fs::exists(place, error)) {
    fs::rename(fresh, place, error);
    if (error) return FileError{fmt::format("cannot put {} in place: {}", place.string(), error.message())};
    return std::nullopt;
  }
  if (renameat2(AT_FDCWD, fresh.c_str(), AT_FDCWD, place.c_str(), RENAME_EXCHANGE) == 0) return std::nullopt;
  fs::path old = fresh;
  old += ".old";
  fs::remove_all(old, error);
  fs::rename(place, old, error);
  if (!error) fs::rename(fresh, place, error);
  if (error) return FileError{fmt::format("cannot put {} in place: {}", place.string(), error.message())};
  fs::rename(old, fresh, error);
  return std::nullopt;
}

}  // namespace

std::optional<FileError> replace_folder(const std::string& folder,
                                        const std::vector<render::OutputFile>& files) {
  std::error_code error;
  fs::path place = fs::absolute(folder, error).lexically_normal();
  if (!place.has_filename()) place = place.parent_path();
  if (fs::is_symlink(place, error))
    return FileError{
        fmt::format("{} is a link; name the folder itself, so that nothing else is replaced", folder)};
  if (fs::exists(place, error) && !fs::is_directory(place, error))
    return FileError{fmt::format("{} is a file; name a folder to write to", folder)};
  if (fs::exists(place, error) && !may_be_replaced(place))
    return FileError{fmt::format(
        "{} holds files that no build wrote; name an empty or a new folder, so that nothing is lost",
        folder)};
  fs::create_directories(place.parent_path(), error);
  Turn turn(place.parent_path());
  fs::path fresh = place.parent_path() / ("." + place.filename().string() + ".building");
  fs::remove_all(fresh, error);
  auto failure = write_file(fresh / marker_name, marker_text);
  for (const auto& file : files) {
    if (failure) break;
    failure = write_file(fresh / file.path, file.content);
  }
  if (!failure) failure = exchange(fresh, place);
  // What is left at `fresh` is the old output, or half of a new one that could not be written.
  fs::remove_all(fresh, error);
  return failure;
}

}  // namespace gill::driver

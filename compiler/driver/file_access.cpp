#include "driver/file_access.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "driver/read_file.h"

namespace gill::driver {

namespace fs = std::filesystem;

namespace {

std::string name_of_folder(const fs::path& path) {
  std::error_code error;
  fs::path whole = fs::weakly_canonical(path, error);
  if (error) whole = path;
  return whole.has_filename() ? whole.filename().string() : whole.parent_path().filename().string();
}

}  // namespace

namespace {

/// A link to a file that lies in the folder itself, and is read there: a hidden one is not.
bool leads_inside(const fs::directory_entry& entry, const std::string& folder) {
  std::error_code error;
  if (!entry.is_symlink(error)) return false;
  auto target = fs::weakly_canonical(entry.path(), error), top = fs::weakly_canonical(folder, error);
  if (!top.has_filename()) top = top.parent_path();
  auto [end_of_top, below] = std::mismatch(top.begin(), top.end(), target.begin(), target.end());
  if (error || end_of_top != top.end() || target.extension() != ".gill") return false;
  return std::none_of(below, target.end(),
                      [](const fs::path& part) { return part.string().starts_with('.'); });
}

/// A house of a stranger may hold what is no spec: a pipe that waits for ever, a link to some other file of
/// the machine. Nothing where it is a file, or a link to a spec elsewhere; one that leads nowhere is told
/// when it is opened.
std::optional<FileError> why_not_read(const fs::directory_entry& entry) {
  std::error_code error;
  auto status = entry.status(error);
  if (error || status.type() == fs::file_type::not_found) return std::nullopt;
  if (!fs::is_regular_file(status))
    return FileError{fmt::format("{} is no file; take it out of the house", entry.path().string())};
  if (!entry.is_symlink(error)) return std::nullopt;
  auto target = fs::weakly_canonical(entry.path(), error);
  if (error || target.extension() == ".gill") return std::nullopt;
  return FileError{fmt::format("{} is a link to {}, which is no .gill file; take it out of the house",
                               entry.path().string(), target.string())};
}

}  // namespace

std::variant<HouseFiles, FileError> DiskAccess::read_house(const std::string& path,
                                                           const std::string& skipped_folder) {
  std::error_code error;
  auto status = fs::status(path, error);
  if (error || !fs::exists(status)) return FileError{fmt::format("there is no file or folder {}", path)};
  HouseFiles house;
  std::vector<std::pair<std::string, fs::path>> found;
  if (fs::is_directory(status)) {
    house.name = name_of_folder(path);
    fs::path skipped = skipped_folder.empty() ? fs::path() : fs::weakly_canonical(skipped_folder, error);
    fs::recursive_directory_iterator it(path, fs::directory_options::none, error), end;
    if (error) return FileError{fmt::format("cannot open the folder {}: {}", path, error.message())};
    for (; it != end; it.increment(error)) {
      if (error) return FileError{fmt::format("cannot read the folder {}: {}", path, error.message())};
      std::string name = it->path().filename().string();
      std::error_code ignored;
      if (it->is_directory(ignored)) {
        if (name.starts_with('.') ||
            (!skipped.empty() && fs::weakly_canonical(it->path(), ignored) == skipped))
          it.disable_recursion_pending();
        continue;
      }
      if (it->path().extension() != ".gill" || name.starts_with('.') || leads_inside(*it, path)) continue;
      if (auto trouble = why_not_read(*it)) return *trouble;
      found.emplace_back(it->path().lexically_relative(path).generic_string(), it->path());
    }
    std::sort(found.begin(), found.end());
    if (found.empty()) return FileError{fmt::format("the folder {} holds no .gill file", path)};
  } else {
    house.name = fs::path(path).stem().string();
    found.emplace_back(fs::path(path).filename().string(), path);
  }
  for (const auto& [relative, file] : found) {
    auto text = read_file(file.string());
    if (auto* failure = std::get_if<FileError>(&text)) return *failure;
    house.files.push_back({relative, std::move(std::get<std::string>(text))});
  }
  return house;
}

std::variant<HouseFiles, FileError> MemoryAccess::read_house(const std::string& path, const std::string&) {
  HouseFiles house;
  house.name = path;
  for (const auto& [name, text] : files_) house.files.push_back({name, text});
  if (house.files.empty()) return FileError{fmt::format("the folder {} holds no .gill file", path)};
  return house;
}

}  // namespace gill::driver

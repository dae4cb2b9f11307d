#include "driver/house_around.h"

#include <algorithm>
#include <filesystem>
#include <vector>

#include "base/text.h"
#include "driver/read_file.h"

namespace gill::driver {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view spec_extension = ".gill";

/// The specs that lie in a folder itself.
std::vector<fs::path> specs_in(const fs::path& folder) {
  std::vector<fs::path> specs;
  std::error_code error, ignored;
  for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error))
    if (it->path().extension() == spec_extension && !it->is_directory(ignored)) specs.push_back(it->path());
  return specs;
}

std::size_t houses_in(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); at = std::min(text.find('\n', at), text.size() - 1) + 1) {
    std::string word = base::lower_ascii(text.substr(at, 6));
    count += word == "house " || word == "house\t" || word == "house\n" || word == "house\r" ? 1 : 0;
  }
  return count;
}

bool declares_a_house(const std::vector<fs::path>& specs) {
  return std::any_of(specs.begin(), specs.end(), [](const fs::path& path) {
    auto text = read_file(path.string());
    return std::holds_alternative<std::string>(text) && houses_in(std::get<std::string>(text)) > 0;
  });
}

/// The top of a repository, or a bare one itself: what lies above it is nobody's house.
bool is_repository(const fs::path& folder) {
  std::error_code error;
  if (fs::exists(folder / ".git", error)) return true;
  return fs::is_regular_file(folder / "HEAD", error) && fs::is_directory(folder / "objects", error) &&
         fs::is_directory(folder / "refs", error);
}

}  // namespace

std::string house_around(const std::string& inner) {
  std::error_code error;
  fs::path start = fs::weakly_canonical(inner, error);
  if (!start.has_filename()) start = start.parent_path();
  for (fs::path folder = start; folder.has_relative_path(); folder = folder.parent_path()) {
    if (declares_a_house(specs_in(folder))) return folder.string();
    if (is_repository(folder)) break;
  }
  fs::path folder = start;
  while (folder.has_relative_path() && !is_repository(folder) && !specs_in(folder.parent_path()).empty())
    folder = folder.parent_path();
  return folder.string();
}

std::size_t houses_declared(const HouseFiles& house) {
  std::size_t count = 0;
  for (const auto& file : house.files) count += houses_in(file.text);
  return count;
}

}  // namespace gill::driver

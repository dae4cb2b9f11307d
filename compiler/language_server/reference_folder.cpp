#include "language_server/reference_folder.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "base/fingerprint.h"
#include "driver/standard_library.h"
#include "lint/pages.h"

namespace gill::language_server {

namespace fs = std::filesystem;

namespace {

std::string set_in(const char* name) {
  const char* value = std::getenv(name);
  return value ? value : "";
}

/// Where a user's programs keep what they can make again (XDG Base Directory Specification).
fs::path cache_folder() {
  std::string cache = set_in("XDG_CACHE_HOME"), home = set_in("HOME");
  if (cache.starts_with('/')) return fs::path(cache) / "gill";
  if (home.starts_with('/')) return fs::path(home) / ".cache" / "gill";
  return fs::temp_directory_path() / fmt::format("gill-{}", ::getuid());
}

std::string state_of_texts() {
  base::Fingerprint fingerprint;
  for (const auto& file : driver::standard_library()) fingerprint.add(file.path), fingerprint.add(file.text);
  for (const auto& page : lint::rule_pages()) fingerprint.add(page.path), fingerprint.add(page.text);
  return fmt::format("{:016x}", fingerprint.value());
}

bool write_file(const fs::path& path, std::string_view text) {
  std::error_code error;
  fs::create_directories(path.parent_path(), error);
  std::ofstream stream(path, std::ios::binary | std::ios::trunc);
  stream.write(text.data(), static_cast<std::streamsize>(text.size()));
  stream.close();
  return static_cast<bool>(stream);
}

/// All texts below a new folder, read-only; it takes its name when it is whole, so that nobody meets half of
/// it.
bool write_all(const fs::path& folder) {
  std::error_code error;
  fs::path fresh = folder.string() + fmt::format(".{}.writing", ::getpid());
  bool written = true;
  auto write = [&](const fs::path& path, std::string_view text) {
    written = written && write_file(path, text);
    fs::permissions(path, fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read, error);
  };
  for (const auto& file : driver::standard_library()) write(fresh / "stdlib" / file.path, file.text);
  for (const auto& page : lint::rule_pages()) write(fresh / "rules" / page.path, page.text);
  if (written) fs::rename(fresh, folder, error);
  fs::remove_all(fresh, error);
  return written && fs::is_directory(folder, error);
}

}  // namespace

const std::optional<std::string>& ReferenceFolder::folder() {
  if (folder_) return *folder_;
  folder_.emplace();
  std::error_code error;
  fs::path folder = cache_folder() / state_of_texts();
  fs::create_directories(folder.parent_path(), error);
  if (fs::is_directory(folder, error) || write_all(folder)) *folder_ = fs::canonical(folder, error).string();
  return *folder_;
}

std::optional<std::string> ReferenceFolder::file_of_library(const std::string& path) {
  if (!folder()) return std::nullopt;
  return *folder() + "/" + path;
}

std::optional<std::string> ReferenceFolder::rule_page(const std::string& rule) {
  auto known = diagnostics::find_rule(rule);
  if (!known || !lint::page_of(*known) || !folder()) return std::nullopt;
  std::string file = rule;
  for (char& c : file)
    if (c == '-') c = '_';
  std::string path = *folder() + "/rules/" + file + ".md";
  std::error_code error;
  return fs::exists(path, error) ? std::optional(path) : std::nullopt;
}

std::string ReferenceFolder::path_in_library(const std::string& path) {
  if (!folder()) return {};
  std::string inside = *folder() + "/";
  return path.starts_with(inside + "stdlib/") ? path.substr(inside.size()) : std::string();
}

std::optional<std::string> ReferenceFolder::write_page(const std::string& name, const std::string& html) {
  fs::path path = cache_folder() / "pages" / (name + ".html");
  return write_file(path, html) ? std::optional(path.string()) : std::nullopt;
}

}  // namespace gill::language_server

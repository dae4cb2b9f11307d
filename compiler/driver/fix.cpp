#include "driver/fix.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <map>
#include <tuple>

namespace gill::driver {

namespace fs = std::filesystem;
using diagnostics::Diagnostic;
using diagnostics::Edit;

namespace {

// A line shows one mistake after the other; one with more than these is left for a person.
constexpr int max_rounds = 20;

/// An edit with the finding that it fixes.
struct CandidateEdit {
  const Diagnostic* finding;
  const Edit* edit;
};

/// The edits of every safe fix by file, from the last place to the first; of two that overlap the earlier is
/// taken.
std::map<std::size_t, std::vector<CandidateEdit>> safe_edits(const Compilation& compiled) {
  std::map<std::size_t, std::vector<CandidateEdit>> by_file;
  auto overlaps = [&](const Edit& edit) {
    const auto& taken = by_file[edit.span.file_id.index()];
    return std::any_of(taken.begin(), taken.end(), [&](const CandidateEdit& other) {
      return edit.span.begin <= other.edit->span.end && other.edit->span.begin <= edit.span.end;
    });
  };
  for (const auto& finding : compiled.findings) {
    if (!finding.fix || !finding.fix->safe || finding.fix->edits.empty()) continue;
    const auto& edits = finding.fix->edits;
    bool may = std::none_of(edits.begin(), edits.end(), [&](const Edit& edit) {
      return compiled.sources[edit.span.file_id].from_library || overlaps(edit);
    });
    if (!may) continue;
    for (const auto& edit : edits) by_file[edit.span.file_id.index()].push_back({&finding, &edit});
  }
  for (auto& [file, edits] : by_file)
    std::sort(edits.begin(), edits.end(), [](const CandidateEdit& a, const CandidateEdit& b) {
      return a.edit->span.begin > b.edit->span.begin;
    });
  return by_file;
}

HouseFile* find_file(HouseFiles& house, const std::string& path) {
  for (auto& file : house.files)
    if (file.path == path) return &file;
  return nullptr;
}

/// One round; false when there was nothing to do.
bool apply_round(HouseFiles& house, const Compilation& compiled, std::vector<Correction>& corrections) {
  bool changed = false;
  for (const auto& [index, edits] : safe_edits(compiled)) {
    const auto& source = compiled.sources[source::FileId::at(index)];
    auto* file = find_file(house, source.path);
    if (!file) continue;
    std::size_t mark = file->text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    for (const auto& [finding, edit] : edits) {
      std::size_t length = edit->span.end - edit->span.begin;
      corrections.push_back({source.path, source.line_of(edit->span.begin) + 1, finding->rule,
                             file->text.substr(mark + edit->span.begin, length), edit->text});
      file->text.replace(mark + edit->span.begin, length, edit->text);
      changed = true;
    }
  }
  return changed;
}

std::string why_not(const std::string& path) {
  return fmt::format("cannot write {}: {}", path, std::strerror(errno));
}

bool write_all(int descriptor, std::string_view content) {
  while (!content.empty()) {
    auto written = ::write(descriptor, content.data(), content.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    content.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

FixedHouse apply_safe_fixes(HouseFiles house) {
  FixedHouse fixed{std::move(house), {}, nullptr};
  fixed.compiled = compile(fixed.files);
  for (int round = 0; round < max_rounds && apply_round(fixed.files, *fixed.compiled, fixed.corrections);
       ++round)
    fixed.compiled = compile(fixed.files);
  std::stable_sort(fixed.corrections.begin(), fixed.corrections.end(),
                   [](const Correction& a, const Correction& b) {
                     return std::tie(a.path, a.line) < std::tie(b.path, b.line);
                   });
  return fixed;
}

std::optional<FileError> replace_file(const std::string& path, std::string_view content) {
  std::error_code error;
  fs::path place = fs::canonical(path, error);
  if (error) return FileError{fmt::format("cannot open {}: {}", path, error.message())};
  struct stat old {};
  if (::stat(place.c_str(), &old) != 0) return FileError{why_not(path)};
  if (::access(place.c_str(), W_OK) != 0) return FileError{why_not(path)};
  fs::path fresh = place.parent_path() / fmt::format(".{}.{}.writing", place.filename().string(), ::getpid());
  int descriptor = ::open(fresh.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (descriptor < 0) return FileError{why_not(path)};
  // Whoever owned it owns it still, where that may be said.
  bool owned = ::fchown(descriptor, old.st_uid, old.st_gid) == 0 || errno == EPERM;
  bool whole = owned && write_all(descriptor, content) && ::fchmod(descriptor, old.st_mode & 07777) == 0 &&
               ::fsync(descriptor) == 0;
  std::string failure = whole ? std::string() : why_not(path);
  whole = ::close(descriptor) == 0 && whole;
  if (whole && ::rename(fresh.c_str(), place.c_str()) == 0) return std::nullopt;
  if (failure.empty()) failure = why_not(path);
  ::unlink(fresh.c_str());
  return FileError{failure};
}

std::string path_on_disk(const std::string& house_path, const std::string& relative_path) {
  std::error_code error;
  return fs::is_directory(house_path, error) ? (fs::path(house_path) / relative_path).string() : house_path;
}

}  // namespace gill::driver

#include "driver/revision.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "base/characters.h"
#include "base/text.h"
#include "driver/git_objects.h"
#include "driver/read_file.h"

namespace gill::driver {

namespace fs = std::filesystem;
using namespace git;

namespace {

std::string last_git_error() {
  const git_error* error = git_error_last();
  return error && error->message ? error->message : "git gives no reason";
}

/// `2026-06-01`, `2026-06-01 18:30`, `2026-06-01T18:30:05`: compared as text, a day alone as its end.
std::optional<std::string> moment_of(std::string date) {
  for (char& c : date)
    if (c == 'T') c = ' ';
  static constexpr std::string_view form = "dddd-dd-dd dd:dd:dd";
  if (date.size() != 10 && date.size() != 16 && date.size() != 19) return std::nullopt;
  for (std::size_t i = 0; i < date.size(); ++i) {
    if (form[i] == 'd' ? !base::is_digit(date[i]) : date[i] != form[i]) return std::nullopt;
  }
  static constexpr std::string_view end_of_day = " 23:59:59";
  return date + std::string(end_of_day.substr(date.size() == 10 ? 0 : date.size() == 16 ? 6 : 9));
}

/// Splits `main@{2026-06-01}` into the branch and the date; nothing where it is no date.
std::optional<std::pair<std::string, std::string>> branch_and_date(const std::string& revision) {
  auto at = revision.rfind("@{");
  if (at == std::string::npos || !revision.ends_with('}')) return std::nullopt;
  auto moment = moment_of(revision.substr(at + 2, revision.size() - at - 3));
  if (!moment) return std::nullopt;
  return std::pair(at == 0 ? std::string("HEAD") : revision.substr(0, at), *moment);
}

std::variant<std::string, FileError> text_of(git_blob* blob, const std::string& path) {
  if (git_blob_rawsize(blob) > max_file_bytes) return too_large(path);
  return std::string(static_cast<const char*>(git_blob_rawcontent(blob)), git_blob_rawsize(blob));
}

/// The text of an object of the repository, which stands at `path` of a revision or of the index.
std::variant<std::string, FileError> content_of(git_repository* repository, const git_oid* id,
                                                const std::string& path) {
  git_blob* found = nullptr;
  if (git_blob_lookup(&found, repository, id) != 0)
    return FileError{fmt::format("cannot read {} from the repository: {}", path, last_git_error())};
  return text_of(Blob(found).get(), path);
}

void sort_by_path(std::vector<HouseFile>& files) {
  std::sort(files.begin(), files.end(),
            [](const HouseFile& a, const HouseFile& b) { return a.path < b.path; });
}

/// Collects the files of a tree.
class TreeReader {
 public:
  TreeReader(git_repository* repository, git_tree* tree) : repository_(repository), tree_(tree) {}

  std::variant<std::vector<HouseFile>, FileError> read() {
    git_tree_walk(
        tree_, GIT_TREEWALK_PRE,
        [](const char* folder, const git_tree_entry* entry, void* self) {
          return static_cast<TreeReader*>(self)->visit(folder, entry);
        },
        this);
    if (failure_) return *failure_;
    sort_by_path(files_);
    return std::move(files_);
  }

 private:
  int visit(const std::string& folder, const git_tree_entry* entry) {
    constexpr int skip = 1, stop = -1, go_on = 0;
    std::string name = git_tree_entry_name(entry);
    if (name.starts_with('.')) return skip;
    if (git_tree_entry_type(entry) == GIT_OBJECT_TREE) return go_on;
    if (!name.ends_with(".gill") || git_tree_entry_type(entry) != GIT_OBJECT_BLOB) return go_on;
    if (git_tree_entry_filemode(entry) == GIT_FILEMODE_LINK)
      add_linked(folder, name, entry);
    else
      add(folder + name, entry);
    return failure_ ? stop : go_on;
  }

  std::optional<std::string> content(const git_tree_entry* entry, const std::string& path) {
    auto text = content_of(repository_, git_tree_entry_id(entry), path);
    if (auto* failure = std::get_if<FileError>(&text)) {
      failure_ = std::move(*failure);
      return std::nullopt;
    }
    return std::move(std::get<std::string>(text));
  }

  void add(const std::string& path, const git_tree_entry* entry) {
    if (auto text = content(entry, path)) files_.push_back({path, std::move(*text)});
  }

  /// A link to a file of the same house is read as that file; any other leads out of the revision and is left
  /// out.
  void add_linked(const std::string& folder, const std::string& name, const git_tree_entry* entry) {
    auto target = content(entry, folder + name);
    if (!target) return;
    std::string path = (fs::path(folder) / *target).lexically_normal().generic_string();
    git_tree_entry* found = nullptr;
    if (path.starts_with("..") || git_tree_entry_bypath(&found, tree_, path.c_str()) != 0) return;
    TreeEntry linked(found);
    if (git_tree_entry_type(linked.get()) == GIT_OBJECT_BLOB &&
        git_tree_entry_filemode(linked.get()) != GIT_FILEMODE_LINK)
      add(folder + name, linked.get());
  }

  git_repository* repository_;
  git_tree* tree_;
  std::vector<HouseFile> files_;
  std::optional<FileError> failure_;
};

/// All paths of Gill files in a tree.
std::vector<fs::path> spec_paths(git_tree* tree) {
  std::vector<fs::path> paths;
  git_tree_walk(
      tree, GIT_TREEWALK_PRE,
      [](const char* folder, const git_tree_entry* entry, void* into) {
        std::string name = git_tree_entry_name(entry);
        if (name.starts_with('.')) return 1;
        if (name.ends_with(".gill")) static_cast<std::vector<fs::path>*>(into)->emplace_back(folder + name);
        return 0;
      },
      &paths);
  return paths;
}

/// The folders at the top of a tree that hold Gill files at any depth; empty for the top itself.
std::vector<std::string> folders_with_specs(git_tree* tree) {
  std::set<std::string> folders;
  for (const auto& path : spec_paths(tree))
    folders.insert(path.has_parent_path() ? path.begin()->string() : std::string());
  return {folders.begin(), folders.end()};
}

/// The deepest folder that holds all of them.
fs::path common_folder(const std::vector<fs::path>& paths) {
  fs::path folder = paths.front().parent_path();
  for (const auto& path : paths) {
    auto [mine, theirs] = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
    fs::path common;
    for (auto part = folder.begin(); part != mine; ++part) common /= *part;
    folder = common;
  }
  return folder;
}

}  // namespace

std::string moment_of(const git_commit* commit) {
  std::time_t local = git_commit_time(commit) + std::time_t{60} * git_commit_time_offset(commit);
  std::tm parts{};
  gmtime_r(&local, &parts);
  return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}:{:02}", parts.tm_year + 1900, parts.tm_mon + 1,
                     parts.tm_mday, parts.tm_hour, parts.tm_min, parts.tm_sec);
}

void GitAccess::Free::operator()(git_repository* repository) const { git_repository_free(repository); }
void GitAccess::Free::operator()(git_object* object) const { git_object_free(object); }
void GitAccess::Free::operator()(git_tree* tree) const { git_tree_free(tree); }

GitAccess::GitAccess() { git_libgit2_init(); }

GitAccess::~GitAccess() {
  repository_.reset();
  git_libgit2_shutdown();
}

std::variant<std::unique_ptr<GitAccess>, FileError> GitAccess::open(const std::string& house) {
  std::unique_ptr<GitAccess> access(new GitAccess());
  std::error_code error;
  // A path of which nothing is there stays as it is unless it is made absolute.
  fs::path place = fs::weakly_canonical(fs::absolute(house, error), error);
  if (error || place.empty()) place = house;
  // A house that is no longer on the disk may still stand in the history: look from the folder above it.
  fs::path start = place;
  while (!fs::exists(start, error) && start.has_parent_path() && start != start.parent_path())
    start = start.parent_path();
  git_repository* repository = nullptr;
  if (git_repository_open_ext(&repository, start.c_str(), 0, nullptr) != 0) {
    if (git_error_last() && git_error_last()->klass == GIT_ERROR_CONFIG)
      return FileError{
          fmt::format("the git repository around {} cannot be opened: {}", house, last_git_error())};
    return FileError{
        fmt::format("{} lies in no git repository that can be opened ({})", house, last_git_error())};
  }
  access->repository_.reset(repository);
  access->house_name_ = place.extension() == ".gill" ? place.stem().string() : place.filename().string();
  if (const char* top = git_repository_workdir(repository)) {
    fs::path below = place.lexically_relative(fs::weakly_canonical(top, error));
    std::string path = below.generic_string();
    if (path != "." && !path.starts_with("..")) access->path_ = path;
    while (access->path_.ends_with('/')) access->path_.pop_back();
  } else if (place != start) {
    // A bare repository has no folders on the disk: the house's is one of its trees.
    access->path_ = place.lexically_relative(start).generic_string();
  }
  return access;
}

std::variant<GitAccess::Object, FileError> GitAccess::find(const std::string& revision) const {
  if (auto date = branch_and_date(revision)) return find_at_date(date->first, date->second);
  git_object* object = nullptr;
  if (git_revparse_single(&object, repository_.get(), revision.c_str()) != 0)
    return unknown_revision(revision);
  return Object(object);
}

std::variant<GitAccess::Object, FileError> GitAccess::find_at_date(const std::string& branch,
                                                                   const std::string& date) const {
  auto found = find(branch);
  if (auto* failure = std::get_if<FileError>(&found)) return *failure;
  git_object* peeled = nullptr;
  if (git_object_peel(&peeled, std::get<Object>(found).get(), GIT_OBJECT_COMMIT) != 0)
    return unknown_revision(branch);
  Commit commit(reinterpret_cast<git_commit*>(peeled));
  std::string earliest;
  while (commit) {
    earliest = moment_of(commit.get());
    if (earliest <= date) return Object(reinterpret_cast<git_object*>(commit.release()));
    git_commit* parent = nullptr;
    if (git_commit_parentcount(commit.get()) == 0 || git_commit_parent(&parent, commit.get(), 0) != 0) break;
    commit.reset(parent);
  }
  return FileError{fmt::format("{} has no commit as early as {}; its first is of {}", branch,
                               date.substr(0, 10), earliest)};
}

std::size_t GitAccess::first_parents(git_object* object) const {
  git_object* peeled = nullptr;
  if (git_object_peel(&peeled, object, GIT_OBJECT_COMMIT) != 0) return 0;
  Commit commit(reinterpret_cast<git_commit*>(peeled));
  std::size_t count = 0;
  for (git_commit* parent = nullptr;
       git_commit_parentcount(commit.get()) > 0 && git_commit_parent(&parent, commit.get(), 0) == 0; ++count)
    commit.reset(parent);
  return count;
}

FileError GitAccess::unknown_revision(const std::string& revision) const {
  std::string base = revision.substr(0, revision.find_first_of("~^@:"));
  git_object* object = nullptr;
  if (base != revision && !base.empty() &&
      git_revparse_single(&object, repository_.get(), base.c_str()) == 0) {
    Object found(object);
    auto parents = first_parents(object);
    if (revision.find(':') != std::string::npos)
      return FileError{fmt::format("`{}` holds nothing at that path: {}", revision, last_git_error())};
    return FileError{fmt::format("there is no revision `{}`: before `{}` there {} {} {} in its line",
                                 revision, base, parents == 1 ? "is" : "are", parents,
                                 parents == 1 ? "commit" : "commits")};
  }
  base::NearestWord nearest(base.empty() ? revision : base);
  std::vector<std::string> names;
  git_reference_iterator* iterator = nullptr;
  if (git_reference_iterator_new(&iterator, repository_.get()) == 0) {
    for (git_reference* next = nullptr; git_reference_next(&next, iterator) == 0;) {
      Reference reference(next);
      std::string name = git_reference_shorthand(reference.get());
      nearest.consider(name, name);
      if (git_reference_is_branch(reference.get()) || git_reference_is_tag(reference.get()))
        names.push_back(name);
    }
    git_reference_iterator_free(iterator);
  }
  std::string message = fmt::format("there is no file, folder or revision `{}`", revision);
  if (nearest.best()) return FileError{fmt::format("{}; did you mean `{}`?", message, *nearest.best())};
  std::sort(names.begin(), names.end());
  constexpr std::size_t max_names = 8;
  if (names.size() > max_names) names.resize(max_names);
  if (names.empty()) return FileError{message + "; the repository has no branch and no tag yet"};
  return FileError{fmt::format("{}; the repository has {}", message, base::join_with_and(names))};
}

FileError GitAccess::no_house(git_tree* tree, const std::string& revision) const {
  auto folders = folders_with_specs(tree);
  std::string message = fmt::format("the revision `{}` has no `{}`", revision, path_);
  if (folders.empty()) return FileError{message + ", and no .gill file at all"};
  base::NearestWord nearest(path_);
  for (const auto& folder : folders) nearest.consider(folder, folder);
  if (nearest.best())
    return FileError{fmt::format("{}; did you mean `--house {}`?", message, *nearest.best())};
  for (auto& folder : folders)
    if (folder.empty()) folder = ". (the top)";
  return FileError{fmt::format("{}; its .gill files are in {}", message, base::join_with_and(folders))};
}

/// Where the house stood in a tree that has no folder of its name: the one folder whose Gill files are all
/// gone from where they were. Nothing where that is no folder for certain.
std::optional<std::string> GitAccess::folder_before_move(git_tree* tree) const {
  auto is_there_now = [&](const fs::path& path) {
    if (const char* top = git_repository_workdir(repository_.get())) {
      std::error_code error;
      return fs::exists(top / path, error);
    }
    git_object* found = nullptr;
    const auto name = "HEAD:" + path.generic_string();
    if (git_revparse_single(&found, repository_.get(), name.c_str()) != 0) return false;
    return Object(found) != nullptr;
  };
  const auto all = spec_paths(tree);
  auto gone = all;
  std::erase_if(gone, is_there_now);
  if (gone.empty() || path_.ends_with(".gill")) return std::nullopt;
  const auto folder = common_folder(gone);
  auto is_inside = [&](const fs::path& path) {
    return folder.empty() ||
           std::mismatch(folder.begin(), folder.end(), path.begin(), path.end()).first == folder.end();
  };
  const auto inside = std::count_if(all.begin(), all.end(), is_inside);
  if (static_cast<std::size_t>(inside) != gone.size()) return std::nullopt;
  return folder.generic_string();
}

/// The tree or the file of the house in a commit; a tree or a file stands for itself.
std::variant<GitAccess::Object, FileError> GitAccess::house_in(
    Object revision, const std::string& name, std::optional<std::string>& folder_before) const {
  auto type = git_object_type(revision.get());
  if (type == GIT_OBJECT_TREE || type == GIT_OBJECT_BLOB) return revision;
  git_object* peeled = nullptr;
  if (git_object_peel(&peeled, revision.get(), GIT_OBJECT_TREE) != 0) return unknown_revision(name);
  Object tree(peeled);
  if (path_.empty()) return tree;
  git_tree_entry* found = nullptr;
  auto* whole = reinterpret_cast<git_tree*>(tree.get());
  const bool is_here = git_tree_entry_bypath(&found, whole, path_.c_str()) == 0;
  if (!is_here) {
    folder_before = folder_before_move(whole);
    if (!folder_before) return no_house(whole, name);
    if (folder_before->empty()) return tree;
    if (git_tree_entry_bypath(&found, whole, folder_before->c_str()) != 0) return no_house(whole, name);
  }
  TreeEntry entry(found);
  git_object* object = nullptr;
  if (git_tree_entry_to_object(&object, repository_.get(), entry.get()) != 0)
    return FileError{fmt::format("cannot read `{}` in the revision `{}`: {}", path_, name, last_git_error())};
  return Object(object);
}

std::variant<HouseFiles, FileError> GitAccess::read_house(const std::string& revision, const std::string&) {
  auto found = find(revision);
  if (auto* failure = std::get_if<FileError>(&found)) return *failure;
  HouseFiles result;
  auto object = house_in(std::move(std::get<Object>(found)), revision, result.folder_before_move);
  if (auto* failure = std::get_if<FileError>(&object)) return *failure;
  git_object* house = std::get<Object>(object).get();
  result.name = house_name_;
  if (git_object_type(house) == GIT_OBJECT_BLOB) {
    auto* blob = reinterpret_cast<git_blob*>(house);
    std::string name =
        path_.empty() ? revision.substr(revision.rfind(':') + 1) : fs::path(path_).filename().string();
    auto text = text_of(blob, name);
    if (auto* failure = std::get_if<FileError>(&text)) return *failure;
    result.files.push_back({name, std::move(std::get<std::string>(text))});
    return result;
  }
  auto files = TreeReader(repository_.get(), reinterpret_cast<git_tree*>(house)).read();
  if (auto* failure = std::get_if<FileError>(&files)) return *failure;
  result.files = std::move(std::get<std::vector<HouseFile>>(files));
  if (result.files.empty())
    return FileError{fmt::format("the revision `{}` holds no .gill file of the house", revision)};
  return result;
}

std::variant<std::vector<HouseFile>, FileError> GitAccess::files_of_index(bool only_skipped) const {
  git_index* found = nullptr;
  if (git_repository_index(&found, repository_.get()) != 0)
    return FileError{fmt::format("cannot read the index of the repository: {}", last_git_error())};
  Index index(found);
  std::vector<HouseFile> files;
  const bool is_file = path_.ends_with(".gill");
  const std::string folder = path_.empty() || is_file ? std::string() : path_ + "/";
  for (std::size_t i = 0; i < git_index_entrycount(index.get()); ++i) {
    const git_index_entry* entry = git_index_get_byindex(index.get(), i);
    std::string path = entry->path;
    bool is_of_house = is_file ? path == path_ : path.starts_with(folder) && path.ends_with(".gill");
    if (!is_of_house || git_index_entry_stage(entry) != 0 || entry->mode == GIT_FILEMODE_LINK) continue;
    if (only_skipped && (entry->flags_extended & GIT_INDEX_ENTRY_SKIP_WORKTREE) == 0) continue;
    std::string name = is_file ? fs::path(path).filename().string() : path.substr(folder.size());
    if (name.starts_with('.') || name.find("/.") != std::string::npos) continue;
    auto text = content_of(repository_.get(), &entry->id, path);
    if (auto* failure = std::get_if<FileError>(&text)) return *failure;
    files.push_back({std::move(name), std::move(std::get<std::string>(text))});
  }
  return files;
}

std::variant<HouseFiles, FileError> GitAccess::read_index() const {
  auto files = files_of_index(false);
  if (auto* failure = std::get_if<FileError>(&files)) return *failure;
  HouseFiles result;
  result.name = house_name_;
  result.files = std::move(std::get<std::vector<HouseFile>>(files));
  sort_by_path(result.files);
  if (result.files.empty()) return FileError{"the index holds no .gill file of the house"};
  return result;
}

std::variant<HouseFiles, FileError> GitAccess::read_working_tree(const std::string& house) const {
  auto read = DiskAccess().read_house(house, {});
  auto skipped = files_of_index(true);
  auto* more = std::get_if<std::vector<HouseFile>>(&skipped);
  if (!more || more->empty()) return read;
  HouseFiles result;
  result.name = house_name_;
  if (auto* files = std::get_if<HouseFiles>(&read)) result = std::move(*files);
  for (auto& file : *more) {
    const bool is_there = std::any_of(result.files.begin(), result.files.end(),
                                      [&](const HouseFile& one) { return one.path == file.path; });
    if (!is_there) result.files.push_back(std::move(file));
  }
  sort_by_path(result.files);
  return result;
}

bool GitAccess::has_revision(const std::string& name) const {
  return std::holds_alternative<Object>(find(name));
}

}  // namespace gill::driver

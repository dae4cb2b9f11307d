#pragma once
#include <memory>
#include <optional>

#include "driver/file_access.h"

struct git_repository;
struct git_object;
struct git_tree;
struct git_commit;

namespace gill::driver {

/// When a commit was made by its committer's own clock: `2026-06-01 18:30:05`.
std::string moment_of(const git_commit* commit);

/// A house as it stood in a revision of the git repository that holds it. Nothing is touched, and neither the
/// working tree nor the index is looked at, but by the two that read them.
class GitAccess final : public FileAccess {
 public:
  /// Opens the repository around a house's folder or file, at any depth of it. The error says that there is
  /// none, or why it cannot be opened.
  static std::variant<std::unique_ptr<GitAccess>, FileError> open(const std::string& house);
  ~GitAccess() override;
  GitAccess(const GitAccess&) = delete;
  GitAccess& operator=(const GitAccess&) = delete;

  /// The house in a revision, by any name that git has for it: a branch, a tag, a commit, `HEAD~3`,
  /// `main@{2026-06-01}`. A date means the last commit of the branch's own line (first parents) whose
  /// committer wrote that day or an earlier one, whatever clone it is asked of. `REVISION:PATH` reads another
  /// folder or file of the revision. The error of an unknown revision or folder names
  /// the nearest. Of a house that was moved since, the folder in which it stood is read.
  std::variant<HouseFiles, FileError> read_house(const std::string& revision,
                                                 const std::string& skipped_folder) override;

  /// The house as it stands in the index. The error says what cannot be read, or that the index holds none of
  /// it.
  std::variant<HouseFiles, FileError> read_index() const;
  /// The house as it lies on the disk at a path, with what a sparse checkout leaves in the index: to git that
  /// stands in the working tree as well.
  std::variant<HouseFiles, FileError> read_working_tree(const std::string& house) const;

  /// The house's path below the top of the repository; empty for the top itself.
  const std::string& path() const { return path_; }
  git_repository* repository() const { return repository_.get(); }

  /// True when the repository has a revision of that name.
  bool has_revision(const std::string& name) const;

 private:
  struct Free {
    void operator()(git_repository* repository) const;
    void operator()(git_object* object) const;
    void operator()(git_tree* tree) const;
  };
  using Object = std::unique_ptr<git_object, Free>;

  GitAccess();
  std::variant<Object, FileError> find(const std::string& revision) const;
  std::variant<Object, FileError> find_at_date(const std::string& branch, const std::string& date) const;
  std::variant<Object, FileError> house_in(Object revision, const std::string& name,
                                           std::optional<std::string>& folder_before) const;
  /// The files of the house in the index: all, or only those that a sparse checkout does not put on the disk.
  std::variant<std::vector<HouseFile>, FileError> files_of_index(bool only_skipped) const;
  FileError unknown_revision(const std::string& revision) const;
  std::optional<std::string> folder_before_move(git_tree* tree) const;
  FileError no_house(git_tree* tree, const std::string& revision) const;
  std::size_t first_parents(git_object* commit) const;

  std::unique_ptr<git_repository, Free> repository_;
  std::string path_;
  std::string house_name_;
};

}  // namespace gill::driver

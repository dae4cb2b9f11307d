#pragma once
#include <optional>
#include <string>
#include <vector>

/// What git was asked to compare: it tells an external diff no revision, but the line that called git names
/// them.
namespace gill::driver {

struct AskedOfGit {
  /// As they were written, at most two; of `A..B` and `A...B` both, an empty one as HEAD. What is no revision
  /// but a path may stand among them.
  std::vector<std::string> revisions;
  /// `A...B`, `--merge-base`: the first stands for what both come from.
  bool from_merge_base = false;
  /// `--cached`: the newer side is the index.
  bool is_cached = false;
  /// `--no-index`: two files, of no repository.
  bool is_beside_repository = false;
  /// `--relative=DIR`: paths are told as they are below it.
  std::string relative_to = {};
};

/// What a `git diff` with these words compares; nothing for another command, whose sides are not on its line.
std::optional<AskedOfGit> read_git_command(const std::vector<std::string>& words);

/// The same of the git that called this process, where the system shows it (`/proc`); nothing where it does
/// not.
std::optional<AskedOfGit> asked_of_git();

}  // namespace gill::driver

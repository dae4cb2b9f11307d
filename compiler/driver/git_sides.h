#pragma once
#include "driver/git_caller.h"
#include "driver/revision.h"

/// Which two states of a house git compares: it hands an external diff one path and the names of two objects,
/// and no revision.
namespace gill::driver {

/// One path as git hands it to an external diff. Paths are those below the top of the repository.
struct GitPath {
  std::string old_path, new_path;
  /// The object's name in hex: all zeros for a file of the working tree, empty where the path is not there.
  std::string old_object, new_object;
  /// How many paths git compares in all; 0 where it does not say.
  std::size_t path_count = 0;
  /// The two sides by their names, where they are known.
  std::optional<AskedOfGit> asked;
};

/// A whole house as it stands in one state.
struct GitSide {
  /// `the index`, `the working tree`, `3f2a1b7 of 2026-05-12`.
  std::string label;
  HouseFiles files;
};

struct GitSides {
  GitSide before, after;
  /// True where no two states that hold these objects differ in as many paths as git says: these are the
  /// likeliest.
  bool is_guess = false;
};

/// The two states: those that were asked for, where their names are known; else of index, working tree, a
/// commit with its parent, and any two commits, in this order and newest first, the first that hold the
/// objects at their paths and differ in as many paths as git compares (all of them, those of the house, or
/// the one). `house` is the folder or file on the disk. The error says that the path lies in no state that is
/// known, or why a house cannot be read.
std::variant<GitSides, FileError> find_git_sides(GitAccess& git, const GitPath& path,
                                                 const std::string& house);

/// A path below the top of a repository as one of the house in that folder (or of the house that is that
/// file); nothing where it lies outside.
std::optional<std::string> path_in_house(const std::string& whole, const std::string& folder);

/// The newest state that holds a file of this content under this name: the working tree, the index, else a
/// commit. Where none does, under any name: of a merge git hands over one side's file under the other's.
/// Nothing where none does.
std::optional<GitSide> newest_with(GitAccess& git, const std::string& file_name, const std::string& text,
                                   const std::string& house);

}  // namespace gill::driver

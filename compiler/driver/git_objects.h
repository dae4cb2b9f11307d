#pragma once
#include <git2.h>

#include <memory>

/// Owners of what libgit2 hands out. For the sources that read repositories alone.
namespace gill::driver::git {

template <typename Type, void (*release)(Type*)>
struct Release {
  void operator()(Type* object) const { release(object); }
};
template <typename Type, void (*release)(Type*)>
using Owned = std::unique_ptr<Type, Release<Type, release>>;

using Blob = Owned<git_blob, git_blob_free>;
using Commit = Owned<git_commit, git_commit_free>;
using Diff = Owned<git_diff, git_diff_free>;
using Index = Owned<git_index, git_index_free>;
using Reference = Owned<git_reference, git_reference_free>;
using Object = Owned<git_object, git_object_free>;
using Tree = Owned<git_tree, git_tree_free>;
using TreeEntry = Owned<git_tree_entry, git_tree_entry_free>;

/// The library's usual options of a comparison. Its own macro leaves out a field, of which clang warns.
inline git_diff_options usual_diff_options() {
  git_diff_options options;
  git_diff_options_init(&options, GIT_DIFF_OPTIONS_VERSION);
  return options;
}

}  // namespace gill::driver::git

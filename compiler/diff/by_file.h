#pragma once
#include <set>
#include <string>

#include "diff/changes.h"
#include "diff/snapshot.h"
#include "source/source_file.h"

/// Changes by the file that makes them: git asks for one file at a time.
namespace gill::diff {

/// One of the two houses with the files that it was read from.
struct FiledSnapshot {
  const Snapshot& snapshot;
  const source::SourceSet& sources;
};

/// The changes that one file makes, of which `paths` are the names on either side: of what is declared in it,
/// and of what lies in a file that is the same on both sides and follows from it. `changed` holds every file
/// that differs: each change stands with one of them, so that over all of them nothing is left out or told
/// twice.
Changes changes_of_file(const Changes& changes, const FiledSnapshot& before, const FiledSnapshot& after,
                        const std::set<std::string>& paths, const std::set<std::string>& changed);

}  // namespace gill::diff

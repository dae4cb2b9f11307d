#pragma once
#include "base/embedded_file.h"

namespace gill::importer {

/// The files of the small invented house that `gill new` makes, in the order of their paths.
const std::vector<base::EmbeddedFile>& new_house_files();

/// What lies beside it, so that the folder is at home in a repository: layout for editors, `git diff`, a hook
/// and a recipe for a build server. Those that begin with `#!` are programs.
const std::vector<base::EmbeddedFile>& new_repository_files();

}  // namespace gill::importer

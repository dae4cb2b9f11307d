#pragma once
#include "base/embedded_file.h"

namespace gill::importer {

/// The files of the small invented house that `gill new` makes, in the order of their paths.
const std::vector<base::EmbeddedFile>& new_house_files();

}  // namespace gill::importer

#pragma once
#include "base/embedded_file.h"

namespace gill::watch {

/// `banner.css`: the note that stands above a page while the house has errors.
const std::vector<base::EmbeddedFile>& style_sheets();

}  // namespace gill::watch

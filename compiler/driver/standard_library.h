#pragma once
#include "base/embedded_file.h"

namespace gill::driver {

/// Every file of the standard library, which the program carries inside, in the order of their paths.
const std::vector<base::EmbeddedFile>& standard_library();

}  // namespace gill::driver

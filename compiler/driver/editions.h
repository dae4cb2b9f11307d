#pragma once
#include <string>

#include "base/embedded_file.h"

namespace gill::driver {

/// `stdlib/editions.txt`, which the program carries inside: the library's edition, then the published tables
/// that figures rest on, one a line.
const std::vector<base::EmbeddedFile>& edition_files();

/// What `gill --version` prints below the program's own: the library's edition with how much it holds and a
/// fingerprint of its text, and the editions of the tables. Two programs that print the same here reckon
/// alike.
std::string editions_text();

}  // namespace gill::driver

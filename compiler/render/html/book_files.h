#pragma once
#include "base/embedded_file.h"

namespace gill::render::html {

/// What every page of the book is shown by: `book.css`, and `book.js`, without which a page shows all that it
/// has.
const std::vector<base::EmbeddedFile>& book_files();

}  // namespace gill::render::html

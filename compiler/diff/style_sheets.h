#pragma once
#include "base/embedded_file.h"

namespace gill::diff {

/// `changes.css`: what a page of changes needs beside the book's style sheet.
const std::vector<base::EmbeddedFile>& style_sheets();

}  // namespace gill::diff

#pragma once
#include <optional>
#include <string>
#include <vector>

#include "driver/file_access.h"
#include "render/book/book.h"

namespace gill::driver {

/// Puts a folder of files in place of an earlier one in a single exchange: whoever reads it, at any moment
/// and after a build that was killed, finds the whole old one or the whole new one. A folder that holds
/// anything but an earlier output of ours (told by its marker file) is refused, and so is a link, so that
/// nobody's files are lost. Two at once take turns. Nothing else is left behind, but for what a killed build
/// had begun, which the next one clears.
std::optional<FileError> replace_folder(const std::string& folder,
                                        const std::vector<render::OutputFile>& files);

}  // namespace gill::driver

#pragma once
#include <cstdint>
#include <string>
#include <variant>

#include "driver/file_access.h"

namespace gill::driver {

/// Offsets in a file are 32-bit; nothing of this size is a spec.
inline constexpr std::uintmax_t max_file_bytes = 1u << 30;

/// What is told of a file with more than `max_file_bytes`.
FileError too_large(const std::string& path);

/// The whole of one file, or what a pipe gives until its end. The error names the file and says why it cannot
/// be read, or that it is too large for anything of a house.
std::variant<std::string, FileError> read_file(const std::string& path);

}  // namespace gill::driver

#pragma once
#include <string>

#include "driver/file_access.h"

/// To which house a file belongs that somebody names alone.
namespace gill::driver {

/// The house around a folder of specs: the nearest folder, itself or above it, with a file that declares a
/// house; where none does, as far upwards as folders hold specs. The top of a repository is the last that is
/// looked at.
std::string house_around(const std::string& folder);

/// How many `house` declarations stand in its files.
std::size_t houses_declared(const HouseFiles& house);

}  // namespace gill::driver

#pragma once
#include <set>
#include <string>
#include <vector>

#include "driver/compile.h"
#include "tidy/tidy.h"

/// `gill tidy`: the files of a house written anew, and held to what they meant.
namespace gill::driver {

struct TidiedHouse {
  /// The files that change, in the order of the house, their paths relative to it.
  std::vector<HouseFile> files;
  /// Lines in error, which stand as they were.
  std::size_t unread_lines = 0;
  /// Declarations that keep their spelling, since another would have changed what they say.
  std::size_t kept = 0;
};

/// The files of a house as they may be written instead: all, or those of `only`. The whole house is compiled
/// again with them: its facts, its findings (but for their places) and all that a comparison of houses tells
/// are what they were. A declaration for which they are not keeps its words and gets its columns; where even
/// that would change a meaning, it is left alone.
TidiedHouse tidy_house(const HouseFiles& house, const std::set<std::string>* only = nullptr);

}  // namespace gill::driver

#pragma once
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <string>
#include <string_view>
#include <utility>

#include "support/fixture.h"

/// Golden files: whole outputs, kept beside the tests.
namespace gill::testing {

/// Golden files that hold nothing, and why. Any other empty one is an accident: it would pass for an output
/// that has gone missing.
inline constexpr std::pair<std::string_view, std::string_view> empty_on_purpose[] = {
    {"a_small_house.findings", "a sound house: the stages have nothing to say of it"},
    {"solved_amounts.findings", "a sound house: the stages have nothing to say of it"},
    {"variations.findings", "a sound house: the stages have nothing to say of it"},
    {"words_and_scripts.findings", "a sound house: the stages have nothing to say of it"},
};

/// Whether a golden file of that name may hold nothing.
inline bool may_be_empty(std::string_view name) {
  for (const auto& [allowed, reason] : empty_on_purpose)
    if (name == allowed) return true;
  return false;
}

/// Holds an output to the golden file at `path`. GILL_UPDATE=1 in the environment rewrites the file; the
/// review of that difference is the test.
inline void compare_with_golden(const std::string& path, const std::string& got) {
  const auto name = path.substr(path.rfind('/') + 1);
  INFO(name);
  const char* update = std::getenv("GILL_UPDATE");
  if (update != nullptr && std::string_view(update) == "1") std::ofstream(path, std::ios::binary) << got;
  const auto golden = read_file(path);
  CHECK(golden.empty() == may_be_empty(name));
  CHECK(got == golden);
}

}  // namespace gill::testing

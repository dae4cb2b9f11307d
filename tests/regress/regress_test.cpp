// A mended mistake keeps a file here, NUMBER-WHAT.gill, with what must be found in it said above the lines
// concerned.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "support/fixture.h"

TEST_CASE("what was mended once stays mended", "[regress]") {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(GILL_SOURCE_DIR "/tests/regress"))
    if (entry.path().extension() == ".gill") paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  REQUIRE_FALSE(paths.empty());
  for (const auto& path : paths) {
    INFO(path.filename().string());
    gill::testing::expect_findings(gill::testing::read_file(path.string()));
  }
}

// Every x.gill here is compiled and compared with what stands beside it: x.tree (syntax), x.names, x.units
// (typed declarations) and x.findings. GILL_UPDATE=1 in the environment rewrites them; the review of that
// diff is the test.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "diagnostics/render.h"
#include "support/fixture.h"
#include "support/golden.h"

namespace fs = std::filesystem;

namespace {

const fs::path folder = GILL_SOURCE_DIR "/tests/golden";

std::vector<fs::path> inputs() {
  std::vector<fs::path> paths;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".gill") paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

void compare(const fs::path& input, const char* extension, const std::string& got) {
  gill::testing::compare_with_golden(fs::path(input).replace_extension(extension).string(), got);
}

}  // namespace

TEST_CASE("every stage prints what its golden file says", "[golden]") {
  REQUIRE(inputs().size() >= 5);
  for (const auto& input : inputs()) {
    auto compiled =
        gill::testing::compile_files({{input.filename().string(), gill::testing::read_file(input.string())}});
    compare(input, ".tree", gill::syntax::dump(compiled.files.back(), compiled.sources));
    compare(input, ".names", gill::symbols::dump(compiled.names, compiled.sources));
    compare(input, ".units", gill::analysis::dump(compiled.specs, compiled.units));
    compare(input, ".findings", gill::diagnostics::render_text(compiled.sink.all(), compiled.sources, false));
  }
}

TEST_CASE("a golden file is called fail_ exactly when it has an error", "[golden]") {
  for (const auto& input : inputs()) {
    auto compiled = gill::testing::compile(gill::testing::read_file(input.string()));
    INFO(input.filename().string());
    CHECK(compiled.sink.has_errors() == input.filename().string().starts_with("fail_"));
  }
}

TEST_CASE("nothing stands beside no input", "[golden]") {
  for (const auto& entry : fs::directory_iterator(folder)) {
    auto path = entry.path();
    // Sources, and the outputs of the program with their own test.
    if (path.extension() == ".cpp" || path.extension() == ".py" || entry.is_directory()) continue;
    INFO(path.filename().string());
    CHECK(fs::exists(fs::path(path).replace_extension(".gill")));
  }
}

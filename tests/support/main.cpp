#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#include <filesystem>

#ifdef GILL_SANITIZED
/// What the leak sanitizer leaves aside: fontconfig notes where a pattern's values stand by how far they are
/// from the pattern, not by their address, so nothing seems to point at them. What Pango and Cairo hold is
/// still told.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig.so\n"; }
#endif

/// Test programs name files from the project's folder (GILL_SOURCE_DIR is "."), wherever they are started.
int main(int argc, char** argv) {
  std::filesystem::current_path(GILL_PROJECT_FOLDER);
  return Catch::Session().run(argc, argv);
}

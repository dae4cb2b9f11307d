#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#include <filesystem>

/// Test programs name files from the project's folder (GILL_SOURCE_DIR is "."), wherever they are started.
int main(int argc, char** argv) {
  std::filesystem::current_path(GILL_PROJECT_FOLDER);
  return Catch::Session().run(argc, argv);
}

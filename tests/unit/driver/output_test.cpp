#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "driver/output.h"

using namespace gill;
namespace fs = std::filesystem;

namespace {

/// A folder of its own for one test, gone at its end.
struct TemporaryFolder {
  fs::path path = fs::temp_directory_path() / ("gill-output-test-" + std::to_string(getpid()));
  TemporaryFolder() {
    fs::remove_all(path);
    fs::create_directories(path);
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
};

std::string read(const fs::path& path) {
  std::ifstream stream(path);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::size_t entries(const fs::path& folder) {
  std::size_t n = 0;
  for (const auto& entry : fs::directory_iterator(folder)) n += entry.exists() ? 1 : 0;
  return n;
}

}  // namespace

TEST_CASE("a build replaces an earlier one whole and leaves nothing beside it") {
  TemporaryFolder folder;
  std::string out = (folder.path / "book").string();
  REQUIRE_FALSE(driver::replace_folder(out, {{"index.html", "one"}, {"drinks/a.html", "a"}}));
  REQUIRE_FALSE(driver::replace_folder(out, {{"index.html", "two"}}));
  CHECK(read(folder.path / "book/index.html") == "two");
  CHECK_FALSE(fs::exists(folder.path / "book/drinks"));
  CHECK(entries(folder.path) == 1);
}

TEST_CASE("a folder with somebody's files is refused, and they stay") {
  TemporaryFolder folder;
  fs::create_directories(folder.path / "mine");
  std::ofstream(folder.path / "mine/notes.txt") << "mine";
  auto failure = driver::replace_folder((folder.path / "mine").string(), {{"index.html", "x"}});
  REQUIRE(failure);
  CHECK(failure->message.find("holds files that no build wrote") != std::string::npos);
  CHECK(read(folder.path / "mine/notes.txt") == "mine");
}

TEST_CASE("what a killed build left is cleared by the next") {
  TemporaryFolder folder;
  fs::create_directories(folder.path / ".book.building/old");
  std::string out = (folder.path / "book").string();
  REQUIRE_FALSE(driver::replace_folder(out, {{"index.html", "one"}}));
  CHECK(entries(folder.path) == 1);
}

TEST_CASE("a file in the way of an output folder is refused") {
  TemporaryFolder folder;
  std::ofstream(folder.path / "book") << "a file";
  CHECK(driver::replace_folder((folder.path / "book").string(), {{"index.html", "x"}}));
  CHECK(read(folder.path / "book") == "a file");
}

TEST_CASE("a link in place of an output folder is refused, and what it leads to stays") {
  TemporaryFolder folder;
  fs::create_directories(folder.path / "elsewhere");
  fs::create_directory_symlink("elsewhere", folder.path / "book");
  auto failure = driver::replace_folder((folder.path / "book").string(), {{"index.html", "x"}});
  REQUIRE(failure);
  CHECK(failure->message.find("is a link") != std::string::npos);
  CHECK(fs::is_symlink(folder.path / "book"));
  CHECK(entries(folder.path / "elsewhere") == 0);
}

TEST_CASE("builds of one folder at once leave one of them whole") {
  TemporaryFolder folder;
  std::string out = (folder.path / "book").string();
  auto build = [&](const std::string& content) {
    std::vector<render::OutputFile> files;
    for (int i = 0; i < 20; ++i) files.push_back({"drinks/" + std::to_string(i) + ".html", content});
    for (int i = 0; i < 25; ++i)
      if (driver::replace_folder(out, files)) return 1;
    return 0;
  };
  for (const char* content : {"one", "two"})
    if (fork() == 0) _exit(build(content));
  for (int i = 0; i < 2; ++i) {
    int status = -1;
    wait(&status);
    CHECK(status == 0);
  }
  std::string kept = read(folder.path / "book/drinks/0.html");
  CHECK((kept == "one" || kept == "two"));
  CHECK(entries(folder.path / "book/drinks") == 20);
  for (int i = 0; i < 20; ++i)
    CHECK(read(folder.path / ("book/drinks/" + std::to_string(i) + ".html")) == kept);
  CHECK(entries(folder.path) == 1);
}

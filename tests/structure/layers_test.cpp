// The folders below compiler/ are stages, and each sees only the ones below it. Linking holds most of that;
// this holds the headers, too.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>

#include "support/fixture.h"

namespace {

namespace fs = std::filesystem;

const std::string compiler = GILL_SOURCE_DIR "/compiler";

/// A stage and the highest ones that it may see, with all that those see.
const std::map<std::string, std::set<std::string>> highest_seen = {
    {"precompiled", {}},
    {"base", {}},
    {"source", {"base"}},
    {"diagnostics", {"source"}},
    {"syntax", {"diagnostics", "grammar"}},
    {"grammar", {}},
    {"symbols", {"syntax"}},
    {"units", {"symbols"}},
    {"analysis", {"units"}},
    {"tidy", {"analysis"}},
    {"model", {"analysis"}},
    {"lint", {"model"}},
    {"render", {"model"}},
    {"guide", {"render"}},
    {"print", {"render"}},
    {"costing", {"render"}},
    {"importer", {"costing"}},
    {"stock", {"costing"}},
    {"batch", {"costing", "print"}},
    {"plan", {"stock", "batch"}},
    {"diff", {"render"}},
    {"driver", {"tidy", "lint", "guide", "print", "plan", "importer", "diff"}},
    {"watch", {"driver"}},
    {"editor", {"driver"}},
    {"language_server", {"editor"}},
    {"cli", {"watch", "language_server"}},
};

void see(const std::string& folder, std::set<std::string>& seen) {
  if (!seen.insert(folder).second) return;
  for (const auto& below : highest_seen.at(folder)) see(below, seen);
}

std::set<std::string> seen_by(const std::string& folder) {
  std::set<std::string> seen;
  see(folder, seen);
  // The grammar is the syntax's own affair.
  if (folder != "syntax") seen.erase("grammar");
  return seen;
}

struct Source {
  std::string path;    ///< below compiler/
  std::string folder;  ///< the first part of it
  std::string text;
};

std::vector<Source> sources() {
  std::vector<Source> result;
  for (const auto& entry : fs::recursive_directory_iterator(compiler)) {
    auto extension = entry.path().extension();
    if (extension != ".h" && extension != ".cpp" && extension != ".def") continue;
    auto path = entry.path().lexically_relative(compiler);
    result.push_back(
        {path.string(), path.begin()->string(), gill::testing::read_file(entry.path().string())});
  }
  std::sort(result.begin(), result.end(), [](const Source& a, const Source& b) { return a.path < b.path; });
  return result;
}

/// The paths between the quotes (or the brackets) of every `#include` line.
std::vector<std::string> includes(const std::string& text, char open, char close) {
  std::vector<std::string> result;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("#include ")) continue;
    auto begin = line.find(open);
    if (begin == std::string::npos) continue;
    auto end = line.find(close, begin + 1);
    REQUIRE(end != std::string::npos);
    result.push_back(line.substr(begin + 1, end - begin - 1));
  }
  return result;
}

}  // namespace

TEST_CASE("there is something to hold to the list", "[structure]") {
  auto all = sources();
  CHECK(all.size() > 50);
  CHECK(includes("#include \"a/b.h\"\n#include <c>\n", '"', '"') == std::vector<std::string>{"a/b.h"});
  CHECK(seen_by("units").count("base") == 1);
  CHECK(seen_by("units").count("analysis") == 0);
  CHECK(seen_by("render").count("lint") == 0);
}

TEST_CASE("every stage stands in the list", "[structure]") {
  for (const auto& source : sources()) {
    INFO(source.path);
    CHECK(highest_seen.count(source.folder) == 1);
  }
}

TEST_CASE("no stage includes what it may not see", "[structure]") {
  for (const auto& source : sources()) {
    if (highest_seen.count(source.folder) == 0) continue;
    auto seen = seen_by(source.folder);
    for (const auto& path : includes(source.text, '"', '"')) {
      INFO(source.path << " includes " << path);
      CHECK(seen.count(path.substr(0, path.find('/'))) == 1);
    }
  }
}

TEST_CASE("an include in quotes is a file of the project, named from its root", "[structure]") {
  for (const auto& source : sources()) {
    for (const auto& path : includes(source.text, '"', '"')) {
      INFO(source.path << " includes " << path);
      CHECK((fs::exists(compiler + "/" + path) || fs::exists(GILL_SOURCE_DIR "/" + path)));
    }
    for (const auto& path : includes(source.text, '<', '>')) {
      INFO(source.path << " includes <" << path << ">");
      CHECK_FALSE(fs::exists(compiler + "/" + path));
    }
  }
}

TEST_CASE("the formulas include only each other", "[structure]") {
  std::size_t formulas = 0;
  for (const auto& source : sources()) {
    if (!source.path.starts_with("model/physics/")) continue;
    ++formulas;
    for (const auto& path : includes(source.text, '"', '"')) {
      INFO(source.path << " includes " << path);
      CHECK(path.starts_with("model/physics/"));
    }
  }
  CHECK(formulas > 10);
}

TEST_CASE("only the driver and the programs reach files, clock, environment and terminal", "[structure]") {
  const std::set<std::string> outward = {"driver", "watch", "language_server", "cli"};
  for (const auto& folder : outward) CHECK(highest_seen.count(folder) == 1);
  for (const auto& source : sources()) {
    if (outward.count(source.folder) == 1) continue;
    INFO(source.path);
    for (const auto& path : includes(source.text, '<', '>'))
      for (const char* header :
           {"fstream", "filesystem", "iostream", "cstdio", "ctime", "thread", "unistd.h", "random"})
        CHECK(path != header);
    for (const char* call : {"getenv", "system_clock", "steady_clock", "std::rand"})
      CHECK(source.text.find(call) == std::string::npos);
  }
}

TEST_CASE("every header is read once", "[structure]") {
  for (const auto& source : sources()) {
    if (!source.path.ends_with(".h")) continue;
    INFO(source.path);
    CHECK_THAT(source.text, Catch::Contains("#pragma once"));
  }
}

TEST_CASE("the library of a stage links what the list says", "[structure]") {
  // gill_stage(NAME USES gill_A gill_B …) in compiler/CMakeLists.txt is the same list once more.
  std::istringstream lines(gill::testing::read_file(compiler + "/CMakeLists.txt"));
  std::size_t stages = 0;
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("gill_stage(")) continue;
    ++stages;
    std::istringstream words(line.substr(11));
    std::string folder, word;
    words >> folder;
    INFO(line);
    REQUIRE(highest_seen.count(folder) == 1);
    auto seen = seen_by(folder);
    while (words >> word)
      if (word.starts_with("gill_")) CHECK(seen.count(word.substr(5, word.find(')') - 5)) == 1);
  }
  CHECK(stages >= 9);
}

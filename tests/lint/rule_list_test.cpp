// The list of rules, their source files, their pages, their fixtures and the list for developers are one set.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>
#include <set>
#include <sstream>

#include "lint/lint.h"
#include "support/fixture.h"

using namespace gill;
using Names = std::set<std::string>;

namespace {

const std::string root = GILL_SOURCE_DIR "/";

/// One line of diagnostics/registry.def.
struct Listed {
  std::string identifier, name, stages;
  bool is_lint;
};

const std::vector<Listed>& listed() {
  static const std::vector<Listed> rules = {
#define LINT_RULE(identifier, name, severity, group, checks, amounts, summary) \
  {#identifier, name, "lint", true},
#define STAGE_RULE(identifier, name, severity, group, stages, summary) {#identifier, name, stages, false},
#include "diagnostics/registry.def"
  };
  return rules;
}

/// Names of the files of one kind in a folder, without their ending.
Names stems_in(const std::string& folder, const std::string& extension) {
  Names stems;
  for (const auto& entry : std::filesystem::directory_iterator(root + folder))
    if (entry.path().extension() == extension) stems.insert(entry.path().stem().string());
  return stems;
}

template <typename Select>
Names select(Select name_of) {
  Names names;
  for (const auto& rule : listed())
    if (std::string name = name_of(rule); !name.empty()) names.insert(name);
  return names;
}

/// The stages whose sources name a rule, in the pipeline's order and a space apart.
std::string stages_that_report(const std::string& identifier) {
  static const std::vector<std::pair<std::string, std::string>> sources = [] {
    std::vector<std::pair<std::string, std::string>> texts;
    for (const char* stage : {"syntax", "symbols", "units", "analysis", "model", "lint"}) {
      std::string text;
      for (const auto& entry : std::filesystem::recursive_directory_iterator(root + "compiler/" + stage))
        if (entry.path().extension() == ".cpp") text += testing::read_file(entry.path().string());
      texts.emplace_back(stage, text);
    }
    return texts;
  }();
  const std::regex use("Rule::" + identifier + "\\b");
  std::string stages;
  for (const auto& [stage, text] : sources)
    if (std::regex_search(text, use)) stages += (stages.empty() ? "" : " ") + stage;
  return stages;
}

}  // namespace

TEST_CASE("a rule of lint, and no other, has a source file of its name", "[lint]") {
  CHECK(stems_in("compiler/lint/rules", ".cpp") ==
        select([](const Listed& rule) { return rule.is_lint ? rule.identifier : std::string(); }));
  CHECK(lint::all_checks().size() == stems_in("compiler/lint/rules", ".cpp").size());
}

TEST_CASE("every rule has its page and its fixture, and each of them its rule", "[lint]") {
  CHECK(stems_in("compiler/lint/rules", ".md") == select([](const Listed& rule) { return rule.identifier; }));
  CHECK(stems_in("tests/lint", ".gill") == select([](const Listed& rule) { return rule.name; }));
}

TEST_CASE("a rule's name is its identifier with hyphens", "[lint]") {
  for (const auto& rule : listed()) {
    std::string name = rule.identifier;
    std::replace(name.begin(), name.end(), '_', '-');
    CHECK(rule.name == name);
  }
}

TEST_CASE("the list says which stages report a rule that lint does not judge", "[lint]") {
  for (const auto& rule : listed()) {
    if (rule.is_lint) continue;
    INFO(rule.name);
    CHECK(rule.stages == stages_that_report(rule.identifier));
  }
}

TEST_CASE("the developers' list names every rule in its group", "[lint]") {
  std::istringstream lines(testing::read_file(root + "DEVELOPERS.md"));
  const std::regex heading("- \\*\\*(\\w+)\\*\\*: `.*"), quoted("`([a-z-]+)`");
  std::set<std::pair<std::string, std::string>> written, wanted;
  std::string group;
  for (std::string line; std::getline(lines, line);) {
    std::smatch match;
    if (std::regex_match(line, match, heading))
      group = match[1];
    else if (!line.starts_with("  `"))
      group.clear();
    if (group.empty()) continue;
    for (std::sregex_iterator at(line.begin(), line.end(), quoted), end; at != end; ++at)
      written.emplace(group, (*at)[1]);
  }
#define RULE(identifier, name, severity, group, stages, summary) wanted.emplace(#group, name);
#include "diagnostics/registry.def"
#undef RULE
  CHECK(written == wanted);
}

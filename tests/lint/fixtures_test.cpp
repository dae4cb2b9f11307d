// tests/lint/NAME.gill: what the rule NAME finds, and what it leaves alone. A comment above a line says what
// is found there: `# warning: [rule]`, and words of its message or help after it. Only the file's own rule is
// compared, and every finding of it must be expected. What all of them say stands in fixtures.told, which
// GILL_UPDATE=1 rewrites.
#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <regex>
#include <sstream>

#include "linted.h"
#include "support/golden.h"

using namespace gill;

namespace {

struct Expected {
  std::size_t line;
  std::string severity, words;
};

std::vector<Expected> expectations(const std::string& text, const std::string& rule) {
  static const std::regex form(R"(\s*# (error|warning|note): \[([a-z-]+)\]\s*(.*))");
  std::vector<Expected> expected, waiting;
  std::istringstream lines(text);
  std::string line;
  for (std::size_t number = 1; std::getline(lines, line); ++number) {
    std::smatch match;
    if (std::regex_match(line, match, form)) {
      if (match[2] == rule) waiting.push_back({0, match[1], match[3]});
      continue;
    }
    for (auto& one : waiting) {
      one.line = number;
      expected.push_back(one);
    }
    waiting.clear();
  }
  return expected;
}

}  // namespace

TEST_CASE("fixtures show what each rule finds and what it leaves alone", "[lint]") {
  std::string told;
  for (const auto& [path, text] : testing::files_below("tests/lint", ".gill")) {
    std::string rule = path.substr(0, path.size() - std::string(".gill").size());
    INFO(path);
    REQUIRE(diagnostics::find_rule(rule));
    auto house = testing::linted(text);
    INFO(testing::all_findings(*house));
    auto expected = expectations(text, rule);
    std::vector<std::string> want, found;
    for (const auto& one : expected) want.push_back(fmt::format("{} {}", one.severity, one.line));
    std::size_t at = 0;
    for (const auto& finding : house->findings) {
      if (diagnostics::info(finding.rule).name != rule) continue;
      auto line = house->sources[finding.span.file_id].place_of(finding.span).line;
      found.push_back(fmt::format("{} {}", diagnostics::name_of(finding.severity), line));
      told += fmt::format("{}:{}: {}\n  {}\n", path, line, finding.message, finding.help);
      if (at < expected.size() && !expected[at].words.empty()) {
        INFO(finding.message << " | " << finding.help);
        CHECK((finding.message + " " + finding.help).find(expected[at].words) != std::string::npos);
      }
      ++at;
    }
    CHECK(found == want);
  }
  // Every message and help, word for word.
  testing::compare_with_golden(GILL_SOURCE_DIR "/tests/lint/fixtures.told", told);
}

TEST_CASE("every rule has a fixture in which it is found", "[lint]") {
  std::map<std::string, std::string> fixtures;
  for (auto& [path, text] : testing::files_below("tests/lint", ".gill")) fixtures[path] = text;
  for (auto rule : diagnostics::all_rules()) {
    std::string name(diagnostics::info(rule).name);
    INFO(name);
    REQUIRE(fixtures.count(name + ".gill"));
    CHECK(!expectations(fixtures[name + ".gill"], name).empty());
  }
}

// Nothing is ever cleared: no message, help, page or summary says that something is in order.
#include <catch2/catch.hpp>
#include <regex>

#include "base/text.h"
#include "lint/hazards.h"
#include "lint/pages.h"
#include "linted.h"
#include "render/document/shared_parts.h"
#include "support/clearing_words.h"
#include "support/fixture.h"

using namespace gill;
using testing::clearing_words_in;

namespace {

/// The string literals of a source file, `//` comments aside.
std::string literals(const std::string& source) {
  static const std::regex form(R"rx("((?:[^"\\\n]|\\.)*)")rx");
  std::string text;
  std::size_t from = 0;
  while (from < source.size()) {
    auto end = std::min(source.find('\n', from), source.size());
    std::string line = source.substr(from, end - from);
    from = end + 1;
    if (base::trim(line).starts_with("//") || base::trim(line).starts_with("#include")) continue;
    for (std::sregex_iterator at(line.begin(), line.end(), form), none; at != none; ++at)
      text += (*at)[1].str() + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("the words that clear are found where they stand", "[lint]") {
  CHECK(testing::clearing_words().size() > 30);
  CHECK(clearing_words_in("this is Safe to drink").size() == 1);
  CHECK(clearing_words_in("free from nuts, approved for all").size() == 2);
  CHECK(clearing_words_in("thujone-free in the United States, alcohol-free, unsafely, surpassed").empty());
  CHECK(clearing_words_in("Passed") == std::vector<std::string>{"passed"});
  CHECK(clearing_words_in("egg ✓, milk") == std::vector<std::string>{"✓"});
  CHECK(clearing_words_in("").empty());
}

TEST_CASE("no page clears anything", "[lint]") {
  for (const auto& page : lint::rule_pages()) {
    INFO(page.path);
    CHECK(clearing_words_in(std::string(page.text)).empty());
  }
}

TEST_CASE("no summary and no hazard clears anything", "[lint]") {
  for (auto rule : diagnostics::all_rules()) {
    INFO(diagnostics::info(rule).name);
    CHECK(clearing_words_in(std::string(diagnostics::info(rule).summary)).empty());
  }
  for (const auto& hazard : lint::all_hazards()) {
    INFO(hazard.what);
    CHECK(!hazard.names.empty());
    CHECK(clearing_words_in(std::string(hazard.what)).empty());
    CHECK(!hazard.source.empty());
  }
}

TEST_CASE("no message and no help in the sources of lint clears anything", "[lint]") {
  std::size_t files = 0;
  for (const std::string folder : {"compiler/lint", "compiler/lint/rules"})
    for (const auto& [path, text] : testing::files_below(folder, ".cpp")) {
      INFO(folder << "/" << path);
      CHECK(clearing_words_in(literals(text)).empty());
      ++files;
    }
  CHECK(files > 50);
}

TEST_CASE("every safety finding defers to the local code or the licence and says where its figure comes from",
          "[lint]") {
  for (auto rule : diagnostics::all_rules()) {
    if (diagnostics::info(rule).group != diagnostics::RuleGroup::safety) continue;
    auto name = diagnostics::info(rule).name;
    auto examples = testing::examples_of(lint::page_of(rule).value_or(""));
    REQUIRE(!examples.empty());
    auto house = testing::linted(examples[0]);
    for (const auto& finding : house->findings) {
      if (finding.rule != rule) continue;
      INFO(name << ": " << finding.help);
      bool defers = finding.help.find("ocal") != std::string::npos ||
                    finding.help.find("licence") != std::string::npos ||
                    finding.help.find("trained person") != std::string::npos;
      CHECK(defers);
      CHECK(clearing_words_in(finding.message + " " + finding.help).empty());
    }
  }
}

TEST_CASE("every rule of safety has its words for pages and labels, and no other has", "[lint]") {
  for (auto rule : diagnostics::all_rules()) {
    const auto& info = diagnostics::info(rule);
    INFO(info.name);
    const std::string words(render::document::caution_words(rule));
    CHECK(words.empty() == (info.group != diagnostics::RuleGroup::safety));
    CHECK(clearing_words_in(words).empty());
  }
}

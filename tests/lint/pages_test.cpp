// Every rule has its page, and what the page shows is true.
#include <catch2/catch.hpp>

#include "lint/pages.h"
#include "linted.h"

using namespace gill;
using testing::all_findings;
using testing::findings_of;

TEST_CASE("every rule has a page that begins with its name and ends with its source", "[lint]") {
  for (auto rule : diagnostics::all_rules()) {
    std::string name(diagnostics::info(rule).name);
    INFO(name);
    auto page = lint::page_of(rule);
    REQUIRE(page);
    CHECK(page->starts_with("# " + name + "\n\nFinds "));
    CHECK(page->find("\nSource: ") != std::string_view::npos);
    CHECK(page->find("\nMended:\n") != std::string_view::npos);
    CHECK(testing::examples_of(*page).size() == 2);
  }
}

TEST_CASE("every page is that of a rule", "[lint]") {
  CHECK(lint::rule_pages().size() == diagnostics::all_rules().size());
}

TEST_CASE("a page's first example raises its rule, and the mended text does not", "[lint]") {
  for (auto rule : diagnostics::all_rules()) {
    auto examples = testing::examples_of(lint::page_of(rule).value_or(""));
    REQUIRE(examples.size() == 2);
    auto name = diagnostics::info(rule).name;
    {
      auto house = testing::linted(examples[0]);
      INFO(name << ", example:\n" << examples[0] << all_findings(*house));
      CHECK(!findings_of(*house, name).empty());
    }
    {
      auto house = testing::linted(examples[1]);
      INFO(name << ", mended:\n" << examples[1] << all_findings(*house));
      CHECK(findings_of(*house, name).empty());
      CHECK(!house->has_errors());
    }
  }
}

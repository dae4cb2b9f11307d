// Well-made drinks raise nothing: the public classics, the demo house aside from what is said here.
#include <catch2/catch.hpp>

#include "linted.h"

using namespace gill;

TEST_CASE("public classics raise no finding that is not allowed with its reason", "[lint]") {
  std::size_t drinks = 0;
  for (const auto& [path, text] : testing::files_below("tests/lint/classics", ".gill")) {
    auto house = testing::linted(text);
    INFO(path << "\n" << testing::all_findings(*house));
    CHECK(house->findings.empty());
    for (const auto& drink : house->specs.drinks) drinks += drink.head.from_library ? 0 : 1;
  }
  CHECK(drinks >= 24);
}

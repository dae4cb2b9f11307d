#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "house_fixture.h"

using namespace gill;
using diagnostics::Rule;
using test::compile;
using test::count;

TEST_CASE("an empty file is an empty house") {
  auto house = compile("");
  CHECK(house->findings.empty());
  CHECK(house->specs.drinks.empty());
}

TEST_CASE("five thousand preps in a chain are worked out without recursion") {
  std::string text = "prep p0\n  100 g white sugar\n  100 g water\n  stir\n  keeps 9 d chilled\n";
  for (int i = 1; i < 5000; ++i)
    text += fmt::format("prep p{}\n  100 ml p{}\n  1 g water\n  stir\n  keeps 9 d chilled\n", i, i - 1);
  auto house = compile(text);
  CHECK_FALSE(house->has_errors());
  CHECK(test::stock(*house, "p4999").sugar_g_per_100ml > 0);
}

TEST_CASE("a circle of five thousand preps is told and nothing hangs") {
  std::string text;
  for (int i = 0; i < 5000; ++i) text += fmt::format("prep p{}\n  100 ml p{}\n", i, (i + 1) % 5000);
  auto house = compile(text);
  CHECK(count(*house, Rule::name_cycle) == 1);
}

TEST_CASE("twenty thousand drinks, each like the one before, are read") {
  std::string text = "drink d0\n  50 ml vodka\n  stir 30 s\n  strain\n";
  for (int i = 1; i < 20000; ++i) text += fmt::format("drink d{} like d{}\n", i, i - 1);
  auto house = compile(text);
  CHECK(test::drink(*house, "d19999").mixed.volume_ml == Approx(50));
}

TEST_CASE("absurd amounts give findings and no nonsense") {
  auto house = compile(
      "drink A\n  99999999999999999999999999999999999999 l vodka\n  shake 99999999 d\n  strain\n"
      "drink B\n  0 ml vodka\n  shake 0 s\n  strain\n"
      "drink C\n  0.0000000000000000000000000001 ml vodka\n  stir 30 s\n  strain\n");
  for (const auto& facts : house->facts.drinks) {
    CHECK(std::isfinite(facts.served.abv_percent));
    CHECK(std::isfinite(facts.served.temperature_c));
  }
}

TEST_CASE("a drink of nothing but steps has figures of nothing") {
  auto house = compile("drink A\n  shake 12 s\n  strain\n  garnish none\n");
  CHECK(test::drink(*house, "A").served.volume_ml == 0);
}

TEST_CASE("one run reports the bad lines of every file") {
  auto house = compile(
      {{"a.gill", "drink A\n  60 mll vodka\n"}, {"b.gill", "drink B\n  60 ml vodkka\n  shakke 12 s\n"}});
  CHECK(count(*house, Rule::unknown_unit) == 1);
  CHECK(count(*house, Rule::unknown_name) == 1);
  CHECK(count(*house, Rule::unknown_word) == 1);
}

TEST_CASE("an allow quiets its rule, and one that quiets nothing is idle") {
  std::string egg =
      "drink A\n  50 ml vodka\n  1 egg white\n  22.5 ml lemon juice\n  15 ml simple syrup\n  dry shake 10 "
      "s\n  shake 12 s\n  strain\n";
  CHECK(count(*compile(egg), Rule::raw_egg) == 1);
  auto allowed = compile(egg + "  allow raw-egg because \"on the menu\"\n");
  CHECK(count(*allowed, Rule::raw_egg) == 0);
  CHECK(allowed->suppressed.size() >= 1);
  CHECK(count(*compile("drink A\n  50 ml vodka\n  stir 30 s\n  strain\n  allow raw-egg because \"none\"\n"),
              Rule::idle_allow) == 1);
  CHECK(count(*compile(egg + "  allow raw-egg\n"), Rule::no_reason) == 1);
}

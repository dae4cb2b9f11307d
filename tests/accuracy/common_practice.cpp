#include <catch2/catch.hpp>

#include "accuracy/table.h"
#include "unit/driver/house_fixture.h"

// What every bar knows and no book states: common practice, no source.

using namespace gill;
using namespace gill::accuracy;
using diagnostics::Rule;

namespace {

constexpr std::string_view practice = "Common practice, no source";

/// What a drink's first line comes to.
const model::Entry& first_line(const driver::Compilation& house) {
  return test::drink(house, "A").entries.at(0);
}

/// The words of the first finding of a rule; empty where there is none.
std::string words_of(const driver::Compilation& house, Rule rule) {
  for (const auto& finding : house.findings)
    if (finding.rule == rule) return finding.message + " " + finding.help;
  return {};
}

}  // namespace

TEST_CASE("a bar ounce of 30 ml makes 3/4 oz 22.5 ml and 1/4 oz 7.5 ml", "[accuracy]") {
  Table table({"common_practice-ounce", practice, "fractions of a bar ounce of 30 ml", "ml"}, within(1e-9));
  table.add("3/4 oz", 22.5, first_line(*test::compile("drink A\n  3/4 oz lemon juice\n")).volume_ml.value());
  table.add("1/4 oz", 7.5, first_line(*test::compile("drink A\n  1/4 oz lemon juice\n")).volume_ml.value());
  table.add("1 1/2 oz", 45,
            first_line(*test::compile("drink A\n  1 1/2 oz lemon juice\n")).volume_ml.value());
  table.check();
}

TEST_CASE(
    "cards that write 22 ml for 3/4 oz and 7 ml for 1/4 oz differ by 2 % and 7 %, and only the second is "
    "told",
    "[accuracy]") {
  const auto three_quarters = test::compile("drink A\n  3/4 oz = 22 ml lemon juice\n");
  const auto quarter = test::compile("drink A\n  1/4 oz = 7 ml lemon juice\n");
  Table table(
      {"common_practice-rounded-cards", practice, "cards rounded to whole millilitres, too little by", "%"},
      within(0.5));
  table.add("22 ml for 3/4 oz", 2, 100 * (1 - 22 / first_line(*three_quarters).volume_ml.value()));
  table.add("7 ml for 1/4 oz", 7, 100 * (1 - 7 / first_line(*quarter).volume_ml.value()));
  table.check();
  CHECK(test::count(*three_quarters, Rule::unequal_measures) == 0);
  CHECK(test::count(*quarter, Rule::unequal_measures) == 1);
}

TEST_CASE("a fat wash of 375 ml of spirit with 120 g of oil returns about 300 ml", "[accuracy]") {
  const auto house = test::compile(
      "prep washed rye\n  375 ml rye whiskey\n  120 g toasted sesame oil\n  shake 30 s\n  rest 4 h at 20 C\n"
      "  freeze 12 h at -18 C\n  remove toasted sesame oil\n  fine strain\n  keeps 30 d chilled\n");
  Table table(
      {"common_practice-fat-wash", practice, "375 ml of spirit washed with 120 g of oil returns", "ml"},
      within(10));
  table.add("washed rye", 300, test::stock(*house, "washed rye").yield_ml);
  table.check();
}

TEST_CASE("four fluid ounces of oil weigh about 108 g, not 120 g, and the check says so", "[accuracy]") {
  Table table({"common_practice-oil", practice, "weight of 4 US fluid ounces of oil", "g"}, within(1.5));
  for (const char* oil : {"olive oil", "rapeseed oil", "sunflower oil", "toasted sesame oil"})
    table.add(oil, 108,
              first_line(*test::compile(std::string("drink A\n  4 us oz ") + oil + "\n")).mass_g.value());
  table.check();
  CHECK(test::count(*test::compile("drink A\n  4 us oz = 108 g olive oil\n"), Rule::unequal_measures) == 0);
  const auto as_water = test::compile("drink A\n  4 us oz = 120 g olive oil\n");
  REQUIRE(test::count(*as_water, Rule::unequal_measures) == 1);
  CHECK_THAT(words_of(*as_water, Rule::unequal_measures), Catch::Contains("108"));
}

TEST_CASE("one large egg white is about 30 ml", "[accuracy]") {
  Table table({"common_practice-egg-white", practice, "one large egg white", "ml"}, within(1));
  table.add("1 egg white", 30, first_line(*test::compile("drink A\n  1 egg white\n")).volume_ml.value());
  table.check();
}

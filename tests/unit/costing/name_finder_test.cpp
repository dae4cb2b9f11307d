#include "costing/name_finder.h"

#include <catch2/catch.hpp>

#include "unit/plan/plan_fixture.h"

using namespace gill;
using Names = std::vector<std::string>;

namespace {

constexpr std::string_view shelf =
    "ingredient weir river gin\n  kind spirit\n  aka river gin\n"
    "ingredient weir river rum\n  kind spirit\n"
    "ingredient weir stout ale\n  kind beer\n";

}  // namespace

TEST_CASE("a name or another of its names is found, whatever its case") {
  testing::EvaluatedHouse house(shelf);
  costing::NameFinder finder(house.house, symbols::NameSpace::stock);
  CHECK(finder.find("Weir River Gin") == house.stock("weir river gin").index());
  CHECK(finder.find("river gin") == house.stock("weir river gin").index());
  CHECK_FALSE(finder.find("weir river"));
}

TEST_CASE(
    "near a name are those that share most of its words, then those spelt most like it, three at most") {
  testing::EvaluatedHouse house(shelf);
  costing::NameFinder finder(house.house, symbols::NameSpace::stock);
  auto near = finder.nearest("river gin weir dry");
  REQUIRE(near.size() == 3);
  CHECK(near[0] == "weir river gin");
  CHECK(near[1] == "weir river rum");
  CHECK(finder.nearest("wier stuot aile").front() == "weir stout ale");
  CHECK(finder.nearest("xyzzyxyzzy").empty());
}

TEST_CASE("a name that is nowhere is told with those near it") {
  testing::EvaluatedHouse house(shelf);
  costing::NameFinder finder(house.house, symbols::NameSpace::stock);
  CHECK(finder.unmatched("xyzzyxyzzy", "bottle") == "No bottle is called `xyzzyxyzzy`.");
  CHECK_THAT(finder.unmatched("weir stout", "bottle"),
             Catch::StartsWith("No bottle is called `weir stout`; near it `weir stout ale`") &&
                 Catch::EndsWith(". Add an `aka` line, or correct the name."));
}

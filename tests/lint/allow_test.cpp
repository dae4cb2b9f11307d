#include <catch2/catch.hpp>

#include "linted.h"

using gill::testing::count;
using gill::testing::linted;

namespace {

constexpr const char* bare = R"(drink Night Porter
  glass    coupe
  60 ml    rye whiskey
  stir     30 s
  strain
)";

std::string with(const std::string& lines) { return bare + lines; }

}  // namespace

TEST_CASE("an allow quiets its rule in its declaration and is kept", "[lint]") {
  auto house = linted(with("  allow no-garnish because \"undecided\"\n"));
  CHECK(count(bare, "no-garnish") == 1);
  CHECK(gill::testing::findings_of(*house, "no-garnish").empty());
  CHECK(gill::testing::findings_of(*house, "idle-allow").empty());
  REQUIRE(house->suppressed.size() == 1);
  CHECK(gill::diagnostics::info(house->suppressed[0].rule).name == "no-garnish");
}

TEST_CASE("an allow of another declaration quiets nothing", "[lint]") {
  std::string text = with(
      "\ndrink Early Porter\n  60 ml aged rum\n  stir 30 s\n  strain\n  garnish none\n  allow no-garnish "
      "because \"elsewhere\"\n");
  CHECK(count(text, "no-garnish") == 1);
  CHECK(count(text, "idle-allow") == 1);
}

TEST_CASE("like brings no allow with it", "[lint]") {
  std::string text = with(
      "  allow no-garnish because \"undecided\"\n\ndrink Early Porter like Night Porter\n  swap rye whiskey "
      "-> aged rum\n");
  CHECK(count(text, "no-garnish") == 1);
  CHECK(count(text, "idle-allow") == 0);
}

TEST_CASE("an allow of a rule that an earlier stage raises is judged too", "[lint]") {
  std::string prep = "prep weak honey\n  500 g honey\n  500 g water\n  keeps 7 d chilled\n";
  std::string allow = "  allow measured-differs because \"the meter is away\"\n";
  CHECK(count(prep + "  sugar 70 brix\n", "measured-differs") == 1);
  CHECK(count(prep + "  sugar 70 brix\n" + allow, "measured-differs") == 0);
  CHECK(count(prep + "  sugar 70 brix\n" + allow, "idle-allow") == 0);
  CHECK(count(prep + allow, "idle-allow") == 1);
}

TEST_CASE("in a declaration that is in error no allow is idle", "[lint]") {
  std::string text =
      with("  22,5 ml lemon juice\n  garnish none\n  allow spirits-shaken because \"meant\"\n");
  CHECK(count(text, "bad-number") == 1);
  CHECK(count(text, "idle-allow") == 0);
}

TEST_CASE("an idle allow can itself be allowed", "[lint]") {
  std::string text = with(
      "  garnish none\n  allow no-garnish because \"kept for the summer list\"\n  allow idle-allow because "
      "\"the summer list\"\n");
  CHECK(count(text, "idle-allow") == 0);
  CHECK(count(with("  garnish none\n  allow idle-allow because \"nothing\"\n"), "idle-allow") == 1);
}

TEST_CASE("a suppressed caution is still handed on", "[lint]") {
  auto house = linted(R"(drink Bench White
  glass      coupe
  60 ml      London dry gin
  25 ml      lemon juice
  1          egg white
  dry shake  15 s
  shake      12 s
  strain
  garnish    none
  allow      raw-egg because "said on the menu"
)");
  CHECK(gill::testing::findings_of(*house, "raw-egg").empty());
  bool kept = false;
  for (const auto& finding : house->suppressed)
    kept = kept || gill::diagnostics::info(finding.rule).name == "raw-egg";
  CHECK(kept);
}

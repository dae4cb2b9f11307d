#include "analysis/typo.h"

#include <catch2/catch.hpp>

#include "support/fixture.h"

using gill::analysis::one_typo_away;
using gill::testing::compile;
using gill::testing::findings;

TEST_CASE("a slip is a letter left out, struck twice, struck wrong or changed over", "[fix]") {
  auto typos = one_typo_away("limee");
  for (const char* meant : {"lime", "limes", "limeye", "limes e", "ilmee"}) {
    INFO(meant);
    CHECK(typos.count(meant) == (std::string(meant) != "limes e"));
  }
  CHECK_FALSE(typos.count("limee"));
}

TEST_CASE("short words, long ones and other scripts are no slips", "[fix]") {
  CHECK(one_typo_away("nl").empty());
  CHECK(one_typo_away(std::string(100, 'a')).empty());
  CHECK(one_typo_away("crème").empty());
}

namespace {

/// What the first finding of a drink with that line would put there, `safe` or not; empty without a
/// correction.
std::string correction(const std::string& line) {
  auto compiled = compile("drink X\n  " + line + "\n");
  REQUIRE_FALSE(compiled.sink.all().empty());
  const auto& fix = compiled.sink.all().front().fix;
  if (!fix) return {};
  REQUIRE(fix->edits.size() == 1);
  return fix->edits[0].text + (fix->safe ? ", safe" : "");
}

}  // namespace

TEST_CASE("a correction is safe where only one thing can be meant", "[fix]") {
  CHECK(correction("22,5 ml lime juice") == "22.5, safe");
  CHECK(correction("0,125 ml lime juice") == "0.125, safe");
  CHECK(correction("1,000 ml lime juice") == "1000");
  CHECK(correction("1,000.5 ml lime juice") == "1000.5");
  CHECK(correction("1-1/2 oz lime juice") == "1 1/2");
  CHECK(correction("60 mll lime juice") == "ml, safe");
  CHECK(correction("2 dashse aromatic bitters") == "dashes, safe");
  CHECK(correction("60 ml lime jiuce") == "lime juice, safe");
  CHECK(correction("glass coupee") == "coupe, safe");
  CHECK(correction("shak 12 s") == "shake, safe");
  CHECK(correction("dobule strain") == "double, safe");
  CHECK(correction("60 ml xylophone").empty());
  CHECK(correction("allergen mlk").empty());
}

TEST_CASE("a line's mistakes are all reported, each once", "[fix]") {
  CHECK(findings("drink X\n  22,5 mll lime jiuce, or lemon jiuce, at 20 ml\n") ==
        std::vector<std::string>{"bad-number 2:3-4", "unknown-unit 2:8-3", "unknown-name 2:12-10",
                                 "unknown-name 2:27-11", "wrong-kind 2:43-5"});
  CHECK(findings("drink X\n  batched agd rum, lime jiuce\n") ==
        std::vector<std::string>{"unknown-name 2:11-7", "unknown-name 2:20-10"});
}

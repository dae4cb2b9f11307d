// Where rules begin to speak: a little on either side of the figure that their page states.
#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "linted.h"

using gill::testing::count;

TEST_CASE("an amount within 3 % of a jigger is poured with it, and one further off is told") {
  // 30 ml: 3 % is 0.9 ml.
  auto found = [](double ml) {
    return count(fmt::format("house H\n  measures 60 ml, 30 ml\ndrink A\n  glass coupe\n  60 ml rye whiskey\n"
                             "  {} ml sweet vermouth\n  stir 30 s\n  strain\n  garnish none\n",
                             ml),
                 "off-measure");
  };
  CHECK(found(30) == 0);
  CHECK(found(29.15) == 0);
  CHECK(found(30.85) == 0);
  CHECK(found(29.05) == 1);
  CHECK(found(30.95) == 1);
}

TEST_CASE("an allow that nothing needs is told wherever it stands") {
  for (const char* text : {"house H\n  allow raw-egg because \"x\"\n",
                           "glass beaker\n  holds 200 ml\n  allow raw-egg because \"x\"\n",
                           "ice lens\n  each 64 g\n  allow raw-egg because \"x\"\n",
                           "family short\n  strength 12..18 % abv\n  allow raw-egg because \"x\"\n",
                           "ingredient odd gin like London dry gin\n  allow raw-egg because \"x\"\n",
                           "prices spring 2026\n  vodka 700 ml for 28 EUR\n  allow raw-egg because \"x\"\n",
                           "menu M\n  section S\n  allow raw-egg because \"x\"\n"}) {
    INFO(text);
    CHECK(count(text, "idle-allow") == 1);
  }
}

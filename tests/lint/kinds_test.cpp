// What a rule counts as which: every kind of thing and every step that its page names, one beside the other.
#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "linted.h"

using gill::testing::count;
using gill::testing::findings_of;
using gill::testing::linted;

namespace {

/// How often a rule is found where `{}` in the text is each of the words.
void hold(const char* rule, const char* text, std::initializer_list<const char*> found,
          std::initializer_list<const char*> quiet) {
  for (const char* words : found) {
    INFO(rule << ": " << words);
    CHECK(count(fmt::format(fmt::runtime(text), words), rule) == 1);
  }
  for (const char* words : quiet) {
    INFO(rule << ": " << words);
    CHECK(count(fmt::format(fmt::runtime(text), words), rule) == 0);
  }
}

}  // namespace

TEST_CASE("a finding in a drink names the drink, one in a prep names none") {
  auto house = linted(
      "drink Loud\n  45 ml vodka\n  shake 12 s\nprep quiet\n  1 l water\n  heat to 80 C\n  keeps 2 d "
      "chilled\n");
  std::size_t drinks = 0, preps = 0;
  for (const auto& finding : house->findings) {
    auto rule = gill::diagnostics::info(finding.rule).name;
    if (rule == "no-strain") {
      CHECK(finding.drink == "Loud");
      ++drinks;
    }
    if (rule == "cool-down") {
      CHECK(finding.drink.empty());
      ++preps;
    }
  }
  CHECK(drinks == 1);
  CHECK(preps == 1);
}

TEST_CASE("closed vessels are the shaken, the whipped and the blended") {
  hold("hot-shake", "drink A\n  glass mug\n  100 ml water, hot\n  {}\n  strain\n",
       {"shake 5 s", "dry shake 5 s", "whip 5 s with 20 g crushed", "blend 5 s with 20 g crushed"},
       {"stir 5 s", "roll 4", "throw 4"});
  hold("fizz-shaken", "drink A\n  50 ml vodka\n  50 ml soda water\n  {}\n  strain\n",
       {"shake 5 s", "dry shake 5 s", "whip 5 s", "blend 5 s with 90 g crushed"},
       {"stir 5 s", "roll 4", "throw 4"});
}

TEST_CASE("what leaves a drink in its vessel is any step that mixes, and any move ends it") {
  hold("no-strain", "drink A\n  50 ml vodka\n  {}\n",
       {"shake 5 s", "dry shake 5 s", "stir 30 s", "throw 4", "roll 4", "blend 9 s with 90 g crushed",
        "whip 5 s"},
       {"build", "shake 5 s\n  strain", "shake 5 s\n  double strain", "shake 5 s\n  fine strain",
        "shake 5 s\n  dump", "swizzle 9 s with crushed"});
}

TEST_CASE("egg is beaten by a shake, a whip, a blender, a throw or a siphon, and by no stir") {
  hold("egg-not-shaken", "drink A\n  50 ml vodka\n  1 egg white\n  {}\n  strain\n", {"stir 30 s", "roll 4"},
       {"shake 9 s", "dry shake 9 s", "blend 9 s with 90 g crushed", "whip 9 s", "throw 4"});
  hold("egg-not-dry-shaken", "drink A\n  50 ml vodka\n  1 {}\n  shake 9 s\n  strain\n", {"egg white"},
       {"egg yolk", "whole egg"});
  hold("egg-not-dry-shaken", "drink A\n  50 ml vodka\n  1 egg white\n  {}\n  shake 9 s\n  strain\n",
       {"stir 9 s"}, {"dry shake 9 s", "whip 9 s", "blend 9 s with 90 g crushed"});
}

TEST_CASE("spirit is heated by a heat, a simmer and a reduction") {
  hold("hot-spirit", "prep p\n  700 ml aged rum\n  {}\n  keeps 9 d ambient\n",
       {"heat to 70 C for 5 min", "simmer 5 min", "reduce by 20 %"}, {"rest 2 h at 70 C", "stir"});
}

TEST_CASE("a reduction leaves a prep hot, cooling, chilling and freezing end it") {
  hold("cool-down", "prep p\n  1 l water\n  {}\n  keeps 2 d chilled\n",
       {"reduce by 20 %", "heat to 80 C", "simmer 5 min", "simmer 5 min\n  strain"},
       {"simmer 5 min\n  cool to 20 C within 1 h", "simmer 5 min\n  chill", "simmer 5 min\n  freeze 4 h",
        "steep 5 h at 50 C"});
}

TEST_CASE("what lies in spirit is told as raw, hot or boiled by its step") {
  // FDA Food Code 2022, 3-401.11, from memory: a simmer cooks an egg through, a warm bath does not.
  hold("raw-egg", "prep p\n  4 whole egg\n  500 ml water\n  {}\n  keeps 1 d chilled\n",
       {"stir", "steep 30 min at 70 C"}, {"simmer 5 min", "heat to 70 C for 5 min"});
}

TEST_CASE("ingredients whose kind tells their allergen hide none, others do") {
  // Regulation (EU) No 1169/2011, Annex II, names them; what a kind tells: common practice, no source.
  auto hidden = [](std::string_view kind, std::string_view allergen, std::string_view guest = "") {
    return count(
        fmt::format(
            "ingredient stuff\n  kind {}\n  form liquid\n  allergen {}\ndrink A\n{}  50 ml stuff\n  build\n",
            kind, allergen, guest),
        "hidden-allergen");
  };
  CHECK(hidden("dairy", "milk") == 0);
  CHECK(hidden("dairy", "egg") == 1);
  CHECK(hidden("egg", "egg") == 0);
  CHECK(hidden("egg", "milk") == 1);
  CHECK(hidden("beer", "cereals: barley") == 0);
  CHECK(hidden("beer", "sulphites") == 0);
  CHECK(hidden("beer", "milk") == 1);
  CHECK(hidden("wine", "sulphites") == 0);
  CHECK(hidden("sparkling", "sulphites") == 0);
  CHECK(hidden("fortified wine", "sulphites") == 0);
  CHECK(hidden("wine", "fish") == 1);
  CHECK(hidden("liqueur", "milk") == 1);
  CHECK(hidden("liqueur", "milk", "  guest \"with cream\"\n") == 0);
  CHECK(hidden("liqueur", "milk", "  guest \"with cherries\"\n") == 1);
}

TEST_CASE("a house bottle holds nothing fizzy and nothing fresh") {
  auto batched = [](std::string_view kind, std::string_view more = "") {
    return count(fmt::format("ingredient stuff\n  kind {}\n  form liquid\n  allergen none\n{}drink A\n  50 "
                             "ml stuff\n  stir 9 s\n"
                             "  strain\n  batched stuff\n",
                             kind, more),
                 "perishable-in-batch");
  };
  for (const char* kind : {"egg", "dairy", "juice", "fruit", "herb"}) {
    INFO(kind);
    CHECK(batched(kind) == 1);
  }
  for (const char* kind : {"spirit", "liqueur", "syrup", "wine", "bitters"}) {
    INFO(kind);
    CHECK(batched(kind) == 0);
  }
  CHECK(batched("wine", "  fizz 3 vol\n") == 1);
  CHECK(batched("wine", "  fizz 0.2 vol\n") == 0);
  CHECK(batched("wine", "  fizz 0.31 vol\n") == 1);
}

TEST_CASE("a sour without its juice is told of spirit, syrup and what goes with them, not of another drink") {
  hold("no-acid", "drink A\n  60 ml white rum\n  20 ml simple syrup\n  {}\n  shake 12 s\n  strain\n",
       {"1 dash aromatic bitters", "1 egg white", "20 ml water", "10 ml orange liqueur"},
       {"20 ml lime juice", "20 ml cream", "30 ml espresso", "20 g strawberry", "20 ml dry vermouth",
        "6 leaves mint"});
  hold("no-acid", "drink A\n  60 ml white rum\n  20 ml simple syrup\n  {}\n",
       {"shake 9 s\n  strain", "build\n  top 90 ml soda water"},
       {"stir 30 s\n  strain", "build\n  top 90 ml water", "build\n  top 90 ml tonic water"});
}

TEST_CASE("spirits alone are stirred, anything cloudy or sour is shaken") {
  hold("spirits-shaken", "drink A\n  60 ml rye whiskey\n  {}\n  shake 12 s\n  strain\n",
       {"30 ml sweet vermouth", "20 ml simple syrup", "1 dash aromatic bitters", "20 ml water",
        "20 ml orange liqueur"},
       {"20 ml lime juice", "30 ml cream", "1 egg white", "30 ml espresso", "20 g strawberry"});
  CHECK(count("drink A\n  60 ml rye whiskey\n  shake 9 s\n  strain\n  ice crushed\n", "spirits-shaken") == 0);
}

TEST_CASE("a plant in spirit is fresh unless its name says that it was dried") {
  hold("weak-infusion",
       "ingredient {0}\n  kind herb\n  form solid\n  allergen none\nprep p\n  700 ml dry vermouth\n  40 g "
       "{0}\n"
       "  infuse 12 h at 20 C\n  keeps 2 d chilled\n",
       {"bog leaf"}, {"dried bog leaf", "dehydrated bog leaf", "bog leaf powder"});
  hold("weak-infusion",
       "prep p\n  700 ml dry vermouth\n  40 g mint\n  {} 12 h at 20 C\n  keeps 2 d chilled\n",
       {"infuse", "steep", "macerate", "rest"}, {"ferment"});
}

TEST_CASE("eggs and milk count as raw unless their treatment is one of heat") {
  auto raw = [](std::string_view kind, std::string_view allergen, std::string_view treated,
                std::string_view rule) {
    return count(fmt::format("ingredient stuff\n  kind {}\n  form liquid\n  {}\n{}drink A\n  50 ml stuff\n  "
                             "shake 9 s\n  strain\n",
                             kind, allergen, treated),
                 rule);
  };
  CHECK(raw("egg", "allergen egg", "", "raw-egg") == 1);
  CHECK(raw("egg", "allergen egg", "  treated pasteurised\n", "raw-egg") == 0);
  CHECK(raw("egg", "allergen egg", "  treated pasteurized\n", "raw-egg") == 0);
  CHECK(raw("egg", "allergen egg", "  treated washed\n", "raw-egg") == 1);
  CHECK(raw("dairy", "allergen milk", "", "raw-dairy") == 1);
  CHECK(raw("dairy", "allergen none", "", "raw-dairy") == 0);
  CHECK(raw("dairy", "allergen may milk", "", "raw-dairy") == 0);
  for (const char* treated : {"pasteurised", "pasteurized", "UHT", "sterilised", "boiled", "ultra heat"}) {
    INFO(treated);
    CHECK(raw("dairy", "allergen milk", fmt::format("  treated {}\n", treated), "raw-dairy") == 0);
  }
  CHECK(raw("dairy", "allergen milk", "  treated homogenised\n", "raw-dairy") == 1);
}

TEST_CASE("fat that may be of animals stands warm no longer than butter, oil of seeds may") {
  hold("warm-wash",
       "ingredient fat\n  kind fat\n  form solid\n  fat 99 % w/w\n  allergen none\n  {}\nprep p\n"
       "  700 ml aged rum\n  60 g fat\n  rest 12 h at 20 C\n  keeps 9 d chilled\n",
       {"origin animal", "origin milk", "origin may be animal", "origin not known", "colour #FFFFFF"},
       {"origin plant"});
}

TEST_CASE("either system of measures may be the odd one, and the fewer lines are") {
  auto message = [](std::string_view lines) {
    auto found =
        findings_of(*linted(fmt::format("drink A\n{}  stir 30 s\n  strain\n", lines)), "mixed-systems");
    return found.empty() ? std::string() : found.front();
  };
  CHECK(message("  60 ml vodka\n  2 cl water\n  1 oz dry vermouth\n").find("`1 oz` is in ounces") !=
        std::string::npos);
  CHECK(message("  2 oz vodka\n  1 oz water\n  20 ml dry vermouth\n").find("`20 ml` is in millilitres") !=
        std::string::npos);
  CHECK(message("  2 oz vodka\n  20 ml dry vermouth\n").find("`2 oz` is in ounces") != std::string::npos);
  CHECK(message("  60 ml vodka\n  1 dash orange bitters\n").empty());
  for (const char* metric : {"6 cl", "1 dl", "60 g", "1 l"}) {
    INFO(metric);
    CHECK_FALSE(message(fmt::format("  {} vodka\n  1 oz water\n  1 oz dry vermouth\n", metric)).empty());
  }
  for (const char* ounces : {"1 oz wt", "1 us pint", "1 imp pint", "1 lb"}) {
    INFO(ounces);
    CHECK_FALSE(message(fmt::format("  60 ml vodka\n  {} water\n  60 ml dry vermouth\n", ounces)).empty());
  }
}

TEST_CASE("a prep with a refused line is not judged by what the line may have done, its dangers are") {
  // `remov` may have been the line that takes the butter out; the room does not wait for it.
  auto prep = [](const char* line) {
    return std::string("prep washed rum\n  700 ml aged rum\n  120 g butter\n  rest 3 h at 50 C\n") + line +
           "  fine strain\n  makes 620 ml\n  keeps 30 d chilled\n";
  };
  CHECK(count(prep(""), "fat-left-in") == 1);
  CHECK(count(prep("  freeze 12 h at -18 C\n  remov teh butter\n"), "fat-left-in") == 0);
  CHECK(count(prep("  freeze 12 h at -18 C\n  remove butter\n"), "fat-left-in") == 0);
}

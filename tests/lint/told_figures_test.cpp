// What a finding tells of its case: the amounts, shares, times and degrees in its message and its help, each
// of which follows from the lines above it.
#include <catch2/catch.hpp>

#include "linted.h"

using gill::testing::findings_of;
using gill::testing::linted;
using gill::testing::only;

namespace {

/// A text with one finding of a rule, and what that finding says.
struct Told {
  const char* rule;
  const char* text;
  std::vector<const char*> words;
};

void hold(const std::vector<Told>& cases) {
  for (const auto& told : cases) {
    INFO(told.text);
    auto finding = only(told.text, told.rule);
    for (const char* words : told.words)
      CHECK_THAT(finding.message + " | " + finding.help, Catch::Contains(words));
  }
}

}  // namespace

TEST_CASE("a time is told in the unit that suits it") {
  hold({
      {"unlikely-time",
       "drink A\n  60 ml aged rum\n  stir 599 s\n  strain\n",
       {"599 s is no usual time for a stir"}},
      {"unlikely-time",
       "drink A\n  60 ml aged rum\n  stir 600 s\n  strain\n",
       {"10 min is no usual time for a stir"}},
      {"unlikely-time",
       "drink A\n  60 ml aged rum\n  stir 119 min\n  strain\n",
       {"119 min is no usual time for a stir"}},
      {"unlikely-time",
       "drink A\n  60 ml aged rum\n  stir 2 h\n  strain\n",
       {"2 h is no usual time for a stir"}},
      {"unlikely-time",
       "prep p\n  700 ml aged rum\n  10 g black tea leaves\n  infuse 3 d at 20 C\n  keeps 9 d ambient\n",
       {"`black tea leaves` stays in it for 3 d"}},
      {"weak-infusion",
       "prep p\n  700 ml dry vermouth\n  40 g mint\n  infuse 47 h at 20 C\n  keeps 2 d chilled\n",
       {"`mint` steeps for 47 h at 16.2 % abv and about 20 C"}},
      {"cool-down",
       "prep p\n  1 l water\n  heat to 80 C\n  cool to 20 C within 3 h\n  keeps 2 d chilled\n",
       {"the cooling may take 3 h"}},
      {"warm-wash",
       "prep p\n  700 ml aged rum\n  120 g butter\n  rest 12 h at 20 C\n  keeps 9 d chilled\n",
       {"stands in it for 12 h at about 20 C"}},
      {"outlives-its-parts",
       "prep p\n  500 ml part\n  500 ml water\n  keeps 30 d chilled\ningredient part\n  kind mixer\n  "
       "allergen none\n"
       "  keeps 100 d ambient\n  opened 20 d chilled\n",
       {"said to keep 30 d, and `part` in it keeps 20 d once open"}},
      {"outlives-its-parts",
       "prep p\n  500 ml part\n  500 ml water\n  keeps 3 y chilled\ningredient part\n  kind mixer\n  "
       "allergen none\n"
       "  keeps 2 y ambient\n",
       {"said to keep 3 y, and `part` in it keeps 2 y once open"}},
      {"low-acid-hold",
       "prep p\n  1 l water, sealed\n  20 g mint\n  keeps 36 h ambient\n",
       {"`p` is kept 36 h ambient, without air, and its pH has not been measured"}},
      {"low-acid-hold",
       "prep p\n  1 l water\n  20 g mint\n  keeps 9 d chilled\n  pH 4.6\n",
       {"`p` is kept 9 d chilled, at a measured pH of 4.6"}},
      {"oil-infusion",
       "prep p\n  500 ml olive oil\n  10 g garlic\n  keeps 36 h chilled\n",
       {"`garlic` is stored in oil, kept 36 h chilled"}},
      {"oil-infusion",
       "prep p\n  500 ml olive oil\n  10 g garlic\n  keeps 3 d ambient\n",
       {"do not store this at room temperature: `garlic` is stored in oil, kept 3 d ambient"}},
  });
}

TEST_CASE("a shake longer than it chills is told up to the time that nobody shakes, foam aside") {
  auto found = [](const char* lines) {
    return findings_of(
        *linted(std::string("drink A\n  60 ml aged rum\n  22.5 ml lemon juice\n") + lines + "  strain\n"),
        "unlikely-time");
  };
  auto message = [&](const char* lines) {
    return found(lines).size() == 1 ? found(lines).front() : std::string();
  };
  CHECK_THAT(message("  shake 40 s\n"), Catch::Contains("the shake of 40 s ends at -"));
  CHECK_THAT(message("  shake 60 s\n"), Catch::Contains("the shake of 60 s ends at -"));
  CHECK_THAT(message("  shake 61 s\n"), Catch::Contains("61 s is no usual time for a shake"));
  CHECK(found("  1 egg white\n  shake 40 s\n").empty());
  CHECK(found("  20 ml cream\n  shake 40 s\n").empty());
  CHECK(found("  stir 40 s\n").empty());
  CHECK(found("  serves 6\n  shake 300 s\n").empty());
}

TEST_CASE("an unlikely amount is told with the slips that would explain it") {
  hold({
      {"unlikely-amount",
       "drink A\n  2 ml London dry gin\n  90 ml water\n  build\n",
       {"2 ml of `London dry gin` is all the spirit in the drink", "Was `2 oz` or `20 ml` meant?"}},
      // 25 oz of 30 ml: a tenth of it and as many millilitres are both usual.
      {"unlikely-amount",
       "drink A\n  2 oz London dry gin\n  25 oz water\n  build\n",
       {"750 ml of `water` in a serve is far more than usual", "Was `2.5 oz` or `25 ml` meant?"}},
      // 250 oz: a tenth of it is still more than anybody pours.
      {"unlikely-amount",
       "drink A\n  2 oz London dry gin\n  250 oz water\n  build\n",
       {"Was `250 ml` meant?"}},
      {"unlikely-amount",
       "drink A\n  60 ml vodka\n  101 ml lime juice\n  shake 9 s\n  strain\n",
       {"101 ml of `lime juice`", "Was `10.1 ml` meant?"}},
      {"unlikely-amount",
       "drink A\n  60 ml vodka\n  50 leaves mint\n  shake 9 s\n  strain\n",
       {"50 leaves of `mint` in a serve", "was `5` meant?"}},
      {"unlikely-amount",
       "drink A\n  60 ml vodka\n  20 dashes aromatic bitters\n  20 ml water\n  stir 30 s\n  strain\n",
       {"18 ml of `aromatic bitters`", "was `dashes` meant?"}},
      // 500 g in 513 g of lime juice.
      {"unlikely-amount",
       "prep p\n  500 ml lime juice\n  500 g citric acid\n  keeps 1 d chilled\n",
       {"500 g of `citric acid` is 49 % of what goes in", "35 % is a lot already: was `50 g` meant?"}},
  });
}

TEST_CASE("salt and water are a brine up to a tenth of anything else") {
  // Common practice, no source.
  auto found = [](int water_g, int sugar_g) {
    auto text = "prep p\n  100 g salt\n  " + std::to_string(water_g) + " g water\n  " +
                std::to_string(sugar_g) + " g white sugar\n  keeps 1 d chilled\n";
    return findings_of(*linted(text), "unlikely-amount").size();
  };
  CHECK(found(830, 70) == 0);
  CHECK(found(810, 90) == 0);
  CHECK(found(790, 110) == 1);
}

TEST_CASE("what is strong in small amounts has its own limit in a prep") {
  // usual_amounts.def: common practice, no source. Of 1000 g.
  auto found = [](const char* name, double grams) {
    auto text = "prep p\n  " + std::to_string(1000 - grams) + " g aged rum\n  " + std::to_string(grams) +
                " g " + name + "\n  keeps 1 d chilled\n";
    return findings_of(*linted(text), "unlikely-amount").size();
  };
  CHECK(found("nutmeg", 29) == 0);
  CHECK(found("nutmeg", 31) == 1);
  CHECK(found("clove", 49) == 0);
  CHECK(found("clove", 51) == 1);
}

TEST_CASE("a volume off the jiggers is told with the nearest that they pour and what it moves") {
  const std::string drink = "drink A\n  glass coupe\n  60 ml rye whiskey\n";
  auto told = [&](const char* measures, const char* lines) {
    auto found = only(std::string("house H\n  measures ") + measures + "\n" + drink + lines, "off-measure");
    return found.message + " | " + found.help;
  };
  auto two = told("60 ml, 30 ml, 5 ml", "  20 ml simple syrup\n  shake 12 s\n  strain\n");
  CHECK_THAT(two, Catch::Contains("20 ml of `simple syrup` is neither"));
  CHECK_THAT(two,
             Catch::Contains("The nearest that can be poured is 10 ml (5 and 5); it moves strength from"));
  CHECK_THAT(told("60 ml, 30 ml, 15 ml", "  8 ml orange juice\n  stir 30 s\n  strain\n"),
             Catch::Contains("The nearest that can be poured is 15 ml;"));
  // Below half the smallest jigger it is dashed: 0.9 ml a dash and 5 ml a barspoon.
  CHECK_THAT(
      told("60 ml, 30 ml, 15 ml", "  7 ml orange liqueur\n  stir 30 s\n  strain\n"),
      Catch::Contains("The smallest measure is 15 ml. By hand it is about 7.8 dashes (one is 0.9 ml) or 1.4 "
                      "barspoons (one is 5 ml)."));
  CHECK_THAT(told("60 ml, 30 ml, 15 ml", "  0.2 ml orange liqueur\n  stir 30 s\n  strain\n"),
             Catch::Contains("about a few drops."));
}

TEST_CASE(
    "what is not measured in jiggers may be any volume: much of a mixer, more than three jiggers, a bowl") {
  auto found = [](const char* lines, const char* measures = "60 ml, 30 ml") {
    return findings_of(*linted(std::string("house H\n  measures ") + measures + "\ndrink A\n" + lines +
                               "  stir 30 s\n  strain\n"),
                       "off-measure")
        .size();
  };
  // Two jiggers of 60 make 120 ml.
  CHECK(found("  110 ml water\n") == 1);
  CHECK(found("  130 ml water\n") == 0);
  CHECK(found("  130 ml vodka\n") == 1);
  CHECK(found("  359 ml simple syrup\n") == 1);
  CHECK(found("  361 ml simple syrup\n") == 0);
  CHECK(found("  serves 4\n  130 ml vodka\n") == 0);
  CHECK(found("  2 dashes aromatic bitters\n  60 ml vodka\n") == 0);
}

TEST_CASE("shares and contents are told as they come out") {
  hold({
      {"dairy-curdles",
       "drink A\n  50 ml cream\n  50 ml lemon juice\n  shake 9 s\n  strain\n",
       {"3 g/100 ml of acid, most of it from `lemon juice`, meets `cream`"}},
      {"large-loss",
       "prep p\n  1000 ml water\n  makes 800 ml\n  keeps 1 d chilled\n",
       {"20 % of what is in the vessel is lost on the way to the bottle |"}},
      {"caustic",
       "ingredient biting\n  kind acid\n  form liquid\n  acid 30 % w/w lactic\n  allergen none\ndrink A\n"
       "  90 ml water\n  1 ml biting\n  build\n",
       {"`biting` is 30 % acid by weight"}},
      {"caustic", "drink A\n  90 ml lime juice\n  build\n  ice none\n", {"a serve holds 6 g/100 ml of acid"}},
      {"freezes-solid",
       "ingredient base\n  kind spirit\n  strength 10 % abv\n  allergen none\nprep p\n  700 ml base\n  keeps "
       "9 d frozen\n",
       {"`p` has 10 % abv, and 77 % of its water is ice at -18 C"}},
      // Water of 20 °C weighs 0.998 g/ml.
      {"float-sinks",
       "drink A\n  glass highball\n  build\n  90 ml water\n  float 20 ml simple syrup\n",
       {"what it should rest on 0.998: it sinks"}},
      {"open-flame",
       "drink A\n  60 ml aged rum\n  build\n  ice none\n  flame\n",
       {"a flame near 40 % abv, which catches fire"}},
      {"open-flame",
       "drink A\n  60 ml aged rum\n  60 ml water\n  build\n  ice none\n  flame\n",
       {"a flame near 20 % abv"}},
      {"open-flame",
       "drink A\n  60 ml water\n  build\n  float 10 ml overproof rum\n  flame\n  ice none\n",
       {"a flame near 63 % abv"}},
      {"open-flame",
       "drink A\n  60 ml water\n  build\n  flame\n  float 10 ml overproof rum\n  ice none\n",
       {"a flame near 0 % abv"}},
      {"juice-stirred",
       "drink A\n  60 ml vodka\n  10 ml lime juice\n  20 ml orange juice\n  15 ml grapefruit juice\n  stir "
       "30 s\n  strain\n",
       {"`orange juice` is stirred (20 ml): juice wants air"}},
      {"hot-spirit",
       "prep p\n  700 ml aged rum\n  heat to 70 C for 5 min\n  keeps 9 d ambient\n",
       {"40 % abv is heated to about 70 C"}},
      {"hot-spirit",
       "prep p\n  700 ml aged rum\n  reduce by 20 %\n  keeps 9 d ambient\n",
       {"40 % abv is heated to about 100 C"}},
      {"hot-egg",
       "drink A\n  glass mug\n  build\n  1 whole egg\n  150 ml water, at 60 C\n",
       {"`whole egg` is warmed to 46 C, which does not cook it"}},
      {"hot-egg",
       "drink A\n  glass mug\n  build\n  1 whole egg\n  150 ml water, at 90 C\n",
       {"and sets in threads"}},
      {"unmixed-in-glass",
       "drink A\n  glass rocks\n  build\n  60 ml vodka\n  30 ml aged rum\n  ice cubed\n",
       {"2 liquids lie in the glass, and nothing stirs them"}},
      {"unmixed-in-glass",
       "drink A\n  glass rocks\n  build\n  5 g white sugar\n  60 ml vodka\n  ice cubed\n",
       {"5 g of `white sugar` stay on the floor of the glass"}},
      {"unmixed-in-glass",
       "drink A\n  60 ml vodka\n  stir 30 s\n  strain\n  20 ml aged rum\n",
       {"20 ml of `aged rum` go in below the strain"}},
      {"measured-differs",
       "prep p\n  500 ml vodka\n  500 ml water\n  strength 25 % abv\n  keeps 1 d ambient\n",
       {"the strength is measured at 25 % abv, and what goes in makes 20.01 % abv"}},
      {"measured-differs",
       "prep p\n  500 g white sugar\n  500 g water\n  refractometer 55 brix\n  keeps 1 d chilled\n",
       {"the refractometer showed 55 brix, and of what goes in it would show 49.95 brix"}},
      {"measured-differs",
       "prep p\n  500 g white sugar\n  500 g water\n  hydrometer 1.3\n  keeps 1 d chilled\n",
       {"the hydrometer showed 1.3, and of what goes in it would show 1.232"}},
      {"yield-over-input",
       "prep p\n  1000 ml water\n  makes 1200 ml\n  keeps 1 d chilled\n",
       {"`p` is said to make 1200 ml, and what goes in comes to 1000 ml"}},
      {"glass-overflows",
       "glass beaker\n  holds 100 ml\ndrink A\n  glass beaker\n  120 ml water\n  build\n  ice none\n",
       {"the drink comes to 120 ml (120 ml of drink), and the beaker holds 100 ml"}},
      {"low-in-glass",
       "glass beaker\n  holds 200 ml\n  line 150 ml\ndrink A\n  glass beaker\n  60 ml water\n  build\n  ice "
       "none\n",
       {"the drink comes to 60 ml, and the beaker's line begins at 150 ml"}},
      {"glass-shock",
       "drink A\n  glass hot glass, chilled\n  build\n  100 ml water, at 90 C\n",
       {"about 90 C goes into a glass at 4 C"}},
      {"hot-serve", "drink A\n  100 ml water, at 80 C\n  build\n", {"it is served at about 80 C"}},
      // 180 ml at 40 % are 56.8 g of ethanol, of which a strain leaves a hundredth; a UK unit is 7.9 g.
      {"strong-serve",
       "drink A\n  180 ml vodka\n  stir 9 s\n  strain\n",
       {"a serve holds 56 g of alcohol, 7.1 UK units"}},
      {"fat-left-in",
       "prep p\n  700 ml aged rum\n  50 g butter\n  keeps 9 d chilled\n",
       {"50 g of `butter` go in"}},
      {"restricted-ingredient",
       "drink A\n  60 ml cognac\n  3 g nutmeg\n  stir 30 s\n  strain\n",
       {"3 g of `nutmeg`"}},
      {"pressure",
       "prep p\n  1 l water\n  chill\n  carbonate to 6 vol\n  keeps 2 d chilled\n",
       {"6 volumes, about 3.1 bar at 4 C, more than soda water holds"}},
      {"pressure",
       "prep p\n  1 l water\n  chill\n  carbonate to 5 vol\n  keeps 2 d chilled\n",
       {"5 volumes, about 2.4 bar at 4 C |"}},
  });
}

TEST_CASE("money in a finding is that of the house") {
  // 50 ml at 30.00 a litre are 1.50; 6.00 with a fifth of tax in it is 5.00: 30 %. For 20 % it
  // wants 7.50, 9.00 with tax.
  hold({{"over-pour-cost",
         "house H\n  currency EUR\n  tax 20 % included\n  pour cost ..20 %\ningredient dear gin like London "
         "dry gin\n"
         "  buy 1 l for 30 EUR\ndrink A\n  50 ml dear gin\n  stir 20 s\n  strain\nmenu M\n  section S\n    A "
         "at 6 EUR\n",
         {"it costs 1.50 EUR and sells at 6.00 EUR: a pour cost of 30.0 %, where the house aims at no more "
          "than 20 %",
          "`dear gin` is 1.50 EUR of it. A price of 9.00 EUR would meet it."}}});
  const char* unpriced =
      "house H\n  currency EUR\ningredient dear vodka like vodka\n  buy 1 l for 20 EUR\ndrink A\n  60 ml "
      "dear vodka\n"
      "  20 ml simple syrup\n  build\n";
  CHECK_THAT(only(unpriced, "no-price").message, Catch::Contains("so the cost of `A` is not known"));
  CHECK_THAT(only(std::string(unpriced) + "drink B\n  20 ml simple syrup\n  build\n", "no-price").message,
             Catch::Contains("so the cost of 2 drinks is not known"));
}

TEST_CASE("what stands twice is told as it stands, piece and all") {
  hold({
      {"same-line-twice",
       "drink A\n  60 ml vodka\n  20 ml lime juice\n  20 ml lime juice\n  shake 9 s\n  strain\n",
       {"`20 ml lime juice` stands here twice"}},
      {"same-line-twice",
       "drink A\n  60 ml vodka\n  build\n  garnish lemon twist\n  garnish lemon twist\n",
       {"`garnish lemon twist` stands here twice"}},
  });
}

TEST_CASE("a build that is out of its family is told how, by what, and the smallest change that mends it") {
  const std::string house =
      "house H\n  measures 60 ml, 45 ml, 30 ml, 22.5 ml, 15 ml\nfamily stout\n  strength 12..18 % abv\n  "
      "sugar 5..9 % w/v\n"
      "drink A\n  family stout\n  60 ml vodka\n";
  auto found = findings_of(
      *linted(house + "  20 ml simple syrup\n  10 ml lime juice\n  stir 30 s\n  strain\n"), "out-of-family");
  REQUIRE(found.size() == 2);
  CHECK_THAT(found[0], Catch::Contains("note") &&
                           Catch::Contains("strong for its family, `stout`: its strength is 19.2 % "
                                           "abv, and the family's is 12 to 18 % abv"));
  CHECK_THAT(found[1], Catch::Contains("note") &&
                           Catch::Contains("sweet for its family, `stout`: its sugar is 9.97 g/100 "
                                           "ml, and the family's is 5 to 9 g/100 ml"));
  auto finding =
      only(house + "  45 ml water\n  30 ml simple syrup\n  stir 30 s\n  strain\n", "out-of-family");
  CHECK_THAT(finding.help, Catch::Contains("100 % of its sugar comes with `simple syrup` (30 ml)."));
  CHECK_THAT(finding.help, Catch::Contains("in place of"));
}

TEST_CASE("far outside its family is a warning: beyond a quarter of the range's width") {
  // House rule of the balance table. The range is 8 wide: two beyond its end are far.
  auto severity = [](double ml) {
    auto text = "family stout\n  strength 10..18 % abv\ndrink A\n  family stout\n  " + std::to_string(ml) +
                " ml vodka\n  " + std::to_string(100 - ml) + " ml water\n  build\n  ice none\n";
    auto found = findings_of(*linted(text), "out-of-family");
    return found.empty() ? std::string() : found.front().substr(0, found.front().find(' '));
  };
  CHECK(severity(45).empty());       // 18.0 %
  CHECK(severity(46.5) == "note");   // 18.6 %
  CHECK(severity(49) == "note");     // 19.6 %
  CHECK(severity(51) == "warning");  // 20.4 %
  CHECK(severity(24.7).empty());     // 9.9 %: within the error of a pour
  CHECK(severity(21) == "note");     // 8.4 %
  CHECK(severity(19) == "warning");  // 7.6 %
}

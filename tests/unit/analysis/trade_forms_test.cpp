// What bartenders write, and the form of the language that it means: each pair is read into the same drink.
// The readings are the trade's usual ones: common practice, no source.
#include <catch2/catch.hpp>

#include "support/fixture.h"

namespace {

using gill::testing::compile;

/// The typed drink or prep as plain text, without what was written where.
std::string meaning(const std::string& keyword, const std::string& lines) {
  std::string text = keyword + " X\n";
  if (keyword == "drink") text += "  30 ml lime juice\n";
  std::string line;
  for (char c : lines + "\n") {
    if (c != '\n') {
      line += c;
      continue;
    }
    text += "  " + line + "\n";
    line.clear();
  }
  auto compiled = compile(text);
  INFO(text);
  for (const auto& finding : compiled.sink.all()) INFO(finding.message);
  CHECK_FALSE(compiled.sink.has_errors());
  return gill::analysis::dump(compiled.specs, compiled.units);
}

void same(const std::string& written, const std::string& canonical) {
  INFO(written);
  CHECK(meaning("drink", written) == meaning("drink", canonical));
}

void same_in_prep(const std::string& written, const std::string& canonical) {
  INFO(written);
  CHECK(meaning("prep", written) == meaning("prep", canonical));
}

}  // namespace

TEST_CASE("a comma parts amounts and steps that are written on one line", "[trade forms]") {
  same("30 ml vodka, 15 ml orgeat", "30 ml vodka\n15 ml orgeat");
  same("15 ml simple syrup, 1 egg white", "15 ml simple syrup\n1 egg white");
  same("dry shake 15 s, shake 12 s", "dry shake 15 s\nshake 12 s");
  same("strain\ntop ginger beer, float 15 ml amaretto", "strain\ntop ginger beer\nfloat 15 ml amaretto");
  same("stir 30 s, strain over big rock", "stir 30 s\nstrain\nice large cube");
  same("15 ml overproof rum, float", "float 15 ml overproof rum");
  same("5 ml absinthe, to rinse", "rinse 5 ml absinthe");
  same_in_prep("500 ml water, 100 g almond", "500 ml water\n100 g almond");
}

TEST_CASE("what a step says of its manner is a remark, and what it says else is read", "[trade forms]") {
  same("shake like hell", "shake, \"like hell\"");
  same("shake long and hard", "shake, \"long and hard\"");
  same("stir in the mixing glass 30 s", "stir 30 s, \"in the mixing glass\"");
  same("shake & pour over big rock", "shake\nstrain\nice large cube");
  same("shake hard n fine strain", "shake, hard\nfine strain");
  same("shake\nstrain to tin", "shake\nstrain to tin");
  same("pour over ice", "ice cubed\nbuild");
  same("blend with 200 g crushed\npour into a hurricane", "blend with 200 g crushed\ndump\nglass hurricane");
  same("build in rocks glass over big cube, stir", "glass rocks\nice large cube\nbuild\nstir");
  same("build over ice with 2 slices orange", "ice cubed\n2 slices orange\nbuild");
  same("over ice in a highball", "ice cubed\nglass highball");
  same("muddle\nstir in a warm hot glass", "muddle\nglass hot glass, warmed\nbuild\nstir");
  same("add everything to the shaker with ice\nshake", "do add everything to the shaker with ice\nshake");
  same("glass coupe, peanut rim", "glass coupe\nrim peanut");
  same("rim half the coupe with salt", "glass coupe\nrim salt, half");
  same("salt the rim", "rim salt");
  same("lace with 15 ml crème de mûre", "float 15 ml crème de mûre");
  same("strain\ntop with soda water in a flute", "strain\ntop soda water\nglass flute");
  same("strain\ntop with soda water, 60 ml", "strain\ntop 60 ml soda water");
}

TEST_CASE("muddling what was named is one step, and several where others stand beside it", "[trade forms]") {
  same("1/2 lemon\n6 leaves mint\nmuddle lemon and mint",
       "1/2 lemon\n6 leaves mint\nmuddle, \"lemon and mint\"");
  same("1 sugar cube\nmuddle cube with bitters", "1 sugar cube\nmuddle, \"cube with bitters\"");
  same("1/2 lemon\n6 leaves mint\n3 strawberry\nmuddle lemon and mint",
       "1/2 lemon\n6 leaves mint\n3 strawberry\nmuddle lemon\nmuddle mint");
  same("1/2 lemon\nmuddle lemon in the glass", "1/2 lemon\nbuild\nmuddle lemon");
}

TEST_CASE("amounts in the bar's own words", "[trade forms]") {
  same("25 ml lemon", "25 ml lemon juice");
  same("2d aromatic bitters", "2 dashes aromatic bitters");
  same("2 dashes aromatic", "2 dashes aromatic bitters");
  same("half oz each vodka, London dry gin", "1/2 oz vodka\n1/2 oz London dry gin");
  same("vodka, London dry gin 30 ml each", "30 ml vodka\n30 ml London dry gin");
  same("1 egg white (optional)", "1 egg white, optional");
  same("- 50 ml vodka", "50 ml vodka");
  same("vodka - 50 ml", "50 ml vodka");
  same("1x egg white", "1 egg white");
  same("soak with 3 dashes aromatic bitters", "3 dashes aromatic bitters");
  same("pinch of cinnamon", "1 pinch ground cinnamon");
  same("1 shot espresso", "1 espresso");
  same("5 ml 2:1", "5 ml rich syrup");
  same("12 limes juiced", "360 ml lime juice");
  same("2 oranges, peel only", "28 g orange peel");
  same("2 lemons, zested and juiced", "90 ml lemon juice\n18 g lemon peel");
  same("1 cucumber peeled and sliced", "1 cucumber, \"peeled and sliced\"");
  same("200 g crushed ice", "add 200 g crushed");
}

TEST_CASE("garnishes in a bartender's words", "[trade forms]") {
  same("strain\n2 olives", "strain\ngarnish 2 green olive");
  same("strain\nthree coffee beans", "strain\ngarnish 3 coffee beans");
  same("strain\norange + lemon slices", "strain\ngarnish orange slice\ngarnish lemon slice");
  same("strain\nsprig of mint", "strain\ngarnish mint sprig");
  same("strain\nlime wedge on the rim", "strain\ngarnish lime wedge, \"on the rim\"");
  same("strain\ndiscarded lemon zest", "strain\ngarnish lemon zest, \"discarded\"");
  same("strain\nhalf a passion fruit on top", "strain\ngarnish passion fruit half, \"on top\"");
  same("dust with cinnamon", "garnish ground cinnamon, \"dusted over\"");
  same("strain\nmint sprig and straw", "strain\ngarnish mint sprig\nserve with straw");
}

TEST_CASE("a prep kitchen's own words", "[trade forms]") {
  same_in_prep("1 l water\nmix well and let sit 1 h", "1 l water\nstir\nrest 1 h");
  same_in_prep("1 l water\nblitz", "1 l water\nblend");
  same_in_prep("1 l water\nheat gently until the sugar has dissolved",
               "1 l water\ndissolve, \"heat gently\"");
  same_in_prep("keg 5 l", "bottle 5 l, keg");
  same_in_prep("carbonate 3.5 vol", "carbonate to 3.5 vol");
  same_in_prep("2 chargers", "charge 2");
  same_in_prep("1 vanilla bean\nremove pod", "1 vanilla bean\nremove vanilla bean");
  same_in_prep("stir, bottle, freezer", "stir\nbottle\nfreeze");
  same_in_prep("simmer 20 min lid on", "simmer 20 min, \"lid on\"");
  same_in_prep("pass through a chinois", "strain, through chinois");
  same_in_prep("reduce to half", "reduce by 50 %");
}

TEST_CASE("what two bartenders would read in two ways is asked", "[trade forms]") {
  for (const char* line :
       {"30 lemon", ".75 lemon", "1 shot vodka", "1 jigger aged rum", "2 cups white sugar", "1 cup ice",
        "tall over ice", "top with ginger", "stir 30", "garnish 3 drops bitters"}) {
    INFO(line);
    auto compiled = compile(std::string("drink X\n  30 ml lime juice\n  ") + line + "\n");
    CHECK(compiled.sink.has_errors());
  }
}

TEST_CASE("garnishes in a list are each a garnish", "[trade forms]") {
  same("garnish lime wheel, almond", "garnish lime wheel\ngarnish almond");
  same("garnish orange slice and cocktail cherry", "garnish orange slice\ngarnish cocktail cherry");
  same("no garnish", "garnish none");
  same("express orange peel and discard", "garnish orange peel, expressed and discarded");
  same("grate nutmeg over", "garnish nutmeg, grated over");
  same("lemon twist, expressed", "garnish lemon twist, expressed");
  same("garnish orange peel (expressed)", "garnish orange peel, expressed");
  same("garnish lemon twist (expressed and discarded)", "garnish lemon twist, expressed and discarded");
}

TEST_CASE("steps joined by words are steps of their own", "[trade forms]") {
  same("shake 12 s and strain", "shake 12 s\nstrain");
  same("dry shake 15 s, then shake with ice 12 s", "dry shake 15 s\nshake 12 s with ice");
  same("shake hard, 12 s", "shake 12 s, hard");
  same("shake hard 12 s", "shake 12 s, hard");
  same("wet shake 10 s", "shake 10 s");
  same("reverse dry shake 8 s", "shake 12 s\nstrain to tin\ndry shake 8 s");
  same("shake 12 s\nreverse dry shake 8 s", "shake 12 s\nstrain to tin\ndry shake 8 s");
  same("stir until cold", "stir 30 s, until cold");
}

TEST_CASE("the glass and the ice that a step names are the drink's", "[trade forms]") {
  same("strain into a coupe", "strain\nglass coupe");
  same("strain into a chilled coupe", "strain\nglass coupe, chilled");
  same("strain over ice", "strain\nice cubed");
  same("ice large cube\nstrain over ice", "ice large cube\nstrain");
  same("build over ice", "ice cubed\nbuild");
  same("serve on the rocks", "ice cubed");
  same("serve up", "ice none");
  same("strain into the tin", "strain to tin");
  same("coupe, no ice", "glass coupe\nice none");
  same("shake 12 s, in the highball", "shake 12 s\nglass highball");
  same("60 ml vodka, over crushed ice", "60 ml vodka\nice crushed");
}

TEST_CASE("two glasses, or ice and no ice, are told and not chosen between", "[trade forms]") {
  for (const char* lines : {"glass coupe\n  strain into a rocks glass", "ice none\n  strain over ice",
                            "ice large cube\n  strain over crushed ice"}) {
    auto compiled = compile(std::string("drink X\n  60 ml vodka\n  ") + lines + "\n");
    INFO(lines);
    CHECK(compiled.sink.has_errors());
  }
}

TEST_CASE("amounts in a bar's own words", "[trade forms]") {
  same("a dash of aromatic bitters", "1 dash aromatic bitters");
  same("dash aromatic bitters", "1 dash aromatic bitters");
  same("a barspoon of absinthe", "1 barspoon absinthe");
  same("half a lemon", "1/2 lemon");
  same("an egg white", "1 egg white");
  same("vodka 30 ml", "30 ml vodka");
  same("30 ml/1 oz vodka", "30 ml = 1 oz vodka");
  same("2 to 3 dashes aromatic bitters", "2..3 dashes aromatic bitters");
  same("1 oz each vodka, white rum and cognac", "1 oz vodka\n1 oz white rum\n1 oz cognac");
  same("size 90 ml\nequal parts vodka, white rum", "size 90 ml\n1 part vodka\n1 part white rum");
  same("add 15 ml cognac", "15 ml cognac");
}

TEST_CASE("juice and zest of a fruit are what the fruit is said to give", "[trade forms]") {
  auto compiled = compile(
      "ingredient lime like lime\n  gives 30 ml lime juice, 6 g lime peel\n"
      "drink X\n  juice of 1/2 lime\n  zest of 2 limes\n  4 limes, squeezed\n");
  CHECK(compiled.sink.all().empty());
  const auto& amounts = compiled.drink("X").recipe.amounts;
  REQUIRE(amounts.size() == 3);
  CHECK(amounts[0].quantity.number() == Approx(15));
  CHECK(amounts[1].quantity.number() == Approx(12));
  CHECK(amounts[2].quantity.number() == Approx(120));
}

TEST_CASE("tops, rinses and rims are written in several ways", "[trade forms]") {
  same("strain\ntop up with soda water", "strain\ntop soda water");
  same("strain\ntop w/ soda water", "strain\ntop soda water");
  same("strain\nfill with soda water", "strain\ntop soda water");
  same("absinthe rinse", "rinse absinthe");
  same("rinse glass with absinthe", "rinse absinthe");
  same("salt rim", "rim salt");
  same("half rim salt", "rim salt, half");
}

TEST_CASE("a prep's waits, heats and filters", "[trade forms]") {
  same_in_prep("100 ml water\nrest overnight in the fridge", "100 ml water\nrest 12 h at 4 C");
  same_in_prep("100 ml water\nfreeze overnight", "100 ml water\nfreeze 12 h");
  same_in_prep("100 ml water\nbring to the boil", "100 ml water\nheat to 100 C");
  same_in_prep("100 ml water\nreduce by half", "100 ml water\nreduce by 50 %");
  same_in_prep("100 ml vodka\nmake up to 1 l", "100 ml vodka\nto 1 l water");
  same_in_prep("100 ml water\nstrain through a coffee filter",
               "100 ml water\nstrain, through a coffee filter");
  same_in_prep("100 ml water\nkeeps 2 wk in the fridge", "100 ml water\nkeeps 2 wk chilled");
  same_in_prep("100 ml water\ninfuse 24 h at room temperature", "100 ml water\ninfuse 24 h at 20 C");
}

TEST_CASE("an unquoted remark hides no amount, ingredient, allergen, glass, ice, time or step",
          "[trade forms]") {
  for (const char* line : {"60 ml vodka, from 5 ml more", "60 ml vodka, with sesame",
                           "glass coupe, then rinse", "60 ml vodka, nuts"}) {
    auto compiled = compile(std::string("drink X\n  ") + line + "\n");
    INFO(line);
    CHECK(compiled.sink.has_errors());
  }
  for (const char* line :
       {"60 ml vodka, from the well", "glass coupe, \"peanut rim\"", "shake 12 s, hard",
        "garnish lemon twist, expressed over the top", "60 ml vodka, \"5 ml more on Fridays\""}) {
    auto compiled = compile(std::string("drink X\n  30 ml cognac\n  ") + line + "\n");
    INFO(line);
    CHECK_FALSE(compiled.sink.has_errors());
  }
}

TEST_CASE("a word with several meanings asks, until the house says what it means", "[trade forms]") {
  auto asked = compile("drink X\n  60 ml rum\n");
  REQUIRE(asked.sink.all().size() == 1);
  CHECK(asked.sink.all()[0].help.find("`white rum`") != std::string::npos);
  CHECK(asked.sink.all()[0].help.find("`aged rum`") != std::string::npos);
  auto meant = compile("house H\n  mean rum = aged rum\ndrink X\n  60 ml rum\n");
  CHECK(meant.sink.all().empty());
  CHECK(meant.specs[meant.drink("X").recipe.amounts[0].use().stock].head.name == "aged rum");
}

TEST_CASE("a finding of a reading stands at the words that were written", "[trade forms]") {
  auto compiled = compile(
      "drink X\n  1 oz each vodka, white rum, cognac, vodka\n  shake 12 s and strain into a jam jar of "
      "mine\n");
  REQUIRE_FALSE(compiled.sink.all().empty());
  for (const auto& finding : compiled.sink.all())
    CHECK_FALSE(compiled.sources[finding.span.file_id].read_from.file_id.valid());
}

TEST_CASE("hot water is hot, boiling water boils, and hot sauce is a sauce", "[trade forms]") {
  same("120 ml hot water", "120 ml water, hot");
  same("120 ml boiling water", "120 ml water, at 100 C");
  same("60 ml cold cream", "60 ml cream, chilled");
  same_in_prep("1 l hot water", "1 l water, hot");
  auto sauce = compile("drink X\n  2 dashes hot sauce\n");
  CHECK(sauce.sink.all().empty());
  CHECK_FALSE(sauce.drink("X").recipe.amounts[0].hot);
}

TEST_CASE("how, what for and in what state a step is done stands behind it", "[trade forms]") {
  same("muddle gently", "muddle, \"gently\"");
  same("shake 12 s\nstrain\ntop prosecco slowly", "shake 12 s\nstrain\ntop prosecco, \"slowly\"");
  same("stir to combine", "stir, \"to combine\"");
  same_in_prep("100 g white sugar\n100 g water\ndissolve while hot",
               "100 g white sugar\n100 g water\ndissolve, \"while hot\"");
  same("roll 5x", "roll 5");
}

TEST_CASE("steps are read as they are told of afterwards", "[trade forms]") {
  same("shaken, double strained", "shake\ndouble strain");
  same("shake dry then with ice", "dry shake\nshake");
  same("shake and pour over ice", "shake\nstrain\nice cubed");
}

TEST_CASE("the fat that went in is the fat that comes off", "[trade forms]") {
  const std::string washed = "700 ml aged rum\n120 g butter\nrest 3 h at 50 C\nfreeze 12 h at -18 C\n";
  for (const char* line :
       {"scrape off the fat", "skim off the fat", "remove the butter", "lift off the fat cap"})
    same_in_prep(washed + line, washed + "remove butter");
  const std::string of = "700 ml aged rum\n120 g of butter\nfreeze 12 h at -18 C\n";
  same_in_prep(of + "scrape off the fat", of + "remove butter");
}

TEST_CASE("cold places say how long and how cold", "[trade forms]") {
  same_in_prep("500 ml London dry gin\n20 g lemon peel\ninfuse 12 h fridge",
               "500 ml London dry gin\n20 g lemon peel\ninfuse 12 h at 4 C");
  same_in_prep("500 ml London dry gin\nfridge overnight", "500 ml London dry gin\nrest 12 h at 4 C");
  same_in_prep("500 ml London dry gin\nfreezer overnight", "500 ml London dry gin\nfreeze 12 h");
  same("60 ml London dry gin from the freezer", "60 ml London dry gin, frozen");
  same_in_prep("500 ml water\nwarm to 60 C", "500 ml water\nheat to 60 C");
  same_in_prep("500 ml aged rum\n100 ml lemon juice\nclarify with 400 ml milk",
               "500 ml aged rum\n100 ml lemon juice\n400 ml milk\nclarify");
}

TEST_CASE("what stands beside the drink, how many, and what the glass is filled with", "[trade forms]") {
  same("side splash of prosecco", "side prosecco, \"splash\"");
  same("garnish apple slices x3", "garnish 3 apple slices");
  same("fill rocks with crushed ice", "glass rocks\nice crushed");
  same("egg white", "1 egg white");
}

TEST_CASE("leaves and tea are told apart by how they are measured", "[trade forms]") {
  auto compiled = compile("prep X\n  500 ml London dry gin\n  15 g earl grey\n  infuse 2 h\n");
  CHECK(gill::testing::findings(compiled) == std::vector<std::string>{"unknown-name 3:8-9"});
  CHECK_FALSE(compile("prep X\n  500 ml London dry gin\n  15 g Earl Grey tea leaves\n").sink.has_errors());
  CHECK_FALSE(compile("prep X\n  500 ml London dry gin\n  150 ml earl grey\n").sink.has_errors());
}

TEST_CASE("a full stop, a semicolon, a slash and a plus part what stands on one line", "[trade forms]") {
  same("30 ml White Rum.", "30 ml white rum");
  same("SHAKE. DOUBLE STRAIN.", "shake\ndouble strain");
  same("30 ml vodka; 15 ml orgeat; 2 dashes aromatic bitters",
       "30 ml vodka\n15 ml orgeat\n2 dashes aromatic bitters");
  same("30 ml vodka / 15 ml orgeat", "30 ml vodka\n15 ml orgeat");
  same("30 ml/1 oz vodka", "30 ml = 1 oz vodka");
  same("30 ml vodka + 15 ml orgeat & 10 ml cognac", "30 ml vodka\n15 ml orgeat\n10 ml cognac");
  same("30 ml vodka 15 ml triple sec", "30 ml vodka\n15 ml triple sec");
  same("shake hard / fine strain / coupe / lime wheel",
       "shake, hard\nfine strain\nglass coupe\ngarnish lime wheel");
  same("Stir well with ice (30 sec). Strain.", "stir 30 s with cubed, \"well\"\nstrain");
  same("Shake, dbl. strain, coupe", "shake\ndouble strain\nglass coupe");
  same("1 oz. Rye", "1 oz rye whiskey");
  same("strain\nstrain to tin\ndry shake, martini glass, 3 coffee beans",
       "strain\nstrain to tin\ndry shake\nglass martini glass\n3 coffee beans");
}

TEST_CASE("marks and letters that stand for words", "[trade forms]") {
  same("shake 15\"", "shake 15 s");
  same("~10 mint leaves", "about 10 mint leaves");
  same("vodka40ml", "40 ml vodka");
  same("shake w/ice", "shake with cubed");
  same("shake\nstrain o/ crushed ice", "shake\nstrain\nice crushed");
  same("strain\nlime wheel n cherry", "strain\ngarnish lime wheel\ngarnish cherry");
  same("1 TSP GRENADINE", "1 tsp grenadine");
  same("strain\nlemon whl", "strain\ngarnish lemon wheel");
  same_in_prep("300 g water @ 60C", "300 g water, at 60 C");
  same_in_prep("1 l water\nheat to 80C/176F", "1 l water\nheat to 80 C");
  same_in_prep("1 l water\nfreeze o/n", "1 l water\nfreeze 12 h");
  same_in_prep("1 l water\nstrain (coffee filter)", "1 l water\nstrain, coffee filter");
}

TEST_CASE("an amount is known with its measure in brackets, in halves and in words", "[trade forms]") {
  same("egg white (25 ml)", "25 ml egg white");
  same("2 oz tequila (blanco)", "2 oz tequila blanco");
  same("one and a half oz vodka", "1 1/2 oz vodka");
  same("three-quarter oz vodka", "3/4 oz vodka");
  same("1/2 a lime", "1/2 lime");
  same("Cognac, 15 ml", "15 ml cognac");
  same("30 ml white wine, well chilled", "30 ml dry white wine, chilled");
  same("10 ml grappa, on the side", "side 10 ml grappa");
  same("10 ml absinthe floated on top", "float 10 ml absinthe");
  same("strain\n20 ml champagne to finish", "strain\ntop 20 ml champagne");
  same("15 ml each sweet & dry vermouth", "15 ml sweet vermouth\n15 ml dry vermouth");
  same("1 dash of lime", "1 dash lime juice");
  same("strain\nhalf moon of orange", "strain\ngarnish orange half wheel");
  same("strain\nflamed orange", "strain\ngarnish orange twist, \"flamed\"");
  same_in_prep("1 x 70 cl bottle bourbon", "70 cl bourbon whiskey");
  same_in_prep("1 bottle aged rum (700ml)", "700 ml aged rum");
  same_in_prep("zest 9 limes", "45 g lime peel");
  same_in_prep("zest and juice of 2 lemons", "18 g lemon peel\n90 ml lemon juice");
  same_in_prep("Sugar 800 g", "800 g white sugar");
}

TEST_CASE("where the drink goes stands behind a step without its preposition", "[trade forms]") {
  same("shake\nfine strain coupe", "shake\nfine strain\nglass coupe");
  same("build over ice highball", "ice cubed\nglass highball\nbuild");
  same("cubed ice mug", "ice cubed\nglass mug");
  same("served in a coupe with a lemon twist", "glass coupe\ngarnish lemon twist");
  same("chuck it all in a highball with ice", "glass highball\nice cubed\nbuild");
  same("shake\nserve without straining in a tumbler", "shake\ndump\nglass tumbler");
  same("strain\ntop slowly with 60 ml soda water", "strain\ntop 60 ml soda water");
  same("strain\ntop prosecco 60 ml", "strain\ntop 60 ml prosecco");
}

TEST_CASE("a kitchen's times, places and heats in any order", "[trade forms]") {
  same_in_prep("1 l water\n6 weeks, fridge", "1 l water\nkeeps 6 wk chilled");
  same_in_prep("1 l water\n1 month @ 4C", "1 l water\nkeeps 1 mo chilled");
  same_in_prep("1 l water\nbottle. 3 weeks chilled.", "1 l water\nbottle\nkeeps 3 wk chilled");
  same_in_prep("1 l water\nsteep 18 h, fridge", "1 l water\nsteep 18 h at 4 C");
  same_in_prep("1 l water\ncover, 24 h fridge", "1 l water\ndo cover\nrest 24 h at 4 C");
  same_in_prep("1 l water\nheat 70C", "1 l water\nheat to 70 C");
  same_in_prep("1 l water\nsous vide 55C 2h", "1 l water\nheat to 55 C for 2 h");
  same_in_prep("1 l water\nice bath", "1 l water\ncool, \"in an ice bath\"");
  same_in_prep("1 l water\nreduce by 1/3", "1 l water\nreduce by 33.3 %");
  same_in_prep("200 g orange\nsimmer in 1 l water, 20 mins", "200 g orange\n1 l water\nsimmer 20 min");
  same_in_prep("1 l lime juice\n2 g agar\nwhisk agar into lime",
               "1 l lime juice\n2 g agar\nstir, \"whisk agar into lime\"");
  same_in_prep("1 l water\nmacerate 2 wk, shake daily", "1 l water\nmacerate 2 wk, \"shake daily\"");
}

TEST_CASE("what would be lost in words is refused", "[trade forms]") {
  for (const char* line : {"serve in a martini glass drizzled with chocolate", "60 cranberry", "15 ml sugar",
                           "blend with 6 oz crushed", "60 ml vodka, chilld",
                           "60 ml vodka, chilled garnish none", "shake, do not boil (70C)", "60 ml eggs"}) {
    INFO(line);
    CHECK(compile(std::string("drink X\n  30 ml lime juice\n  ") + line + "\n").sink.has_errors());
  }
  CHECK(compile("prep X\n  1 l water\n  use within 5 days\n").sink.has_errors());
  CHECK(compile("prep X\n  1 l water\n  weigh, add same weight of sugar\n").sink.has_errors());
}

TEST_CASE(
    "a bottle that nobody knows is declared from its nearest relation, and never taken for another word",
    "[trade forms]") {
  auto help = [](const std::string& line) {
    auto compiled = compile("drink X\n  " + line + "\n");
    for (const auto& finding : compiled.sink.all())
      if (finding.rule == gill::diagnostics::Rule::unknown_name) return finding.help;
    return std::string();
  };
  CHECK(help("30 ml Grey Heron vodka").find("`ingredient Grey Heron vodka like vodka`") != std::string::npos);
  CHECK(help("30 ml fernet lantern").find("`ingredient fernet lantern like fernet`") != std::string::npos);
  CHECK(help("30 ml amarri").find("Did you mean") != std::string::npos);
  for (const char* word : {"kampari", "Heronlight", "wharfside"}) {
    INFO(word);
    CHECK(help(std::string("30 ml ") + word).find("Did you mean") == std::string::npos);
  }
}

TEST_CASE("a name that a house writes with a point or short is its own", "[trade forms]") {
  auto compiled = compile(
      "ingredient Harbour & Co.\n  kind spirit\n  strength 40 % abv\n  allergen none\n"
      "ingredient Salt n Light\n  kind syrup\n  sugar 50 % w/w\n  allergen none\n"
      "drink X\n  30 ml Harbour & Co.\n  10 ml Salt n Light\n");
  CHECK_FALSE(compiled.sink.has_errors());
}

TEST_CASE("words behind an amount that say what for, where or how change nothing", "[trade forms]") {
  same_in_prep("30 ml vodka to preserve", "30 ml vodka, \"to preserve\"");
  same_in_prep("400 ml water for dilution", "400 ml water, \"for dilution\"");
  same("strain\nfloat 15 ml dry red wine over the back of a spoon",
       "strain\nfloat 15 ml dry red wine, \"over the back of a spoon\"");
  same("40 ml cognac VSOP", "40 ml cognac, \"VSOP\"");
  same("1 egg white only", "1 egg white, \"only\"");
  same_in_prep("12 oz honey by weight", "12 oz wt honey");
  same("20 ml honey syrup, 2:1", "20 ml rich honey syrup");
  same("5 ml lemon juice, strained", "5 ml lemon juice, \"strained\"");
  same_in_prep("250 ml milk, heated to 70 C", "250 ml milk, at 70 C");
  same("2 cl juice of lime", "2 cl lime juice");
  same("pulp of 1 passion fruit", "15 ml passion fruit pulp");
  same("add a splash of soda water", "1 splash soda water");
  same("sugar cube, soaked in 3 dashes aromatic bitters", "1 sugar cube\n3 dashes aromatic bitters");
}

TEST_CASE("words behind an amount that say more are refused", "[trade forms]") {
  auto refused = [](const std::string& line) {
    INFO(line);
    CHECK(compile("drink X\n  30 ml gin\n  shake\n  strain\n  " + line + "\n").sink.has_errors());
  };
  refused("30 ml vodka to rinse the flask");
  refused("30 ml vodka for floating");
  refused("15 ml orgeat to the almond");
  refused("30 ml vodka for 2 guests");
}

TEST_CASE("what a list of pours shares is the juice of its fruit", "[trade forms]") {
  same("equal parts London dry gin, maraschino liqueur, lime - 3/4 oz each",
       "3/4 oz London dry gin\n3/4 oz maraschino liqueur\n3/4 oz lime juice");
  same("equal parts London dry gin, sweet vermouth (1 oz each)", "1 oz London dry gin\n1 oz sweet vermouth");
  same_in_prep("zest of 2 lemons and 2 limes", "zest of 2 lemons\nzest of 2 limes");
}

TEST_CASE("garnishes in a hurried hand", "[trade forms]") {
  same("strain\nbasil leaf for decoration", "strain\ngarnish basil leaf, \"for decoration\"");
  same("strain\norange peel expressed over the drink",
       "strain\ngarnish orange peel, \"expressed over the drink\"");
  same("strain\ngarnish with a lime wedge", "strain\ngarnish lime wedge");
  same("strain\ndecoration: orange slice, cocktail cherry",
       "strain\ngarnish orange slice\ngarnish cocktail cherry");
  same("strain\nsqueeze a lime wedge and drop it in", "strain\ngarnish lime wedge, squeezed in");
  same("strain\nlime shell + mint sprig", "strain\ngarnish lime shell\ngarnish mint sprig");
  same("strain\ndash of aromatic bitters on top", "strain\ngarnish 1 dash aromatic bitters, on top");
  same("strain\n30 ml cream on top", "strain\nfloat 30 ml cream");
  same("side of prosecco 60 ml", "side 60 ml prosecco");
  same("strain\nclove-studded lemon wheel", "strain\ngarnish clove\ngarnish lemon wheel");
}

TEST_CASE("glasses and ice in a hurried hand", "[trade forms]") {
  same("shake\nstrain over big block", "shake\nstrain\nice large cube");
  same("shake\nstrain into a sugar-rimmed coupe", "shake\nrim white sugar\nstrain\nglass coupe");
  same("shake\nstrain into an absinthe-rinsed coupe", "shake\nrinse absinthe\nstrain\nglass coupe");
  same("shake\nstrain into ice filled collins", "shake\nstrain\nglass collins\nice cubed");
  same("shake\nstrain - coupe", "shake\nstrain\nglass coupe");
  same("shake\nstrain into a highball without ice", "shake\nstrain\nglass highball\nice none");
  same("ice in a highball", "glass highball\nice cubed");
  same("crushed ice to the top", "add crushed, \"to the brim\"");
  same("big scoop crushed ice", "add crushed");
  same("put long ice in glass", "add spear, \"in glass\"");
  same("add hard ice", "add cubed");
  same("rocks glass (chilled)", "glass rocks, chilled");
  same("stir 40x", "stir, \"40x\"");
  same("build\ntop with boiling water", "build\ntop water, at 100 C");
}

TEST_CASE("what hands do in a kitchen", "[trade forms]") {
  same_in_prep("100 g sugar\n500 ml water\ntake off the heat, steep 1 h",
               "100 g sugar\n500 ml water\ndo take off the heat\nsteep 1 h");
  same_in_prep("500 ml water\nlet sit another 24 h", "500 ml water\nrest 24 h");
  same_in_prep("500 ml water\nkeep refrigerated up to 1 month", "500 ml water\nkeeps 1 month chilled");
  same_in_prep("500 ml water\nuse within 3 weeks, keep in fridge", "500 ml water\nkeeps 3 weeks chilled");
  same_in_prep("500 ml water\n60 ml dropper bottles", "500 ml water\nbottle 60 ml, \"dropper bottles\"");
  same_in_prep("500 ml water\nyield 400 ml", "500 ml water\nmakes 400 ml");
  same_in_prep("500 ml water\nsimmer gently until reduced by half",
               "500 ml water\nreduce by 50 %, \"simmer gently\"");
  same_in_prep("500 ml water\ncool, add 1 tsp orange flower water",
               "500 ml water\ncool\n1 tsp orange flower water");
  same_in_prep("500 ml water\ninto 1 l siphon, 2 x N2O", "500 ml water\ndo into 1 l siphon\ncharge 2");
  same_in_prep("500 ml water\nstrain through muslin then coffee filter",
               "500 ml water\nstrain, through muslin\nstrain, through coffee filter");
}

TEST_CASE("a hurried bartender's words for a step are that step", "[trade forms]") {
  same("build\ngive it a quick stir", "build\nstir, \"quick\"");
  same("build\nquick stir", "build\nstir, \"quick\"");
  same("stir down over ice, about 40 seconds\nstrain", "stir about 40 s with ice, \"down\"\nstrain");
  same("shake very hard, 10 to 12 seconds", "shake 10..12 s, \"very hard\"");
  same("stir approx 30s, strain", "stir about 30 s\nstrain");
  same("shake for one minute", "shake 1 min");
  same("shake for two more minutes", "shake 2 min");
  same("shake energetically with ice", "shake with ice, \"energetically\"");
  same("Method: shake, strain", "shake\nstrain");
  same("then shake\nfinally strain", "shake\nstrain");
  same("dry shake first\nshake again on ice", "dry shake, \"first\"\nshake");
  same("20 ml egg white\ndry shake, ice, shake again", "20 ml egg white\ndry shake\ndo add ice\nshake");
  same("shake, ds into a coupe", "shake\ndouble strain\nglass coupe");
  same("shake\nstrain fine", "shake\nfine strain");
  same("build\ndon't stir", "build\ndo don't stir");
}

TEST_CASE("where a drink is served may stand with what is poured, and what sparkles alone is the top",
          "[trade forms]") {
  same("100 ml orange juice over ice", "ice cubed\n100 ml orange juice");
  same("shake, strain into an iceless highball", "shake\nstrain\nglass highball\nice none");
  same("shake, strain into a coupe from the freezer", "shake\nstrain\nglass coupe, frozen");
  same("build directly into the flute", "glass flute\nbuild");
  same("absinthe rinse on a chilled rocks glass", "rinse absinthe\nglass rocks, chilled");
  same("highball, ice, soda water", "glass highball\nice cubed\ntop soda water");
  same("soda top, about 80 ml", "top about 80 ml soda water");
  same("prosecco on top, 60 ml or so", "top about 60 ml prosecco");
  same("serves two over ice", "serves 2\nice cubed");
  same("build in collins, salted half rim", "glass collins\nbuild\nrim salt, half");
}

TEST_CASE("a piece without a number lies on a drink that was mixed", "[trade forms]") {
  same("roll\nstick of celery", "roll\ngarnish celery stick");
  same("stir\nhalf moon of orange", "stir\ngarnish orange half wheel");
  same("build\nglass highball\nhalf moon orange", "build\nglass highball\ngarnish orange half wheel");
  same("build\nglass highball\ncherries x2", "build\nglass highball\ngarnish 2 cherries");
  same("stir\nlemon oils, discard peel", "stir\ngarnish lemon twist, expressed and discarded");
  same("stir\nlemon zest, twisted", "stir\ngarnish lemon zest, expressed");
  same("stir\nmint top", "stir\ngarnish mint sprig, \"the top\"");
  // Before anything was worked they go in.
  same("8 mint leaves in the bottom of the glass", "8 leaves mint, \"in the bottom of the glass\"");
  same("half a lime in cubes\nmuddle", "1/2 lime, \"in cubes\"\nmuddle");
}

TEST_CASE("amounts in the bar's words are those amounts", "[trade forms]") {
  same("1 heaped barspoon of marmalade", "1 barspoon marmalade, \"heaped\"");
  same("3/4 oz basil simple", "3/4 oz basil syrup");
  same("4 shakes hot sauce", "4 dashes hot sauce");
  same("white of one egg", "1 egg white");
  same("150 ml water just off the boil", "150 ml water, hot");
  same("60 ml cold brew", "60 ml cold brew coffee");
  same("fresh orange juice 120 ml", "120 ml orange juice");
  same("salt & pepper to taste", "1 pinch salt\n1 pinch black pepper, \"to taste\"");
  same_in_prep("peels of 4 lemons and 4 oranges", "peel of 4 lemons\npeel of 4 oranges");
  same_in_prep("1 bottle overproof rum, 700 ml", "700 ml overproof rum");
}

TEST_CASE("a kitchen's step says what it is done to, how long in words, and where", "[trade forms]") {
  same_in_prep("10 g black tea leaves\n1 l water\nsteep the tea leaves 5 min",
               "10 g black tea leaves\n1 l water\nsteep 5 min, \"the tea leaves\"");
  same_in_prep("1 kg white sugar\n1 l water\nbring water and sugar to a boil",
               "1 kg white sugar\n1 l water\nheat to 100 C");
  same_in_prep("1 l water\nrest one week", "1 l water\nrest 1 week");
  same_in_prep("1 l water\nstir together and hold 2 hours at room temp",
               "1 l water\nstir, \"together\"\nrest 2 hours at 20 C");
  same_in_prep("1 l water\nferment 3 days, skim daily", "1 l water\nferment 3 days, \"skim daily\"");
  same_in_prep("1 l water\nstrain twice through paper", "1 l water\nstrain, through paper, twice");
  same_in_prep("1 l water\nbottle in 750 ml", "1 l water\nbottle 750 ml");
  same_in_prep("1 l water\ncarbonate at 3 vol", "1 l water\ncarbonate to 3 vol");
  same_in_prep("1 l water\nmix with 100 ml rich syrup", "1 l water\n100 ml rich syrup\nstir");
  same_in_prep("1 l water\nkeep upside down in fridge, use same day", "1 l water\nkeeps 1 d chilled");
  // Behind a label it keeps so long; it does not stand.
  same_in_prep("1 l water\nbottle, label, date. 3 months in the fridge",
               "1 l water\nbottle\ndo label\ndo date\nkeeps 3 months chilled");
}

TEST_CASE("a step or a rim that a remark would hide is told", "[trade forms]") {
  for (const char* line : {"build, crusted salt rim", "strain, heavy salted rim"}) {
    INFO(line);
    CHECK(compile("drink X\n  30 ml lime juice\n  " + std::string(line) + "\n").sink.has_errors());
  }
}

TEST_CASE("a number in words stays in a name that is declared", "[trade forms]") {
  auto house = compile(
      "prep two day ginger\n  500 g ginger\n  500 ml water\n  boil 10 min\n  strain\ndrink X\n  50 ml two "
      "day ginger\n");
  for (const auto& finding : house.sink.all()) UNSCOPED_INFO(finding.message);
  CHECK_FALSE(house.sink.has_errors());
}

TEST_CASE("what is said of warmth, of what is left off and of how long is not lost", "[trade forms]") {
  same("build\nfill with boiling water, about 120ml", "build\ntop about 120 ml water, at 100 C");
  same("stir\nserve in a preheated glass with a slice of orange",
       "stir\nserve in a preheated glass\ngarnish orange slice");
  same("stir\nlemon twist, no beans", "stir\ngarnish lemon twist, \"no beans\"");
  same("stir\norange peel, expressed & dropped", "stir\ngarnish orange peel, expressed and dropped in");
  same("stir\ncucumber and lemon slices on top",
       "stir\ngarnish cucumber slice\ngarnish lemon slices, on top");
  same("build\nhighball\nswizzle, more crushed ice on top",
       "build\nglass highball\nswizzle\nadd crushed, \"on top\"");
  same("500 ml soda water at the last", "top 500 ml soda water");
  same_in_prep("1 l water\nkeeps two weeks in fridge", "1 l water\nkeeps 2 weeks chilled");
  same_in_prep("1 l water\nsqueezy bottles, 3 weeks fridge",
               "1 l water\nbottle, \"squeezy bottles\"\nkeeps 3 weeks chilled");
  same_in_prep("1 l water\n500 g strawberry\nmacerate the berries 24 hours",
               "1 l water\n500 g strawberry\nmacerate 24 hours, \"the berries\"");
  same_in_prep("1 l water\ninfuse for a day, taste after 12 hours",
               "1 l water\ninfuse 1 day, \"taste after 12 hours\"");
  same_in_prep("1 l water\nno fridge needed, 6 months", "1 l water\nkeeps 6 months ambient");
}

TEST_CASE("several packs, a cold pour and a name turned round are amounts", "[trade forms]") {
  same("2 x 750 ml dry red wine", "1500 ml dry red wine");
  same("50 ml dry vermouth at -18 C", "50 ml dry vermouth, at -18 C");
  same("15 ml creme de cacao white", "15 ml white crème de cacao");
  same("60 ml whiskey rye", "60 ml rye whiskey");
  same("pinch of nutmeg and cinnamon", "1 pinch ground nutmeg\n1 pinch ground cinnamon");
  same("3 sticks of cinnamon", "3 cinnamon sticks");
  same("8 or so mint leaves", "8 mint leaves");
  same("build\nchampagne 60 ml on top", "build\ntop 60 ml champagne");
}

TEST_CASE("a glass says how it comes, what is on its rim and for how many it is", "[trade forms]") {
  same("coupe rimmed with salt", "glass coupe\nrim salt");
  same("salt-rimmed coupe", "glass coupe\nrim salt");
  same("rocks with a half salt rim", "glass rocks\nrim salt, half");
  same("glass hot mug", "glass mug, warmed");
  same("glass cocktail", "glass cocktail glass");
  same("glass coupe (chilled)", "glass coupe, chilled");
  same("punch bowl, punch cups", "glass punch bowl\ncup punch cup");
  same("10 portions", "serves 10");
  same("without garnish", "garnish none");
}

TEST_CASE("what is sprayed, dropped in or stuck is read, and no ice of a second shake is lost",
          "[trade forms]") {
  same("shake\nstrain\nabsinthe mist in the glass", "shake\nstrain\nmist 1 absinthe");
  same("shake\nstrain\ndrop a cherry in the bottom", "shake\nstrain\ngarnish cherry, \"in the bottom\"");
  same("shake\nstrain\nlemon peel, spritzed and dropped in",
       "shake\nstrain\ngarnish lemon peel, spritzed and dropped in");
  same("build\nslice of lemon stuck with 5 cloves", "build\ngarnish lemon slice\ngarnish 5 cloves");
  same("dry shake, then with ice", "dry shake\nshake");
  same("shake\nstrain into chilled collins, fill w/ cold club",
       "shake\nstrain\nglass collins, chilled\ntop soda water, chilled");
  same("stir well, chill overnight", "stir, well\nrest 12 h at 4 C");
}

TEST_CASE("a heat that is held is one step of a prep, and what went in is taken out", "[trade forms]") {
  same_in_prep("1 l water\nbring up to 85 C, hold 20 min", "1 l water\nheat to 85 C for 20 min");
  same_in_prep("1 l water\n2 vanilla bean\nfish out the pods",
               "1 l water\n2 vanilla bean\nremove vanilla bean");
  same_in_prep("1 l water\nbottle in 700 ml bottles", "1 l water\nbottle 700 ml");
  same_in_prep("1 l water\ncut into 5 cm cubes", "1 l water\ndo cut into 5 cm cubes");
  same_in_prep("1 l water\n1 year stable at room temperature", "1 l water\nkeeps 1 year ambient");
}

TEST_CASE("a row of measures goes to its names, and no fraction is a row", "[trade forms]") {
  same("30/20 ml gin, dry vermouth", "30 ml London dry gin\n20 ml dry vermouth");
  same("30/30/30 gin, dry vermouth, sweet vermouth",
       "30 ml London dry gin\n30 ml dry vermouth\n30 ml sweet vermouth");
  same("3/4 oz gin", "3/4 oz London dry gin");
  same("60 ml gin (2 oz)", "60 ml = 2 oz London dry gin");
  same("30 ml lime juice (1 lime)", "30 ml lime juice, \"1 lime\"");
}

TEST_CASE("warmth behind a name or a comma is no remark", "[trade forms]") {
  same("150 ml water boiling", "150 ml water, at 100 C");
  same("150 ml water, boiling", "150 ml water, at 100 C");
  same("30 ml milk, warm", "30 ml milk, at 50 C");
  same("30 ml milk, very cold", "30 ml milk, chilled");
}

TEST_CASE("what is poured away, left off or made into something else is told apart", "[trade forms]") {
  same("rinse absinthe and dump\n60 ml vodka", "rinse absinthe, \"dump\"\n60 ml vodka");
  same("rinse absinthe, swirl and discard", "rinse absinthe, \"swirl and discard\"");
  same("skip the garnish", "garnish none");
  same("dry shake 10 s, no ice", "dry shake 10 s");
  same("no rim", "do \"no rim\"");
  same("shake\nstrain\nlime wheel dehydrated", "shake\nstrain\ngarnish dehydrated lime wheel");
}

TEST_CASE("the amounts of a step go in before it", "[trade forms]") {
  same("shake 60 ml gin and 20 ml lime juice", "60 ml London dry gin\n20 ml lime juice\nshake");
  same_in_prep("boil 500 ml water, 200 g honey", "500 ml water\n200 g honey\nheat to 100 C");
  same_in_prep("1 l water\nbring to a simmer and hold 5 min", "1 l water\nsimmer 5 min");
  same_in_prep("1 l water\nbottle 500 ml, keeps 2 wk chilled",
               "1 l water\nbottle 500 ml\nkeeps 2 wk chilled");
  same_in_prep("1 l dark rum\ndilute to 30 % abv", "1 l dark rum\nuntil strength 30 % abv water");
  same_in_prep("200 g honey\nadd water to 1 l", "200 g honey\nto 1 l water");
}

TEST_CASE("what could be said of two things is asked about", "[trade forms]") {
  for (std::string_view line :
       {"shake 10 s, no ice", "stir, no ice", "dump without ice", "shake twice 10 s",
        "60 ml stout\n  top with the stout", "45/15 ml gin", "dash sugar", "500 ml water, 2 times"}) {
    INFO(line);
    CHECK(compile("drink X\n  20 ml vodka\n  " + std::string(line) + "\n").sink.has_errors());
  }
  CHECK(compile("prep X\n  1 l water\n  makes 620\n").sink.has_errors());
}

TEST_CASE("a property that says two things is asked about, not overwritten", "[trade forms]") {
  for (std::string lines :
       {"glass coupe\n  glass rocks", "serves 2\n  serves 4", "ice none\n  ice crushed"}) {
    INFO(lines);
    auto compiled = compile("drink X\n  30 ml lime juice\n  " + lines + "\n");
    REQUIRE(compiled.sink.has_errors());
    CHECK(compiled.sink.all().front().message.find("stands here twice") != std::string::npos);
  }
  CHECK(compile("prep X\n  1 l water\n  keeps 5 d chilled\n  keeps 7 d chilled\n").sink.has_errors());
  CHECK_FALSE(compile("drink X\n  30 ml lime juice\n  glass coupe\n  glass coupe\n").sink.has_errors());
  CHECK_FALSE(compile("drink X\n  1 lime\n  glass coupe\ndrink Y like X\n  glass rocks\n").sink.has_errors());
}

TEST_CASE("what is crushed, cubed or another kind of the thing is no ice and no remark", "[trade forms]") {
  same("3 strawberries, crushed", "3 strawberries\nmuddle, \"crushed\"");
  same("3 cardamom pods, crushed", "3 cardamom pods, \"crushed\"");
  same("1/4 pineapple, cubed", "1/4 pineapple, \"cubed\"");
  same("8 mint leaves, gently pressed in the cup",
       "build\n8 mint leaves\nmuddle, \"gently pressed in the cup\"");
  same("20 g butter, salted", "20 g salted butter");
  same("30 ml orange juice, blood", "30 ml blood orange juice");
  same("25 ml lime juice, fresh", "25 ml lime juice, fresh");
  same("100 ml steamed milk", "100 ml milk, at 65 C");
  same("100 ml milk, steamed", "100 ml milk, at 65 C");
  same("100 ml warm milk", "100 ml milk, at 50 C");
}

TEST_CASE("what one amount is dissolved in or soaked with goes in as well", "[trade forms]") {
  same("1 tsp honey in 10 ml hot water", "1 tsp honey\n10 ml water, hot");
  same("1 sugar cube soaked with 3 dashes Ango", "1 sugar cube\n3 dashes aromatic bitters");
  same("1 tbsp sugar dissolved in 20 ml water", "1 tbsp white sugar\n20 ml water\ndo dissolve");
  same("1 lime cut in 8 wedges", "1 lime, \"cut in 8 wedges\"");
  same("a dozen mint leaves", "12 mint leaves");
}

TEST_CASE("a slice that is counted behind the strain lies on the drink", "[trade forms]") {
  same("shake\nstrain\n1/2 orange slice", "shake\nstrain\ngarnish 1/2 orange slice");
  same("shake\nstrain\n2 lime wedges", "shake\nstrain\ngarnish 2 lime wedges");
  same("build\n2 lime wedges", "build\n2 lime wedges");
  same("strain\norange half-wheel + cherry flag",
       "strain\ngarnish orange half-wheel, as a flag\ngarnish cherry, as a flag");
  same("strain\norange cherry flag", "strain\ngarnish orange, as a flag\ngarnish cherry, as a flag");
  same("strain\nmint sprig, slapped; powdered sugar",
       "strain\ngarnish mint sprig, slapped\ngarnish powdered sugar");
  same("strain\ngarnish - lemon twist", "strain\ngarnish lemon twist");
  same("strain\nlime wedge, squeezed and dropped", "strain\ngarnish lime wedge, squeezed in");
  same("strain\n4 drops Ango swirled with a straw", "strain\ngarnish 4 drops Ango, swirled");
  CHECK(compile("drink X\n  30 ml gin\n  shake 10 s\n  strain\n  OJ slice\n").sink.has_errors());
}

TEST_CASE("a glass that is rinsed or rimmed on the way is the drink's", "[trade forms]") {
  same("rinse coupe with absinthe", "rinse absinthe\nglass coupe");
  same("rinse a chilled coupe with 5 ml absinthe", "rinse 5 ml absinthe\nglass coupe, chilled");
  same("absinthe-rinsed coupe", "glass coupe\nrinse absinthe");
  same("absinthe rinse, dump the rest", "rinse absinthe, \"dump the rest\"");
  same("sugar rim, half the glass", "rim sugar, half");
  same("salt half the rim of a rocks glass", "glass rocks\nrim salt, half");
}

TEST_CASE("ice before a shake is the tin's, and the glass's where it is built", "[trade forms]") {
  same("ice\nshake 10 s\nstrain", "shake 10 s\nstrain");
  same("ice\nbuild", "ice cubed\nbuild");
  same("glass collins\nice\nshake 10 s\nstrain", "glass collins\nice cubed\nshake 10 s\nstrain");
  same("strain\nmore crushed ice to dome", "strain\nadd crushed, \"on top\"");
  same("half fill with crushed ice\nbuild", "add crushed, \"half fill\"\nbuild");
  same("fill tin with ice\nshake 10 s", "do fill tin with ice\nshake 10 s");
  same("stir cold, strain on fresh ice", "stir 30 s, \"cold\"\nstrain\nice cubed");
  same("strain\nslowly top with 2 oz soda", "strain\ntop 2 oz soda, \"slowly\"");
  same("strain\nginger beer to an inch below the rim", "strain\ntop ginger beer");
  same("strain\nadd soda", "strain\ntop soda");
}

TEST_CASE("a time in a place is how long it stands while something steeps", "[trade forms]") {
  same_in_prep("50 g lemon peel\n18 hours in fridge", "50 g lemon peel\nrest 18 h at 4 C");
  same_in_prep("50 g lemon peel\novernight in the fridge", "50 g lemon peel\nrest 12 h at 4 C");
  same_in_prep("50 g lemon peel\nstrain, 3 weeks refrigerated",
               "50 g lemon peel\nstrain\nkeeps 3 wk chilled");
  same_in_prep("700 ml gin\nleave covered at room temperature for 24 hours",
               "700 ml gin\nrest 24 h at 20 C, \"covered\"");
  same_in_prep("1 l water\nshelf stable, 6 months", "1 l water\nkeeps 6 mo ambient");
  same_in_prep("50 g lemon peel\nstrain through muslin, press on solids",
               "50 g lemon peel\nstrain, through muslin\npress, \"press on solids\"");
  auto asked = compile("prep X\n  50 g lemon peel\n  3 days in the fridge\n");
  REQUIRE(asked.sink.has_errors());
  CHECK(asked.sink.all().front().help.find("rest 3 days at 4 C") != std::string::npos);
}

TEST_CASE("fruit behind a comma gives its zest too, and a bottle says its size", "[trade forms]") {
  same_in_prep("zest of 4 lemons, 2 limes", "zest of 4 lemons\nzest of 2 limes");
  same_in_prep("3 lemons zested", "3 lemons, zested");
  same_in_prep("1 bottle (70cl) gin", "70 cl gin");
  same_in_prep("sugar 500g, water 500ml", "500 g sugar\n500 ml water");
  same_in_prep("1 l water\nreduce to a simmer, 15 min", "1 l water\nsimmer 15 min");
  same_in_prep("1 l water\ncook on low 20 min", "1 l water\nsimmer 20 min");
  same_in_prep("500 g ginger\ncook 20 min\nsieve\nbottle, 3 weeks in fridge",
               "500 g ginger\nsimmer 20 min\nstrain\nbottle\nkeeps 3 wk chilled");
  same("20 ml grapefruit juice with 5 ml cinnamon syrup", "20 ml grapefruit juice\n5 ml cinnamon syrup");
  same("strain\nfill up slowly with 10 cl prosecco", "strain\ntop 10 cl prosecco");
  same("strain\nnutmeg, freshly grated", "strain\ngarnish nutmeg, grated over");
  same("0% alcohol", "alcohol ..0.5 % abv");
  same("strain\nsoda on top (9 cl)", "strain\ntop 9 cl soda");
  auto asked = compile("prep X\n  1 l water\n  keeps 2 weeks\n");
  REQUIRE(asked.sink.has_errors());
  CHECK(asked.sink.all().front().help == "Write `keeps 2 weeks chilled` or `keeps 2 weeks ambient`.");
}

TEST_CASE("what stands behind a step or a glass in passing is not lost", "[trade forms]") {
  same("shake\nstrain into coupe, chilled", "shake\nstrain\nglass coupe, chilled");
  same("half a lime cut into wedges, muddled with 2 tsp sugar",
       "1/2 lime, \"cut into wedges\"\n2 tsp white sugar\nmuddle");
  same("1/2 lime, cut in pieces and muddled", "1/2 lime\nmuddle, \"cut in pieces and muddle\"");
  same("12 basil leaves, smashed in the tin", "12 basil leaves\nmuddle, \"smashed in the tin\"");
  same("12 mint leaves\npress mint lightly with the syrup in a julep cup",
       "12 mint leaves\nglass julep cup\nbuild\nmuddle, \"mint lightly with the syrup\", \"press mint "
       "lightly with the syrup\"");
  same("dry shake 20 s then with ice 60 s", "dry shake 20 s\nshake 60 s");
  same("salt rim (half)", "rim salt, half");
  same("60 ml vodka, straight from the freezer", "60 ml vodka, frozen");
  same("strain\nfloat 15 ml dry red wine over back of a bar spoon",
       "strain\nfloat 15 ml dry red wine, \"over back of a bar spoon\"");
  same("20 ml espresso\npour the espresso slowly on top",
       "20 ml espresso\ndo pour the espresso slowly on top");
  same_in_prep("1 l water\nfill hot into clean bottles, 6 weeks fridge",
               "1 l water\nbottle, \"fill hot into clean bottles\"\nkeeps 6 wk chilled");
  same_in_prep("1 l water\npass through a cloth, don't squeeze",
               "1 l water\nstrain, through cloth, \"don't squeeze\"");
  same("strain\ntop with 60 ml soda poured slow", "strain\ntop 60 ml soda, \"poured slow\"");
  same("absinthe rinsed coupe, chilled", "glass coupe, chilled\nrinse absinthe");
  same_in_prep("1 l lime juice\nstrain through a coffee filter overnight in the fridge",
               "1 l lime juice\nrest 12 h at 4 C\nstrain, through a coffee filter");
  same_in_prep("1 l water\nstrain, add 300g sugar and 15g citric acid",
               "1 l water\nstrain\n300 g white sugar\n15 g citric acid");
  same_in_prep("1 l water\nrest 2 h, tasting every 30 min", "1 l water\nrest 2 h, \"tasting every 30 min\"");
}

TEST_CASE("a slash between dashes may be a range", "[trade forms]") {
  auto asked = compile("drink X\n  30 ml gin\n  2/3 dashes Ango\n");
  REQUIRE(asked.sink.has_errors());
  CHECK(asked.sink.all().front().help.find("2..3 dash") != std::string::npos);
  CHECK_FALSE(compile("drink X\n  30 ml gin\n  1/2 dash Ango\n").sink.has_errors());
}

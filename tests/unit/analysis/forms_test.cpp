// Every form of the language that the page lists is read, and means what it says.
#include <catch2/catch.hpp>
#include <cmath>

#include "support/fixture.h"

using namespace gill::analysis;
using gill::testing::compile;
using gill::testing::Compiled;
using gill::testing::findings;
using Strings = std::vector<std::string>;

namespace {

/// Compiles what must be read without a word.
Compiled read(const std::string& text) {
  auto compiled = compile(text);
  INFO(text);
  for (const auto& finding : compiled.sink.all()) UNSCOPED_INFO(finding.message << " | " << finding.help);
  CHECK(findings(compiled) == Strings{});
  return compiled;
}

std::string indented(const std::vector<std::string>& lines) {
  std::string text;
  for (const auto& line : lines) text += "  " + line + "\n";
  return text;
}

Compiled read_body(const std::string& header, const std::vector<std::string>& lines) {
  return read(header + "\n" + indented(lines));
}

/// The amount of a drink with this one line.
Amount amount(const std::string& line) {
  auto compiled = read_body("drink X", {line});
  const auto& amounts = compiled.drink("X").recipe.amounts;
  INFO(line);
  REQUIRE(amounts.size() == 1);
  return amounts[0];
}

std::string name_of_amount(const std::string& line) {
  auto compiled = read_body("drink X", {line});
  const auto& amounts = compiled.drink("X").recipe.amounts;
  INFO(line);
  REQUIRE(amounts.size() == 1);
  return compiled.name_of(amounts[0].use());
}

/// The one step of a drink or prep.
Step step(const std::string& line, bool in_prep = false) {
  auto compiled = read_body(in_prep ? "prep X" : "drink X", {line});
  const auto& recipe = in_prep ? compiled.stock("X").recipe : compiled.drink("X").recipe;
  INFO(line);
  REQUIRE(recipe.steps.size() == 1);
  return recipe.steps[0];
}

Step prep_step(const std::string& line) { return step(line, true); }

}  // namespace

// ---- amounts

TEST_CASE("every form of an amount line is read", "[forms]") {
  read_body("prep X", {
                          "60 ml                rye whiskey",
                          "3/4 oz = 22.5 ml     lemon juice",
                          "2 dashes             aromatic bitters",
                          "2 dashes of          aromatic bitters",
                          "1                    egg white",
                          "8 leaves             mint",
                          "8 mint leaves",
                          "1 sugar cube",
                          "40 g                 toasted sesame oil, at 20 C",
                          "15 ml                honey syrup, or maple syrup",
                          "1                    lemon twist, optional",
                          "about 250 ml         orange juice",
                          "15..20 ml            lime juice",
                          "60 ml ± 2 ml         aged rum",
                          "60ml                 vodka",
                          "30 ml                espresso, hot",
                          "30 ml                milk, chilled, sealed",
                          "30 ml                cream, frozen",
                          "10 g                 white sugar, sifted twice",
                          "3 parts              bourbon whiskey",
                          "1/2                  lime, cut in four",
                          "to 1 l               water",
                          "to 1.2 kg            water",
                          "until acid 6 % w/v   citric acid",
                          "until acid 6 % w/v   2 parts citric acid, 1 part malic acid",
                          "until acid 6 % w/w   2 parts citric acid, 1 part malic acid, dissolved warm",
                          "until strength 20 % abv   water",
                          "until strength 20 %       water",
                          "until sugar 50 brix  white sugar",
                      });
}

TEST_CASE("an amount is its measure, what it is of, and its modifiers", "[forms]") {
  auto line = amount("40 g toasted sesame oil, at 20 C, or butter, optional, sealed, strained twice");
  CHECK(line.form == Amount::Form::measured);
  CHECK(line.quantity.mass() == gill::units::Grams(40));
  REQUIRE(line.temperature);
  CHECK(line.temperature->number() == 20);
  CHECK(line.alternatives.size() == 1);
  CHECK(line.optional);
  CHECK(line.sealed);
  CHECK(line.notes == Strings{"strained twice"});
  CHECK(line.as_written == "40 g");
  CHECK(amount("30 ml milk, chilled").chilled);
  CHECK(amount("30 ml milk, frozen").frozen);
  CHECK(amount("30 ml milk, hot").hot);
  CHECK(amount("30 ml milk, very hot").hot);
}

TEST_CASE("white space in what was written is one space", "[forms]") {
  CHECK(amount("1  1/2   oz\tmilk").as_written == "1 1/2 oz");
  CHECK(amount("3/4 oz   =  22.5 ml  milk").as_written == "3/4 oz = 22.5 ml");
}

TEST_CASE("of two measures the first counts and the second is kept to compare", "[forms]") {
  auto line = amount("3/4 oz = 22.5 ml lemon juice");
  CHECK(line.quantity.value == gill::base::Exact(45, 2));
  REQUIRE(line.second);
  CHECK(line.second->value == gill::base::Exact(45, 2));
  CHECK(amount("60 ml = 55 g lemon juice").second->mass());
}

TEST_CASE("the whole rest is tried as a name first, then as a name and an item word", "[forms]") {
  CHECK(name_of_amount("1 sugar cube") == "sugar cube");
  CHECK(name_of_amount("8 mint leaves") == "mint leaf");
  CHECK(name_of_amount("8 leaves mint") == "mint leaf");
  CHECK(name_of_amount("8 leaves of mint") == "mint leaf");
  CHECK(name_of_amount("1 egg white") == "egg white");
  CHECK(name_of_amount("1 lemon twist") == "lemon twist");
  CHECK(amount("8 mint leaves").quantity.number() == 8);
}

TEST_CASE("a name that begins with a unit is a name before it is a measure", "[forms]") {
  auto compiled = read(
      "ingredient cube sugar\n  kind sweetener\ningredient sugar\n  kind sweetener\ndrink X\n  1 cube "
      "sugar\n");
  CHECK(compiled.name_of(compiled.drink("X").recipe.amounts[0].use()) == "cube sugar");
}

TEST_CASE("straight after a unit a name needs no quotes whatever it begins with", "[forms]") {
  for (const char* name : {"1888 rum", "9:30 blend", "about time bitters", "to the moon", "until dawn",
                           "shake mix", "top cream", "like wine", "or else", "at sea", "without equal",
                           "swap meet gin", "20 C water", "of course", "½ moon", "like"}) {
    INFO(name);
    auto compiled =
        compile("ingredient \"" + std::string(name) + "\"\n  kind spirit\ndrink X\n  60 ml " + name + "\n");
    CHECK(findings(compiled) == Strings{});
    REQUIRE(compiled.drink("X").recipe.amounts.size() == 1);
    CHECK(compiled.name_of(compiled.drink("X").recipe.amounts[0].use()) == name);
  }
}

TEST_CASE("a name in quotes may hold anything", "[forms]") {
  auto compiled = read(
      "ingredient \"60 ml, = #9: hot!\"\n  kind spirit\ndrink X\n  60 ml \"60 ml, = #9: hot!\", chilled\n");
  CHECK(compiled.drink("X").recipe.amounts[0].chilled);
}

TEST_CASE("fill and until say what total and what value they go to", "[forms]") {
  auto fill = amount("to 1 l water");
  CHECK(fill.form == Amount::Form::fill);
  CHECK(fill.quantity.value == 1000);
  auto until = amount("until acid 6 % w/v 2 parts citric acid, 1 part malic acid");
  CHECK(until.form == Amount::Form::until);
  CHECK(until.until == UntilProperty::acid);
  CHECK(until.quantity.value == gill::base::Exact(6, 100));
  REQUIRE(until.portions.size() == 2);
  CHECK(until.portions[0].parts == 2);
  CHECK(until.portions[1].parts == 1);
  CHECK(until.as_written == "until acid 6 % w/v");
  CHECK(amount("until sugar 50 brix white sugar").until == UntilProperty::sugar);
  CHECK(amount("until strength 20 % water").quantity.kind == gill::units::Kind::strength);
}

TEST_CASE("amounts and steps keep the order in which they are written", "[forms]") {
  auto compiled = read_body("drink X", {"45 ml bourbon whiskey", "20 ml lemon juice", "shake 12 s", "strain",
                                        "60 ml soda water", "garnish none"});
  CHECK(compiled.lines(compiled.drink("X").recipe) == Strings{"45 ml bourbon whiskey", "20 ml lemon juice",
                                                              "shake", "strain", "60 ml soda water",
                                                              "garnish"});
}

TEST_CASE("a text line below an amount or step belongs to it", "[forms]") {
  auto compiled = read_body("drink X", {"| Of the drink.", "45 ml bourbon whiskey", "| The old one.",
                                        "| Two lines.", "shake 12 s", "| Hard."});
  const auto& drink = compiled.drink("X");
  CHECK(drink.head.text == "Of the drink.");
  CHECK(drink.recipe.amounts[0].text == "The old one.\nTwo lines.");
  CHECK(drink.recipe.steps[0].text == "Hard.");
}

// ---- declarations

TEST_CASE("every line of a house is read", "[forms]") {
  auto compiled =
      read_body("house The Long Room", {"| What we are.",
                                        "place        GB",
                                        "currency     EUR",
                                        "ounce        30 ml",
                                        "pint         imp",
                                        "cup          us",
                                        "measures     60 ml, 45 ml, 30 ml, 22.5 ml, 15 ml, 7.5 ml, 5 ml",
                                        "show         ml, oz",
                                        "show preps   g, ml",
                                        "room         21 C",
                                        "fridge       4 C",
                                        "freezer      -18 C",
                                        "ice          -1 C",
                                        "alcohol unit US",
                                        "allergen list EU",
                                        "strongest    38 g",
                                        "tax          20 % included",
                                        "pour cost    ..22 %",
                                        "round prices to 0.50",
                                        "rate         1 USD = 0.92 EUR",
                                        "rate         1 GBP = 1.15 EUR",
                                        "notice       \"Ask us before you order if you have an allergy.\""});
  const House& house = compiled.specs.house;
  CHECK(house.head.name == "The Long Room");
  CHECK(house.head.text == "What we are.");
  CHECK(house.place == "GB");
  CHECK(house.currency == "EUR");
  CHECK(house.measures.size() == 7);
  CHECK(house.show_drinks.size() == 2);
  REQUIRE(house.show_preps.size() == 2);
  CHECK(compiled.units[house.show_preps[0]].symbol == "g");
  CHECK(house.room_c == 21);
  CHECK(house.freezer_c == -18);
  CHECK(house.ice_c == -1);
  CHECK(house.alcohol_unit == "US");
  CHECK(house.strongest_g == 38);
  REQUIRE(house.tax);
  CHECK(house.tax->rate == Approx(0.2));
  CHECK(house.tax->included);
  CHECK(house.pour_cost == Approx(0.22));
  CHECK(house.round_prices_to == gill::base::Exact(1, 2));
  REQUIRE(house.rates.size() == 2);
  CHECK(house.rates[0].from == "USD");
  CHECK(house.rates[0].factor == gill::base::Exact(92, 100));
  CHECK(house.notices == Strings{"Ask us before you order if you have an allergy."});
}

TEST_CASE("the other spellings of a house's lines say the same", "[forms]") {
  auto compiled = read_body(
      "house", {"jiggers 50 ml, 25 ml", "gross profit 78 %..", "tax 8 % added", "ounce us oz", "show oz"});
  const House& house = compiled.specs.house;
  CHECK(house.measures.size() == 2);
  CHECK(house.pour_cost == Approx(0.22));
  CHECK_FALSE(house.tax->included);
  CHECK(house.show_drinks.size() == 1);
}

TEST_CASE("a house that says nothing has the defaults of the page", "[forms]") {
  for (const char* text : {"", "house\n"}) {
    auto house = compile(text).specs.house;
    CHECK(house.room_c == 20);
    CHECK(house.fridge_c == 4);
    CHECK(house.freezer_c == -18);
    CHECK(house.ice_c == 0);
    CHECK(house.alcohol_unit == "UK");
    CHECK(house.allergen_list == "EU");
    CHECK(house.strongest_g == 40);
    CHECK(house.place.empty());
    CHECK(house.currency.empty());
    CHECK_FALSE(house.tax);
    CHECK_FALSE(house.pour_cost);
    CHECK(house.show_drinks.size() == 2);
  }
}

TEST_CASE("every line of an ingredient is read", "[forms]") {
  auto compiled =
      read_body("ingredient heath honey", {"| From the heath.",
                                           "kind       sweetener",
                                           "form       liquid",
                                           "sugar      81 % w/w ± 2 %",
                                           "acid       0.3 % w/w citric",
                                           "acid       0.1 % w/w malic",
                                           "fat        0 % w/w",
                                           "protein    0.3 % w/w",
                                           "salt       4 g/l",
                                           "other      1 % w/w",
                                           "density    1.42 g/ml",
                                           "pH         3.9",
                                           "keeps      1 y ambient",
                                           "opened     6 mo ambient",
                                           "allergen   none",
                                           "buy        1 kg for 9.50 EUR",
                                           "buy        6 x 700 ml for 171 EUR from Quay Supply, code 4471",
                                           "waste      3 %",
                                           "treated    pasteurised",
                                           "colour     #D98C2B",
                                           "caution    Not for infants.",
                                           "caution    \"Warm it gently.\"",
                                           "source     the label",
                                           "aka        runny heath, clear heath"});
  const Stock& honey = compiled.stock("heath honey");
  CHECK(honey.head.text == "From the heath.");
  CHECK(honey.kind == StockKind::sweetener);
  CHECK(honey.effective_form() == Form::liquid);
  CHECK(honey.sugar->value == gill::base::Exact(81, 100));
  CHECK(honey.sugar->tolerance == Approx(0.0162));
  REQUIRE(honey.acids.size() == 2);
  CHECK(honey.acids[1].acid == Acid::malic);
  CHECK(honey.density->value == gill::base::Exact(142, 100));
  CHECK(honey.ph == 3.9);
  CHECK(honey.keeps->storage == Storage::ambient);
  CHECK(honey.opened->duration.value == 6 * 30 * 86400);
  CHECK(honey.allergens_stated);
  CHECK(honey.allergens.empty());
  REQUIRE(honey.buys.size() == 2);
  CHECK(honey.buys[1].packs == 6);
  CHECK(honey.buys[1].pack.value == 700);
  CHECK(honey.buys[1].price.amount == 171);
  CHECK(honey.buys[1].supplier == "Quay Supply");
  CHECK(honey.buys[1].code == "4471");
  CHECK(honey.waste == Approx(0.03));
  CHECK(honey.treated == "pasteurised");
  CHECK(honey.colour == "#d98c2b");
  CHECK(honey.cautions == Strings{"Not for infants.", "Warm it gently."});
  CHECK(honey.head.source == "the label");
  CHECK(honey.aka == Strings{"runny heath", "clear heath"});
  CHECK(compiled.stock("Clear Heath").head.name == "heath honey");
}

TEST_CASE("a strength may be % abv, a bare % or proof", "[forms]") {
  auto strength = [](const std::string& line) {
    return *read_body("ingredient X", {"kind spirit", line}).stock("X").strength;
  };
  CHECK(strength("strength 45 % abv").value == gill::base::Exact(45, 100));
  CHECK(strength("strength 45 %").value == gill::base::Exact(45, 100));
  CHECK(strength("strength 45 %").kind == gill::units::Kind::strength);
  CHECK(strength("strength 90 proof us").value == gill::base::Exact(45, 100));
  CHECK(strength("strength 70 proof uk").value == gill::base::Exact(40, 100));
}

TEST_CASE("pieces, what a fruit gives, fizz and flags are read", "[forms]") {
  auto compiled = read(
      "ingredient citron\n"
      "  kind   fruit\n"
      "  each   120 g\n"
      "  each   twist 3 g\n"
      "  each   leaf 0.15 g ± 20 %\n"
      "  gives  45 ml citron juice, 9 g citron zest\n"
      "ingredient citron juice\n"
      "  kind   juice\n"
      "ingredient citron zest\n"
      "  kind   fruit\n"
      "ingredient bubbly\n"
      "  kind   mixer\n"
      "  fizz   3.5 vol\n"
      "  foams  yes\n"
      "  holds fat no\n"
      "  each   30 ml\n");
  const Stock& citron = compiled.stock("citron");
  CHECK(citron.each.size() == 3);
  CHECK(citron.each.at(compiled.units.find("twist")).value == 3);
  CHECK(citron.each.at({}).value == 120);
  REQUIRE(citron.gives.size() == 2);
  CHECK(compiled.name_of(citron.gives[0].what) == "citron juice");
  CHECK(citron.gives[0].quantity.value == 45);
  const Stock& bubbly = compiled.stock("bubbly");
  CHECK(bubbly.fizz->value == gill::base::Exact(7, 2));
  CHECK(bubbly.foams == true);
  CHECK(bubbly.holds_fat == false);
}

TEST_CASE("every kind of the page is one, and says its form", "[forms]") {
  for (const char* kind :
       {"spirit", "liqueur", "fortified wine", "wine", "sparkling", "beer", "bitters", "juice", "syrup",
        "dairy", "egg", "fat", "tea/coffee", "mixer", "water", "saline"}) {
    INFO(kind);
    auto compiled = read_body("ingredient X", {"kind " + std::string(kind)});
    CHECK(name_of(compiled.stock("X").kind) == kind);
    CHECK(compiled.stock("X").effective_form() == Form::liquid);
  }
  for (const char* kind : {"sweetener", "acid", "fruit", "herb", "spice", "additive", "garnish"}) {
    INFO(kind);
    auto compiled = read_body("ingredient X", {"kind " + std::string(kind)});
    CHECK(name_of(compiled.stock("X").kind) == kind);
    CHECK(compiled.stock("X").effective_form() == Form::solid);
  }
  CHECK(read_body("ingredient X", {"kind fat", "form solid"}).stock("X").effective_form() == Form::solid);
  CHECK(read_body("ingredient X", {"kind Fortified Wine"}).stock("X").kind == StockKind::fortified_wine);
}

TEST_CASE("allergens are code words, certain or possible, and a house's own words", "[forms]") {
  auto compiled =
      read_body("ingredient X", {"kind syrup", "allergen egg, milk", "allergen nuts: almond",
                                 "allergen may sesame, cereals: rye", "allergen coconut, pine nut"});
  std::vector<std::pair<std::string, bool>> codes;
  for (const auto& line : compiled.stock("X").allergens) codes.emplace_back(line.code, line.may);
  CHECK(codes == std::vector<std::pair<std::string, bool>>{{"egg", false},
                                                           {"milk", false},
                                                           {"nuts:almond", false},
                                                           {"sesame", true},
                                                           {"cereals:rye", true},
                                                           {"coconut", false},
                                                           {"pine nut", false}});
}

TEST_CASE("no allergen line is not the same as none", "[forms]") {
  auto compiled = read("ingredient X\n  kind syrup\ningredient Y\n  kind syrup\n  allergen none\n");
  CHECK_FALSE(compiled.stock("X").allergens_stated);
  CHECK(compiled.stock("Y").allergens_stated);
}

TEST_CASE("every line of a prep is read", "[forms]") {
  auto compiled = read_body("prep toasted rye", {"| Toasted sesame, washed into rye.",
                                                 "700 ml   rye whiskey",
                                                 "140 g    toasted sesame oil",
                                                 "shake    30 s",
                                                 "rest     4 h at 20 C",
                                                 "freeze   12 h at -18 C",
                                                 "remove   toasted sesame oil, keeping 1 %",
                                                 "fine strain, through coffee filter",
                                                 "makes    610 ml",
                                                 "keeps    30 d chilled",
                                                 "bottle   700 ml",
                                                 "par      2 l",
                                                 "takes    20 min",
                                                 "station  back prep",
                                                 "batch    ..4 l",
                                                 "kind     spirit",
                                                 "form     liquid",
                                                 "aka      washed rye",
                                                 "colour   amber",
                                                 "caution  Label the bottle.",
                                                 "source   house notes",
                                                 "each     1 g",
                                                 "strength 44 % abv",
                                                 "sugar    2 % w/v",
                                                 "acid     0.1 % w/v",
                                                 "density  0.95 g/ml",
                                                 "pH       4.4",
                                                 "expect   strength 42..46 % abv",
                                                 "expect   allergens sesame"});
  const Stock& prep = compiled.stock("washed rye");
  CHECK(prep.is_prep);
  CHECK(prep.recipe.amounts.size() == 2);
  CHECK(prep.makes->value == 610);
  CHECK(prep.keeps->storage == Storage::chilled);
  CHECK(prep.bottle->value == 700);
  CHECK(prep.par->value == 2000);
  CHECK(prep.takes->value == 1200);
  CHECK(prep.station == "back prep");
  CHECK(prep.largest_batch->high == 4000);
  CHECK(prep.colour == "amber");
  CHECK(prep.strength->value == gill::base::Exact(44, 100));
  CHECK(prep.ph == 4.4);
  CHECK(prep.expects.size() == 2);
  CHECK(prep.each.size() == 1);
}

TEST_CASE("a yield is a volume, a mass or a count", "[forms]") {
  CHECK(read_body("prep X", {"makes 610 ml"}).stock("X").makes->volume());
  CHECK(read_body("prep X", {"makes 1.2 kg"}).stock("X").makes->mass());
  CHECK(read_body("prep X", {"makes 24"}).stock("X").makes->kind == gill::units::Kind::count);
  CHECK(read_body("prep X", {"makes 24 wheels"}).stock("X").makes->kind == gill::units::Kind::count);
}

TEST_CASE("glasses, ices and families are read", "[forms]") {
  auto compiled = read(
      "glass tumbler\n"
      "  | Heavy.\n"
      "  holds  300 ml\n"
      "  line   120..155 ml\n"
      "  shape  60 mm at 0 mm, 80 mm at 90 mm\n"
      "  stem   80 mm\n"
      "  foot   66 mm\n"
      "  aka    old tumbler\n"
      "ice block\n"
      "  each   110 g\n"
      "  melt   70 %\n"
      "family house sour\n"
      "  | Spirit, sour, sweet; shaken.\n"
      "  method    shake\n"
      "  strength  13..21 % abv\n"
      "  sugar     3.5..10 % w/v\n"
      "  acid      0.6..1.1 % w/v\n"
      "  balance   4.5..11\n"
      "  volume    115..180 ml\n"
      "family bare\n");
  CHECK(compiled.glass("old tumbler").holds->value == 300);
  CHECK(compiled.glass("tumbler").line->low == 120);
  CHECK(compiled.glass("tumbler").shape.size() == 2);
  CHECK(compiled.ice("block").each->value == 110);
  CHECK(compiled.ice("block").melt == Approx(0.7));
  const Family& family = compiled.family("house sour");
  CHECK(family.method == Verb::shake);
  CHECK(family.strength->low == Approx(0.13));
  CHECK(family.balance->high == 11);
  CHECK_FALSE(compiled.family("bare").strength);
}

TEST_CASE("every line of a drink is read", "[forms]") {
  auto compiled = read(
      "drink Velvet Glove\n"
      "  | Smoke first.\n"
      "  family     egg sour\n"
      "  glass      double rocks, chilled\n"
      "  ice        large cube\n"
      "  45 ml      rye whiskey\n"
      "  22.5 ml    lemon juice\n"
      "  15 ml      honey syrup\n"
      "  1          egg white\n"
      "  dry shake      20 s\n"
      "  shake          12 s with 4 cubes\n"
      "  double strain\n"
      "  garnish        lemon twist, expressed\n"
      "  garnish        sesame seed, on the foam\n"
      "  right when \"The foam stands a finger above the rim.\"\n"
      "  expect     strength 11..14.5 % abv\n"
      "  expect     allergens egg, sesame\n"
      "  alcohol    ..20 % abv\n"
      "  serves     2\n"
      "  cup        punch cup\n"
      "  batched    rye whiskey, honey syrup, with water, bottle 750 ml\n"
      "  size       90 ml\n"
      "  station    well one\n"
      "  tag        signature, egg white\n"
      "  guest      \"Rye, lemon, honey.\"\n"
      "  was        Iron Glove\n"
      "  author     A. Writer\n"
      "  since      2026-01-08\n"
      "  tasted     2026-01-05 Nothing to change.\n"
      "  status     approved 2026-01-06\n"
      "  caution    Raw egg.\n"
      "  colour     amber\n"
      "  source     house notes\n"
      "  allow      raw-egg because \"the menu says so\"\n");
  const Drink& drink = compiled.drink("velvet glove");
  CHECK(drink.head.text == "Smoke first.");
  CHECK(compiled.specs[drink.family].head.name == "egg sour");
  CHECK(compiled.specs[drink.glass].head.name == "double rocks");
  CHECK(drink.glass_chilled);
  CHECK(drink.ice.kind == GlassIce::Kind::given);
  CHECK(compiled.specs[drink.ice.use.ice].head.name == "large cube");
  CHECK(compiled.lines(drink.recipe) ==
        Strings{"45 ml rye whiskey", "22.5 ml lemon juice", "15 ml honey syrup", "1 egg white", "dry shake",
                "shake", "double strain", "garnish lemon twist", "garnish sesame seed"});
  CHECK(drink.right_when == Strings{"The foam stands a finger above the rim."});
  CHECK(drink.expects.size() == 2);
  CHECK(drink.alcohol->high == Approx(0.2));
  CHECK(drink.serves == 2);
  CHECK(compiled.specs[drink.cup].head.name == "punch cup");
  REQUIRE(drink.batched);
  CHECK(drink.batched->uses.size() == 2);
  CHECK(drink.batched->with_water);
  CHECK(drink.batched->bottle->value == 750);
  CHECK(drink.size->value == 90);
  CHECK(drink.station == "well one");
  CHECK(drink.tags == Strings{"signature", "egg white"});
  CHECK(drink.guest == "Rye, lemon, honey.");
  CHECK(drink.was == "Iron Glove");
  CHECK(drink.authors == Strings{"A. Writer"});
  CHECK(drink.since == "2026-01-08");
  REQUIRE(drink.tastings.size() == 1);
  CHECK(drink.tastings[0].words == "Nothing to change.");
  CHECK(drink.status == Status::approved);
  CHECK(drink.approved_on == "2026-01-06");
  CHECK(drink.colour == "amber");
  REQUIRE(drink.head.allows.size() == 1);
  CHECK(drink.head.allows[0].reason == "the menu says so");
}

TEST_CASE("ice in the glass may be counted, weighed, in the plural, or none", "[forms]") {
  auto ice = [](const std::string& line) { return read_body("drink X", {line}).drink("X").ice; };
  CHECK(ice("ice none").kind == GlassIce::Kind::none);
  CHECK(ice("garnish none").kind == GlassIce::Kind::unstated);
  CHECK(ice("ice 2 large cubes").use.amount->number() == 2);
  CHECK(ice("ice 120 g crushed").use.amount->mass());
  CHECK(ice("ice cubes").kind == GlassIce::Kind::given);
  CHECK(ice("ice crushed ice").kind == GlassIce::Kind::given);
}

TEST_CASE("a status is draft, approved or retired", "[forms]") {
  CHECK(read_body("drink X", {"status draft"}).drink("X").status == Status::draft);
  CHECK(read_body("drink X", {"status retired"}).drink("X").status == Status::retired);
  CHECK(read_body("drink X", {"garnish none"}).drink("X").status == Status::approved);
}

TEST_CASE("every property can be expected", "[forms]") {
  auto compiled = read_body(
      "drink X",
      {"expect strength 11..14.5 % abv", "expect strength ..12 %", "expect sugar 6..8 % w/v",
       "expect sugar ..12 brix", "expect acid 0.7..0.9 % w/v", "expect balance 6..9",
       "expect volume 120..140 ml", "expect dilution 20..30 %", "expect temperature -7..-1 C",
       "expect cost ..3.20 EUR", "expect energy ..200 kcal", "expect units ..2.5",
       "expect allergens egg, nuts: almond", "expect allergens none", "expect vegan yes", "expect vegan no"});
  const auto& expects = compiled.drink("X").expects;
  REQUIRE(expects.size() == 16);
  CHECK(expects[0].range.low == Approx(0.11));
  CHECK(expects[7].range.high == Approx(0.3));
  CHECK(expects[9].range.currency == "EUR");
  CHECK(expects[12].allergens == Strings{"egg", "nuts:almond"});
  CHECK(expects[13].allergens.empty());
  CHECK(expects[14].is_so);
  CHECK_FALSE(expects[15].is_so);
}

TEST_CASE("price lists hold a name, a pack and a price a line", "[forms]") {
  auto compiled = read(
      "ingredient No. 9 rum\n  kind spirit\nprices spring 2026\n"
      "  from 2026-03-19\n"
      "  rye whiskey      700 ml for 28.50 EUR\n"
      "  lemon            1 for 0.40 EUR\n"
      "  No. 9 rum        700 ml for 30 EUR\n"
      "  honey            6 x 1 kg for 48 EUR from Quay Supply, code A-1\n"
      "  mint             1 bunch for 0.90 EUR\n");
  const PriceList& list = compiled.prices("Spring 2026");
  CHECK(list.from == "2026-03-19");
  REQUIRE(list.prices.size() == 5);
  CHECK(compiled.name_of(list.prices[0].use) == "rye whiskey");
  CHECK(list.prices[0].buy.price.amount == gill::base::Exact(2850, 100));
  CHECK(list.prices[1].buy.pack.kind == gill::units::Kind::count);
  CHECK(compiled.name_of(list.prices[2].use) == "No. 9 rum");
  CHECK(list.prices[3].buy.packs == 6);
  CHECK(list.prices[3].buy.code == "A-1");
}

TEST_CASE("menus hold sections of drinks with prices and sales", "[forms]") {
  auto compiled = read(
      "drink Meet Me at Nine\ndrink \"Yes, Chef!\"\ndrink Half at 9\ndrink 5 at Noon\ndrink Agent 47 "
      "Sour\nmenu Autumn 2026\n"
      "  | Windows shut.\n"
      "  runs       2026-09-15 .. 2026-12-01\n"
      "  section    Short\n"
      "    | Strong ones.\n"
      "    Meet Me at Nine at 14 EUR, sells 40, Fri 60, Sat 80\n"
      "    \"Yes, Chef!\" at 14.50 EUR\n"
      "  section    Long, and \"longer\"\n"
      "    Meet Me at Nine\n"
      "    Meet Me at Nine, sells 12, monday 3\n"
      "    Half at 9\n"
      "    Half at 9 at 12 EUR\n"
      "    5 at Noon at 13.50 EUR\n"
      "    5 at Noon 13.50 EUR, sells 4\n"
      "    Agent 47 Sour\n"
      "    Agent 47 Sour 9 EUR\n");
  const Menu& menu = compiled.menu("autumn 2026");
  CHECK(menu.head.text == "Windows shut.");
  CHECK(menu.runs_from == "2026-09-15");
  CHECK(menu.runs_to == "2026-12-01");
  REQUIRE(menu.sections.size() == 2);
  CHECK(menu.sections[0].name == "Short");
  CHECK(menu.sections[0].text == "Strong ones.");
  REQUIRE(menu.sections[0].entries.size() == 2);
  const auto& first = menu.sections[0].entries[0];
  CHECK(compiled.specs[first.drink].head.name == "Meet Me at Nine");
  CHECK(first.price->amount == 14);
  CHECK(first.price->currency == "EUR");
  CHECK(first.sells == 40);
  CHECK(first.sells_on[4] == 60);
  CHECK(first.sells_on[5] == 80);
  CHECK_FALSE(first.sells_on[0]);
  REQUIRE(menu.sections[1].entries.size() == 8);
  CHECK_FALSE(menu.sections[1].entries[0].price);
  CHECK(menu.sections[1].entries[1].sells_on[0] == 3);
  CHECK_FALSE(menu.sections[1].entries[2].price);
  CHECK(menu.sections[1].entries[3].price->amount == 12);
  CHECK(compiled.specs[menu.sections[1].entries[5].drink].head.name == "5 at Noon");
  CHECK(menu.sections[1].entries[5].price->amount == gill::base::Exact(27, 2));
  CHECK(menu.sections[1].entries[5].sells == 4);
  CHECK_FALSE(menu.sections[1].entries[6].price);
  CHECK(compiled.specs[menu.sections[1].entries[7].drink].head.name == "Agent 47 Sour");
  CHECK(menu.sections[1].entries[7].price->amount == 9);
}

// ---- method lines

TEST_CASE("every method line of a drink is read", "[forms]") {
  read_body("drink X", {"60 ml aged rum",
                        "muddle",
                        "muddle, gently",
                        "muddle mint",
                        "dry shake 20 s",
                        "shake 12 s",
                        "shake 10..12 s with 4 cubes",
                        "shake with cubes, hard",
                        "shake 12 s with 120 g crushed",
                        "shake",
                        "whip 5 s with 3 cubes",
                        "stir 30 s",
                        "stir 30 s with 2 large cubes",
                        "throw 6",
                        "roll 4",
                        "swizzle 10 s with crushed",
                        "churn 10 s",
                        "blend 20 s with 100 g crushed ice",
                        "build",
                        "strain",
                        "strain to tin",
                        "strain, over fresh ice",
                        "double strain",
                        "fine strain",
                        "dump",
                        "rinse absinthe",
                        "rinse 5 ml absinthe, kept",
                        "top soda water",
                        "top 60 ml soda water",
                        "top with soda water",
                        "top with 60 ml soda water, chilled",
                        "float 10 ml overproof rum",
                        "layer 15 ml cream",
                        "mist 2 absinthe",
                        "rim salt",
                        "flame",
                        "flame orange peel",
                        "smoke lemon peel",
                        "smoke lemon peel 20 s",
                        "heat to 65 C",
                        "carbonate to 3.5 vol",
                        "rest 30 s",
                        "garnish lemon twist, expressed",
                        "garnish 1 lemon wedge",
                        "garnish 2 mint sprigs, spanked",
                        "garnish none",
                        "side 2 lemon wedges",
                        "serve in a warm mug, handle right",
                        "do wait until it is quiet",
                        "do stir until it is gone, 10 s",
                        "do \"count to ten, slowly\""});
}

TEST_CASE("every method line of a prep is read", "[forms]") {
  read_body("prep X", {"1 l water",
                       "500 g white sugar",
                       "dissolve",
                       "dissolve white sugar",
                       "stir",
                       "stir 2 min",
                       "shake 30 s",
                       "blend",
                       "blend 30 s",
                       "muddle",
                       "whip 10 s",
                       "heat to 75 C",
                       "heat to 75 C for 10 min",
                       "cool to 4 C",
                       "cool to 4 C within 2 h",
                       "simmer 10 min",
                       "infuse 4 h at 20 C",
                       "steep 5 min at 90 C",
                       "macerate 24 h",
                       "rest 1 h",
                       "rest 4 h at 20 C",
                       "chill",
                       "chill to 4 C",
                       "freeze 12 h",
                       "freeze 12 h at -18 C",
                       "thaw",
                       "ferment 3 d at 24 C",
                       "dehydrate 8 h at 55 C",
                       "skim",
                       "decant",
                       "strain",
                       "strain, through muslin",
                       "fine strain, through coffee filter",
                       "double strain",
                       "press",
                       "clarify",
                       "clarify with milk",
                       "remove white sugar",
                       "remove white sugar, keeping 1 %",
                       "reduce to 500 ml",
                       "reduce to 700 g",
                       "reduce by 30 %",
                       "carbonate to 2.5 vol",
                       "charge 2",
                       "bottle 700 ml",
                       "bottle 20 l, keg",
                       "do label it",
                       "do leave it alone, 10 min"});
}

TEST_CASE("a step's arguments are typed", "[forms]") {
  auto shake = step("shake 10..12 s with 4 cubes, hard, cold tin");
  CHECK(shake.time->low == 10);
  CHECK(shake.time->high == 12);
  REQUIRE(shake.ice);
  CHECK(shake.ice->amount->number() == 4);
  CHECK(shake.notes == Strings{"hard", "cold tin"});
  CHECK(shake.as_written == "shake 10..12 s with 4 cubes, hard, cold tin");
  CHECK(step("throw 6").count == 6);
  CHECK(step("mist 2 absinthe").count == 2);
  CHECK(step("strain to tin").to_tin);
  CHECK(step("heat to 65 C").temperature->number() == 65);
  CHECK(step("carbonate to 3.5 vol").target->number() == 3.5);
  CHECK(step("rinse absinthe, kept").kept);
  CHECK(step("top with 60 ml soda water").amount->number() == 60);
  CHECK_FALSE(step("top soda water").amount);
  CHECK(step("float 10 ml overproof rum").amount->number() == 10);
  CHECK(step("smoke lemon peel 20 s").time->number() == 20);
  CHECK(step("serve in a warm mug, handle right").words == "in a warm mug, handle right");
  auto words = step("do stir, then wait, 10 s");
  CHECK(words.words == "stir, then wait");
  CHECK(words.time->number() == 10);
  CHECK_FALSE(step("do stir, then wait").time);
  CHECK(step("do \"count to ten, slowly\"").words == "count to ten, slowly");

  CHECK(prep_step("heat to 75 C for 10 min").time->number() == 600);
  auto cool = prep_step("cool to 4 C within 2 h");
  CHECK(cool.temperature->number() == 4);
  CHECK(cool.within->number() == 7200);
  CHECK(prep_step("freeze 12 h at -18 C").temperature->number() == -18);
  CHECK(prep_step("remove water, keeping 1 %").share == Approx(0.01));
  CHECK(prep_step("reduce to 500 ml").target->number() == 500);
  CHECK(prep_step("reduce by 30 %").share == Approx(0.3));
  CHECK(prep_step("clarify with milk").use);
  CHECK(prep_step("charge 2").count == 2);
  CHECK(prep_step("bottle 20 l, keg").notes == Strings{"keg"});
  CHECK(prep_step("strain, through muslin").notes == Strings{"through muslin"});
}

TEST_CASE("cubes alone are cubed, and ice has its plural", "[forms]") {
  auto ice = [](const std::string& line) {
    auto compiled = read_body("drink X", {line});
    return compiled.specs[compiled.drink("X").recipe.steps[0].ice->ice].head.name;
  };
  CHECK(ice("shake 12 s with cubes") == "cubed");
  CHECK(ice("shake 12 s with 4 cubes") == "cubed");
  CHECK(ice("shake 12 s with ice") == "cubed");
  CHECK(ice("shake 12 s with 300 g ice") == "cubed");
  CHECK(ice("shake 12 s with 2 large cubes") == "large cube");
  CHECK(ice("shake 12 s with 1 large cube") == "large cube");
  CHECK(ice("shake 12 s with 120 g crushed") == "crushed");
  CHECK(ice("shake 12 s with crushed ice") == "crushed");
}

TEST_CASE("a garnish may be an ingredient, a prep, or one with an item word", "[forms]") {
  auto compiled = read(
      "prep candied peel\n  100 g lemon peel\n  makes 24\n"
      "drink X\n  garnish lemon twist, expressed\n  garnish candied peel\n  garnish sesame seed\n  garnish 2 "
      "mint sprigs\n");
  CHECK(compiled.lines(compiled.drink("X").recipe) ==
        Strings{"garnish lemon twist", "garnish candied peel", "garnish sesame seed", "garnish mint sprig"});
  CHECK(compiled.drink("X").recipe.steps[3].amount->number() == 2);
  CHECK(step("garnish none").garnish_none);
}

TEST_CASE("an unknown garnish is kept with its words for a later stage to speak of", "[forms]") {
  auto garnish = step("garnish gold-plated xylophone, small");
  CHECK(garnish.unknown_garnish);
  CHECK(garnish.words == "gold-plated xylophone");
  CHECK_FALSE(garnish.use);
  CHECK(step("side 2 xylophones").unknown_garnish);
}

TEST_CASE("keywords, verbs and units ignore case", "[forms]") {
  auto compiled = read(
      "DRINK X\n  Glass COUPE, chilled\n  60 ML aged rum\n  SHAKE 12 S With 4 Cubes\n  Double Strain\n  "
      "GARNISH None\n");
  CHECK(compiled.drink("X").recipe.steps.size() == 3);
  CHECK(compiled.drink("X").glass_chilled);
}

// ---- files

TEST_CASE("a byte-order mark, CRLF and non-breaking spaces change no meaning", "[forms]") {
  auto plain = read("drink X\n  60 ml aged rum\n  shake 12 s\n");
  auto dressed = read(
      "\xef\xbb\xbf"
      "drink\u00a0X\r\n\u00a0\u00a0"
      "60\u00a0ml\u00a0aged\u00a0rum\r\n\tshake 12\u00a0s\r\n");
  CHECK(plain.lines(plain.drink("X").recipe) == dressed.lines(dressed.drink("X").recipe));
}

TEST_CASE("order of declarations and files decides nothing", "[forms]") {
  auto one = gill::testing::compile_files(
      {{"a.gill", "drink X\n  60 ml house rum\n  glass beaker\n"},
       {"b.gill", "glass beaker\n  holds 200 ml\nprep house rum\n  1 l aged rum\n"}});
  auto other = gill::testing::compile_files(
      {{"a.gill", "prep house rum\n  1 l aged rum\nglass beaker\n  holds 200 ml\n"},
       {"b.gill", "drink X\n  glass beaker\n  60 ml house rum\n"}});
  CHECK(findings(one) == Strings{});
  CHECK(findings(other) == Strings{});
  CHECK(one.lines(one.drink("X").recipe) == other.lines(other.drink("X").recipe));
}

TEST_CASE("quoted text and its comment are told apart", "[forms]") {
  auto compiled = read(
      "drink X\n  guest \"Rum # 1, lime\" # not for print\n  right when \"cold\"\n  author A. Writer # me\n");
  CHECK(compiled.drink("X").guest == "Rum # 1, lime");
  CHECK(compiled.drink("X").authors == Strings{"A. Writer"});
}

TEST_CASE("colour takes a word or six digits", "[forms]") {
  auto colour = [](const std::string& line) {
    return read_body("ingredient X", {"kind syrup", line}).stock("X").colour;
  };
  CHECK(colour("colour #D98C2B") == "#d98c2b");
  CHECK(colour("color #d98c2b # amber") == "#d98c2b");
  CHECK(colour("colour amber # not red") == "amber");
  CHECK(colour("colour Deep Red") == "deep red");
}

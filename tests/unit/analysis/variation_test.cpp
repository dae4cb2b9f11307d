// `like`, `swap`, `without`, `method anew`, and where new lines go.
#include <catch2/catch.hpp>

#include "support/fixture.h"

using namespace gill::analysis;
using gill::testing::compile;
using gill::testing::Compiled;
using gill::testing::expect_findings;
using gill::testing::findings;
using Strings = std::vector<std::string>;

namespace {

constexpr const char* velvet =
    "drink Velvet\n"
    "  | The first.\n"
    "  family        egg sour\n"
    "  glass         coupe, chilled\n"
    "  45 ml         rye whiskey\n"
    "  22.5 ml       lemon juice\n"
    "  15 ml         honey syrup\n"
    "  dry shake     20 s\n"
    "  shake         12 s\n"
    "  double strain\n"
    "  garnish       lemon twist\n"
    "  garnish       sesame seed\n"
    "  right when    \"cold\"\n"
    "  guest         \"Rye, lemon, honey.\"\n"
    "  tag           signature\n"
    "  station       well\n"
    "  was           Iron\n"
    "  author        A. Writer\n"
    "  since         2026-01-08\n"
    "  tasted        2026-01-05 Good.\n"
    "  status        draft\n"
    "  expect        strength 11..20 % abv\n"
    "  allow         raw-egg because \"said\"\n"
    "  source        notes\n"
    "  serves        2\n"
    "  size          90 ml\n";

const Strings velvet_lines = {
    "45 ml rye whiskey", "22.5 ml lemon juice", "15 ml honey syrup",  "dry shake", "shake",
    "double strain",     "garnish lemon twist", "garnish sesame seed"};

/// The lines of a variation of the drink above.
Strings varied(const Strings& lines) {
  std::string text = std::string(velvet) + "drink X like Velvet\n";
  for (const auto& line : lines) text += "  " + line + "\n";
  auto compiled = compile(text);
  for (const auto& finding : compiled.sink.all()) UNSCOPED_INFO(finding.message);
  CHECK(findings(compiled) == Strings{});
  return compiled.lines(compiled.drink("X").recipe);
}

/// The lines of the drink above with some put in place of others: `{1, 2, "shake"}` replaces two lines from
/// line 1.
Strings with(std::size_t at, std::size_t dropped, const Strings& put) {
  Strings lines = velvet_lines;
  auto begin = lines.begin() + static_cast<std::ptrdiff_t>(at);
  lines.erase(begin, begin + static_cast<std::ptrdiff_t>(dropped));
  lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at), put.begin(), put.end());
  return lines;
}

}  // namespace

TEST_CASE("like brings everything but what is a drink's own", "[like]") {
  auto compiled = compile(std::string(velvet) + "drink X like Velvet\n");
  const Drink& drink = compiled.drink("X");
  CHECK(compiled.specs[drink.family].head.name == "egg sour");
  CHECK(compiled.specs[drink.glass].head.name == "coupe");
  CHECK(drink.glass_chilled);
  CHECK(compiled.lines(drink.recipe) == velvet_lines);
  CHECK(drink.right_when == Strings{"cold"});
  CHECK(drink.guest == "Rye, lemon, honey.");
  CHECK(drink.tags == Strings{"signature"});
  CHECK(drink.station == "well");
  CHECK(drink.head.source == "notes");
  CHECK(drink.serves == 2);
  CHECK(drink.size);

  CHECK(drink.head.name == "X");
  CHECK(drink.head.text.empty());
  CHECK(drink.was.empty());
  CHECK(drink.since.empty());
  CHECK(drink.authors.empty());
  CHECK(drink.tastings.empty());
  CHECK(drink.status == Status::approved);
  CHECK(drink.expects.empty());
  CHECK(drink.head.allows.empty());
  CHECK(compiled.specs.drinks[drink.like.index()].head.name == "Velvet");
}

TEST_CASE("like of an ingredient leaves out its text, aka and buy", "[like]") {
  auto compiled = compile(
      "ingredient quay rye like rye whiskey\n"
      "  | Ours.\n"
      "  aka      the rye\n"
      "  buy      700 ml for 30 EUR\n"
      "  caution  Strong.\n"
      "  strength 50 % abv\n"
      "ingredient other rye like quay rye\n");
  CHECK(findings(compiled).empty());
  const Stock& other = compiled.stock("other rye");
  CHECK(other.strength->value == gill::base::Exact(1, 2));
  CHECK(other.kind == StockKind::spirit);
  CHECK(other.cautions == Strings{"Strong."});
  CHECK(other.head.text.empty());
  CHECK(other.aka.empty());
  CHECK(other.buys.empty());
  CHECK(compiled.stock("the rye").head.name == "quay rye");
}

TEST_CASE("a property given again replaces the other's", "[like]") {
  auto compiled = compile(std::string(velvet) +
                          "drink X like Velvet\n"
                          "  | The second.\n"
                          "  glass       rocks\n"
                          "  right when  \"colder\"\n"
                          "  right when  \"and quiet\"\n"
                          "  tag         new, short\n"
                          "  status      approved 2026-02-01\n"
                          "  expect      strength ..30 % abv\n");
  const Drink& drink = compiled.drink("X");
  CHECK(drink.head.text == "The second.");
  CHECK(compiled.specs[drink.glass].head.name == "rocks");
  CHECK_FALSE(drink.glass_chilled);
  CHECK(drink.right_when == Strings{"colder", "and quiet"});
  CHECK(drink.tags == Strings{"new", "short"});
  CHECK(drink.approved_on == "2026-02-01");
  CHECK(drink.expects.size() == 1);
}

TEST_CASE("an ingredient's acids, allergens and gifts given again replace all the other's", "[like]") {
  auto compiled = compile(
      "ingredient a\n"
      "  kind     fruit\n"
      "  acid     5 % w/w citric\n"
      "  acid     1 % w/w malic\n"
      "  allergen egg\n"
      "  allergen may milk\n"
      "  gives    30 ml lemon juice\n"
      "ingredient b like a\n"
      "  acid     2 % w/w lactic\n"
      "  allergen none\n"
      "  gives    10 ml lime juice\n"
      "ingredient c like a\n");
  CHECK(findings(compiled).empty());
  CHECK(compiled.stock("b").acids.size() == 1);
  CHECK(compiled.stock("b").allergens.empty());
  CHECK(compiled.stock("b").gives.size() == 1);
  CHECK(compiled.stock("c").acids.size() == 2);
  CHECK(compiled.stock("c").allergens.size() == 2);
}

TEST_CASE("all garnish lines give way together", "[like]") {
  CHECK(varied({"garnish orange twist"}) == with(6, 2, {"garnish orange twist"}));
  CHECK(varied({"garnish orange twist", "garnish mint sprig"}) ==
        with(6, 2, {"garnish orange twist", "garnish mint sprig"}));
  CHECK(varied({"garnish none"}) == with(6, 2, {"garnish"}));
}

TEST_CASE("an ingredient named again is changed in place", "[like]") {
  CHECK(varied({"30 ml lemon juice"}) == with(1, 1, {"30 ml lemon juice"}));
  CHECK(varied({"2 oz Rye Whiskey, chilled"}) == with(0, 1, {"2 oz rye whiskey"}));
}

TEST_CASE("an ingredient is named again by its alias, too", "[like]") {
  auto compiled = compile(
      "ingredient house gin\n  kind spirit\n  aka the gin\n"
      "drink A\n  30 ml house gin\n  shake 12 s\ndrink B like A\n  45 ml the gin\n");
  CHECK(findings(compiled).empty());
  CHECK(compiled.lines(compiled.drink("B").recipe) == Strings{"45 ml house gin", "shake"});
}

TEST_CASE("one that stands there twice must be named by swap or without", "[like]") {
  expect_findings(
      "drink A\n"
      "  30 ml  lemon juice\n"
      "  shake  12 s\n"
      "  strain\n"
      "  5 ml   lemon juice\n"
      "drink B like A\n"
      "  # error: 10-11 [bad-line] `without`\n"
      "  20 ml  lemon juice\n"
      "drink C like A\n"
      "  without lemon juice\n"
      "  20 ml  lemon juice\n"
      "drink D like A\n"
      "  swap lemon juice -> lime juice\n");
  auto compiled = compile(
      "drink A\n  30 ml lemon juice\n  shake 12 s\n  strain\n  5 ml lemon juice\n"
      "drink B like A\n  20 ml lemon juice\ndrink D like A\n  swap lemon juice -> lime juice\n");
  CHECK(compiled.drink("B").head.has_amount_errors);
  CHECK(compiled.lines(compiled.drink("D").recipe) ==
        Strings{"30 ml lime juice", "shake", "strain", "5 ml lime juice"});
}

TEST_CASE("a new ingredient joins the mixing vessel after its last amount there", "[like]") {
  CHECK(varied({"2 dashes orange bitters"}) == with(3, 0, {"2 dashes orange bitters"}));
  CHECK(varied({"2 dashes orange bitters", "1 egg white"}) ==
        with(3, 0, {"2 dashes orange bitters", "1 egg white"}));
}

TEST_CASE("what is added to the glass after the strain is not where a new ingredient goes", "[like]") {
  auto compiled = compile(
      "drink A\n  30 ml gin one\n  shake 12 s\n  strain\n  60 ml soda water\n  garnish none\n"
      "ingredient gin one\n  kind spirit\n"
      "drink B like A\n  10 ml simple syrup\n");
  CHECK(compiled.lines(compiled.drink("B").recipe) ==
        Strings{"30 ml gin one", "10 ml simple syrup", "shake", "strain", "60 ml soda water", "garnish"});
}

TEST_CASE("in a built drink the glass is the vessel", "[like]") {
  auto compiled = compile(
      "drink A\n  build\n  45 ml aged rum\n  top 60 ml soda water\n  garnish none\n"
      "drink B like A\n  10 ml lime juice\n");
  CHECK(compiled.lines(compiled.drink("B").recipe) ==
        Strings{"build", "45 ml aged rum", "10 ml lime juice", "top soda water", "garnish"});
}

TEST_CASE("a strain to the tin keeps the vessel a mixing vessel", "[like]") {
  auto compiled = compile(
      "drink A\n  45 ml aged rum\n  shake 12 s\n  strain to tin\n  1 egg white\n  dry shake 20 s\n  strain\n "
      " 30 ml soda water\n"
      "drink B like A\n  10 ml lime juice\n");
  CHECK(compiled.lines(compiled.drink("B").recipe) == Strings{"45 ml aged rum", "shake", "strain",
                                                              "1 egg white", "10 ml lime juice", "dry shake",
                                                              "strain", "30 ml soda water"});
}

TEST_CASE("a new ingredient that is written after a method line of this drink stays after it", "[like]") {
  CHECK(varied({"double strain", "30 ml soda water"}) == with(6, 0, {"30 ml soda water"}));
  CHECK(varied({"double strain", "30 ml soda water", "10 ml cream"}) ==
        with(6, 0, {"30 ml soda water", "10 ml cream"}));
  CHECK(varied({"shake 8 s", "5 ml cream"}) == with(5, 0, {"5 ml cream"}));
}

TEST_CASE("a method verb given again changes the first such line", "[like]") {
  auto compiled = compile(
      "drink A\n  45 ml aged rum\n  shake 12 s\n  shake 5 s\n  strain\n"
      "drink B like A\n  shake 8 s, hard\n");
  const Drink& drink = compiled.drink("B");
  CHECK(compiled.lines(drink.recipe) == Strings{"45 ml aged rum", "shake", "shake", "strain"});
  CHECK(drink.recipe.steps[drink.recipe.order[1].index].time->number() == 8);
  CHECK(drink.recipe.steps[drink.recipe.order[2].index].time->number() == 5);
}

TEST_CASE("a verb given again twice changes the first and the second such line", "[like]") {
  auto compiled = compile(
      "drink A\n  45 ml aged rum\n  shake 12 s\n  shake 5 s\n  strain\n"
      "drink B like A\n  shake 8 s\n  shake 3 s\n");
  const Drink& drink = compiled.drink("B");
  CHECK(drink.recipe.steps[drink.recipe.order[1].index].time->number() == 8);
  CHECK(drink.recipe.steps[drink.recipe.order[2].index].time->number() == 3);
}

TEST_CASE("a new method verb goes before the garnish", "[like]") {
  CHECK(varied({"float 10 ml overproof rum"}) == with(6, 0, {"float overproof rum"}));
  CHECK(varied({"float 10 ml overproof rum", "rest 10 s"}) == with(6, 0, {"float overproof rum", "rest"}));
  CHECK(varied({"shake 8 s", "float 10 ml overproof rum"}) == with(6, 0, {"float overproof rum"}));
  CHECK(varied({"garnish orange twist", "rest 10 s"}) == with(6, 2, {"rest", "garnish orange twist"}));
}

TEST_CASE("swap keeps the amount, or gives a new one", "[like]") {
  CHECK(varied({"swap rye whiskey -> aged rum"}) == with(0, 1, {"45 ml aged rum"}));
  CHECK(varied({"swap rye whiskey → aged rum"}) == with(0, 1, {"45 ml aged rum"}));
  CHECK(varied({"swap honey syrup -> 10 ml maple syrup"}) == with(2, 1, {"10 ml maple syrup"}));
  CHECK(varied({"swap lemon twist -> orange twist"}) == with(6, 1, {"garnish orange twist"}));
}

TEST_CASE("without takes an ingredient or a verb", "[like]") {
  CHECK(varied({"without lemon juice"}) == with(1, 1, {}));
  CHECK(varied({"without dry shake"}) == with(3, 1, {}));
  CHECK(varied({"without garnish"}) == with(6, 2, {}));
  CHECK(varied({"without lemon juice, honey syrup"}) == with(1, 2, {}));
  CHECK(varied({"without sesame seed"}) == with(7, 1, {}));
}

TEST_CASE("the example of the page: swaps, a loss and a gain", "[like]") {
  CHECK(varied({"swap rye whiskey -> aged rum", "swap honey syrup -> 10 ml maple syrup",
                "without lemon juice", "22.5 ml lime juice"}) ==
        Strings{"45 ml aged rum", "10 ml maple syrup", "22.5 ml lime juice", "dry shake", "shake",
                "double strain", "garnish lemon twist", "garnish sesame seed"});
}

TEST_CASE("method anew drops all the other's method", "[like]") {
  CHECK(varied({"method anew"}) == Strings{"45 ml rye whiskey", "22.5 ml lemon juice", "15 ml honey syrup"});
  CHECK(varied({"method anew", "stir 30 s", "strain", "garnish orange twist"}) ==
        Strings{"45 ml rye whiskey", "22.5 ml lemon juice", "15 ml honey syrup", "stir", "strain",
                "garnish orange twist"});
  CHECK(varied({"method anew", "10 ml cream", "stir 30 s", "strain", "5 ml soda water", "garnish none"}) ==
        Strings{"45 ml rye whiskey", "22.5 ml lemon juice", "15 ml honey syrup", "10 ml cream", "stir",
                "strain", "5 ml soda water", "garnish"});
}

TEST_CASE("variations of variations see what the middle one made", "[like]") {
  auto compiled = compile(std::string(velvet) +
                          "drink Y like X\n  swap aged rum -> cognac\n"
                          "drink X like Velvet\n  swap rye whiskey -> aged rum\n  2 dashes orange bitters\n");
  CHECK(findings(compiled).empty());
  CHECK(compiled.lines(compiled.drink("Y").recipe)[0] == "45 ml cognac");
  CHECK(compiled.lines(compiled.drink("Y").recipe)[3] == "2 dashes orange bitters");
}

TEST_CASE("swap and without name what the other has", "[like]") {
  expect_findings(std::string(velvet) +
                  "drink X like Velvet\n"
                  "  # error: 8-5 [unknown-name] no such ingredient\n"
                  "  swap cream -> milk\n"
                  "  # error: 11-5 [unknown-name] no such ingredient\n"
                  "  without cream\n"
                  "  # error: 11-4 [unknown-name] no such step\n"
                  "  without stir\n"
                  "  # error: 3-16 [bad-line] swap\n"
                  "  swap rye whiskey\n"
                  "  # error: 23-9 [unknown-name]\n"
                  "  swap lemon juice -> xylophone\n");
}

TEST_CASE("swap, without and method anew need something to change", "[like]") {
  expect_findings(
      "drink X\n"
      "  # error: 3-23 [bad-line] like\n"
      "  swap gin -> rye whiskey\n"
      "  # error: 3-11 [bad-line] like\n"
      "  without gin\n"
      "  # error: 3-11 [bad-line] like\n"
      "  method anew\n"
      "prep P\n"
      "  # error: 3-11 [bad-line] like\n"
      "  without gin\n");
}

TEST_CASE("preps vary as drinks do", "[like]") {
  auto compiled = compile(
      "prep A\n  100 g white sugar\n  100 g water\n  dissolve\n  makes 160 ml\n  keeps 3 d chilled\n  "
      "station back\n"
      "prep B like A\n  swap water -> orange juice\n  200 g white sugar\n");
  CHECK(findings(compiled).empty());
  const Stock& prep = compiled.stock("B");
  CHECK(compiled.lines(prep.recipe) == Strings{"200 g white sugar", "100 g orange juice", "dissolve"});
  CHECK(prep.makes->value == 160);
  CHECK(prep.station == "back");
}

TEST_CASE("glasses, ices, families, menus and price lists vary, too", "[like]") {
  auto compiled = compile(
      "glass big coupe like coupe\n  holds 240 ml\n"
      "ice slow cube like large cube\n  melt 50 %\n"
      "family soft sour like sour\n  strength 5..9 % abv\n"
      "drink X\n"
      "menu A\n  runs 2026-01-01 .. 2026-02-01\n  section One\n    X at 10 EUR\n"
      "menu B like A\n  runs 2026-03-01 .. 2026-04-01\n"
      "menu C like A\n  section Two\n    X at 12 EUR\n"
      "prices P\n  lemon 1 for 0.40 EUR\n  lime 1 for 0.30 EUR\n"
      "prices Q like P\n  lemon 1 for 0.50 EUR\n");
  CHECK(findings(compiled).empty());
  CHECK(compiled.glass("big coupe").holds->value == 240);
  CHECK(compiled.glass("big coupe").shape.size() == compiled.glass("coupe").shape.size());
  CHECK(compiled.ice("slow cube").each);
  CHECK(compiled.family("soft sour").method == Verb::shake);
  CHECK(compiled.menu("B").sections.size() == 1);
  CHECK(compiled.menu("B").runs_from == "2026-03-01");
  REQUIRE(compiled.menu("C").sections.size() == 1);
  CHECK(compiled.menu("C").sections[0].entries[0].price->amount == 12);
  const auto& prices = compiled.prices("Q").prices;
  REQUIRE(prices.size() == 2);
  CHECK(compiled.prices("P").prices.size() == 2);
  for (const auto& price : prices)
    if (compiled.name_of(price.use) == "lemon") CHECK(price.buy.price.amount == gill::base::Exact(1, 2));
}

TEST_CASE("what a step pours and a variation names again is poured by that step, not twice", "[variation]") {
  auto poured = [](const std::string& step, const std::string& line) {
    auto compiled = compile("drink Base\n  45 ml London dry gin\n  shake 8 s\n  strain\n  " + step +
                            "\n  garnish none\ndrink X like Base\n  " + line + "\n");
    CHECK(findings(compiled) == Strings{});
    const auto& recipe = compiled.drink("X").recipe;
    Strings written;
    for (const auto& one : recipe.steps)
      if (one.amount) written.push_back(one.as_written);
    CHECK(recipe.amounts.size() == 1);
    return written;
  };
  CHECK(poured("float 10 ml dark rum", "15 ml dark rum") == Strings{"float 15 ml dark rum"});
  CHECK(poured("top 60 ml soda water", "75 ml soda water") == Strings{"top 75 ml soda water"});
  CHECK(poured("layer 10 ml dark rum", "5 ml dark rum") == Strings{"layer 5 ml dark rum"});
  CHECK(poured("rinse 5 ml absinthe", "2.5 ml absinthe") == Strings{"rinse 2.5 ml absinthe"});
}

TEST_CASE("what is poured both as an amount and by a step is asked about when it is named again",
          "[variation]") {
  expect_findings(
      "drink Base\n  45 ml dark rum\n  shake 8 s\n  strain\n  float 10 ml dark rum\n  garnish none\n"
      "drink X like Base\n"
      "  # error: 9-8 [bad-line] stands twice\n"
      "  15 ml dark rum\n");
}

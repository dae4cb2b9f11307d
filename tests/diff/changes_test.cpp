// What is a change, how far it reaches, and how it is told.
#include <algorithm>
#include <catch2/catch.hpp>

#include "diff/pair.h"
#include "support/clearing_words.h"

using namespace gill;
using namespace gill::testing;
using Json = nlohmann::json;

namespace {

const std::string house = R"(house Test
  currency EUR
  ounce 30 ml
ingredient barley spirit
  kind spirit
  strength 40 % abv
  allergen none
  buy 700 ml for 21.00 EUR
ingredient heather honey
  kind sweetener
  form liquid
  sugar 80 % w/w
  density 1.42 g/ml
  allergen none
  buy 1 kg for 12.00 EUR
prep heather syrup
  500 g heather honey
  500 g water
  dissolve
prep smoked syrup
  500 ml heather syrup
  10 ml barley spirit
  stir
prep hearth cordial
  300 ml smoked syrup
  100 ml water
  stir
unit dash = 0.8 ml ± 40 %
drink Long Wick
  glass highball
  ice cubed
  45 ml barley spirit
  20 ml hearth cordial
  build
  garnish none
drink Bare Wick
  glass rocks
  ice none
  45 ml barley spirit
  2 dashes orange bitters
  stir 30 s
  strain
  garnish lemon twist
)";

Pair edited(const std::string& what, const std::string& by) { return compare(house, with(house, what, by)); }

using Names = std::vector<std::string>;

Names names_of(const std::vector<diff::Change>& changes) {
  Names names;
  for (const auto& change : changes) names.push_back(change.name);
  return names;
}

const diff::FigureChange* figure(const diff::Change& change, std::string_view which) {
  for (const auto& one : change.figures)
    if (one.after.figure->key == which) return &one;
  return nullptr;
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

}  // namespace

// ---- how far a change reaches

TEST_CASE("an ingredient three preps deep reaches its drinks and no others, with its name", "[diff]") {
  auto pair = edited("sugar 80 % w/w", "sugar 70 % w/w");
  CHECK(names_of(pair.changes.drinks) == Names{"Long Wick"});
  CHECK(pair.drink("Long Wick").because == Names{"heather honey"});
  CHECK_FALSE(pair.drink("Long Wick").is_own);
  CHECK(names_of(pair.changes.preps) == Names{"hearth cordial", "heather syrup", "smoked syrup"});
  for (const auto& prep : pair.changes.preps) CHECK(prep.because == Names{"heather honey"});
  CHECK(names_of(pair.changes.ingredients) == Names{"heather honey"});
}

TEST_CASE("a prep two deep is the cause by its own name", "[diff]") {
  auto pair = edited("10 ml barley spirit", "30 ml barley spirit");
  CHECK(names_of(pair.changes.drinks) == Names{"Long Wick"});
  CHECK(pair.drink("Long Wick").because == Names{"smoked syrup"});
  CHECK(pair.prep("smoked syrup").because.empty());
  CHECK(pair.prep("hearth cordial").because == Names{"smoked syrup"});
  CHECK(figure(pair.drink("Long Wick"), "abv_percent"));
}

TEST_CASE("a prep is changed for the taste although no figure can tell", "[diff]") {
  auto pair =
      edited("  10 ml barley spirit\n  stir\n", "  10 ml barley spirit\n  stir\n  do smoke it over oak\n");
  CHECK(names_of(pair.changes.drinks) == Names{"Long Wick"});
  CHECK(pair.drink("Long Wick").because == Names{"smoked syrup"});
  CHECK(pair.drink("Long Wick").figures.empty());
  CHECK(has(pair.text(), "taste it"));
}

TEST_CASE("a unit reaches what is measured with it", "[diff]") {
  auto pair = edited("unit dash = 0.8 ml", "unit dash = 1.2 ml");
  CHECK(names_of(pair.changes.drinks) == Names{"Bare Wick"});
  CHECK(pair.drink("Bare Wick").because == Names{"dash"});
  REQUIRE(pair.drink("Bare Wick").pours.size() == 1);
  const auto& pour = pair.drink("Bare Wick").pours[0];
  CHECK(pour.follows);
  CHECK(pour.before->amount == pour.after->amount);
  // 2 dashes of 0.8 ml, and of 1.2 ml.
  CHECK(*pour.before->volume_ml == Approx(1.6));
  CHECK(*pour.after->volume_ml == Approx(2.4));
}

TEST_CASE("the house's ounce reaches what is poured in ounces", "[diff]") {
  auto in_ounces = with(house, "45 ml barley spirit\n  20 ml", "1 1/2 oz barley spirit\n  20 ml");
  auto pair = compare(in_ounces, with(in_ounces, "ounce 30 ml", "ounce 25 ml"));
  CHECK(names_of(pair.changes.drinks) == Names{"Long Wick"});
  CHECK(pair.drink("Long Wick").because == Names{"ounce"});
  CHECK(*pair.drink("Long Wick").pours.at(0).after->volume_ml == Approx(37.5));
}

TEST_CASE("a default of the house reaches the drinks that it changes", "[diff]") {
  auto pair = compare(house, with(house, "  ounce 30 ml\n", "  ounce 30 ml\n  room 28 C\n"));
  CHECK(names_of(pair.changes.drinks) == Names{"Bare Wick", "Long Wick"});
  for (const auto& drink : pair.changes.drinks) CHECK(drink.because == Names{"room"});
  CHECK(pair.changes.preps.empty());
  CHECK(pair.changes.ingredients.empty());
}

TEST_CASE("a glass and an ice reach the drinks that use them", "[diff]") {
  std::string glass = "glass rocks\n  holds 250 ml\n  line 80..120 ml\n";
  auto pair = compare(house + glass, house + with(glass, "250 ml", "350 ml"));
  CHECK(names_of(pair.changes.drinks) == Names{"Bare Wick"});
  CHECK(pair.drink("Bare Wick").because == Names{"rocks"});
  CHECK(names_of(pair.changes.glasses) == Names{"rocks"});
}

TEST_CASE("a price reaches the cost of what is made of it and nothing else", "[diff]") {
  auto pair = edited("1 kg for 12.00 EUR", "1 kg for 18.00 EUR");
  CHECK(names_of(pair.changes.drinks) == Names{"Long Wick"});
  CHECK(pair.drink("Long Wick").because == Names{"heather honey"});
  auto cost = pair.drink("Long Wick").figures;
  REQUIRE(cost.size() == 1);
  CHECK(cost[0].after.figure->key == "cost");
  // Half of the syrup's grams are honey's: half as dear again, the honey's share of the cost rises by half.
  auto json = pair.json();
  double before = named(json["drinks"], "Long Wick")["cost"][0],
         after = named(json["drinks"], "Long Wick")["cost"][1];
  double spirit = 45 * 21.00 / 700;
  CHECK(after > before);
  CHECK(before > spirit);
}

// ---- what is changed in a build

TEST_CASE("amounts are told old and new in the house's units", "[diff]") {
  auto pair = compare(with(house, "  ounce 30 ml\n", "  ounce 30 ml\n  show oz, ml\n"),
                      with(with(house, "  ounce 30 ml\n", "  ounce 30 ml\n  show oz, ml\n"),
                           "  45 ml barley spirit\n  2 dashes", "  60 ml barley spirit\n  2 dashes"));
  auto json = pair.json();
  const auto& line = named(named(json["drinks"], "Bare Wick")["ingredients"], "barley spirit");
  CHECK(line["old"] == "1 1/2 oz");
  CHECK(line["new"] == "2 oz");
  CHECK(line["change"] == "changed");
  CHECK(line["volume_ml"][0].get<double>() == Approx(45));
  CHECK(line["volume_ml"][1].get<double>() == Approx(60));
}

TEST_CASE("a change of strength is told with whether it is beyond tolerance", "[diff]") {
  auto pair = edited("2 dashes orange bitters", "2 dashes orange bitters\n  0.1 ml water");
  // Two dashes alone may be 0.6 ml more or less.
  const auto* little = figure(pair.drink("Bare Wick"), "volume_ml");
  REQUIRE(little);
  CHECK(little->beyond_tolerance == false);
  auto much = edited("45 ml barley spirit\n  2 dashes", "60 ml barley spirit\n  2 dashes");
  const auto* volume = figure(much.drink("Bare Wick"), "volume_ml");
  REQUIRE(volume);
  CHECK(volume->beyond_tolerance == true);
  CHECK(much.json()["drinks"][0]["beyond_tolerance"]["volume_ml"] == true);
  CHECK(has(much.text(), "beyond tolerance"));
  CHECK(has(much.markdown(), "beyond tolerance"));
  CHECK(has(much.html(), "beyond tolerance"));
}

TEST_CASE("the order of the method is told step by step", "[diff]") {
  std::string before =
      "drink Mould\n  glass rocks\n  60 ml vodka\n  8 mint leaves\n  muddle\n  shake 12 s\n  strain\n  "
      "garnish none\n";
  auto pair = compare(before, with(before, "  muddle\n  shake 12 s\n", "  shake 12 s\n  muddle\n"));
  const auto& method = pair.drink("Mould").method;
  REQUIRE(method.size() == 1);
  CHECK(method[0].kind == diff::StepChange::Kind::moved);
  CHECK(method[0].before_number + method[0].after_number == 3);
  auto longer = compare(before, with(before, "shake 12 s", "shake 15 s"));
  REQUIRE(longer.drink("Mould").method.size() == 1);
  CHECK(longer.drink("Mould").method[0].kind == diff::StepChange::Kind::changed);
  auto json = longer.json();
  CHECK(json["drinks"][0]["method"][0]["old"] == "Shake 12 s.");
  CHECK(json["drinks"][0]["method"][0]["new"] == "Shake 15 s.");
}

TEST_CASE("glass, ice and garnish are told", "[diff]") {
  auto pair = edited("  glass rocks\n  ice none\n", "  glass coupe, chilled\n  ice large cube\n");
  std::map<std::string, std::pair<std::string, std::string>> told;
  for (const auto& property : pair.drink("Bare Wick").properties)
    told[property.name] = {property.before_words(), property.after_words()};
  CHECK(told.at("glass") == std::pair<std::string, std::string>("rocks", "coupe, chilled"));
  CHECK(told.at("ice") == std::pair<std::string, std::string>("no ice", "large cube"));
  auto bare = edited("garnish lemon twist", "garnish none");
  REQUIRE(bare.drink("Bare Wick").properties.size() == 1);
  CHECK(bare.drink("Bare Wick").properties[0].after_words() == "none");
}

// ---- names

TEST_CASE("a drink that says what it was is renamed, whatever became of it", "[diff]") {
  auto pair = edited("drink Bare Wick\n  glass rocks", "drink Night Wick\n  was Bare Wick\n  glass coupe");
  const auto& change = pair.drink("Night Wick");
  CHECK(change.kind == diff::Kind::renamed);
  CHECK(change.was == "Bare Wick");
  CHECK_FALSE(change.likeness);
  CHECK_FALSE(has(pair.text(), "guess"));
  CHECK(pair.json()["drinks"][0]["was"] == "Bare Wick");
}

TEST_CASE("a rename that nobody declares is found by what two builds share, and said to be a guess",
          "[diff]") {
  auto pair = edited("drink Bare Wick", "drink Night Wick");
  const auto& change = pair.drink("Night Wick");
  CHECK(change.kind == diff::Kind::renamed);
  CHECK(change.was == "Bare Wick");
  REQUIRE(change.likeness);
  CHECK(*change.likeness == Approx(1));
  for (const auto& form :
       {pair.text(), pair.markdown(), pair.html(), diff::to_text(diff::staff_page(pair.staff()), false)})
    CHECK(has(form, "at a guess"));
  CHECK(pair.json()["drinks"][0]["guess"].get<double>() == Approx(1));
}

TEST_CASE("two builds that share little are one gone and one new", "[diff]") {
  auto pair =
      edited("drink Bare Wick\n  glass rocks\n  ice none\n  45 ml barley spirit\n  2 dashes orange bitters",
             "drink Night Wick\n  glass coupe\n  ice none\n  45 ml cognac\n  15 ml lemon juice");
  CHECK(pair.drink("Night Wick").kind == diff::Kind::added);
  CHECK(pair.drink("Bare Wick").kind == diff::Kind::removed);
}

// ---- allergens

TEST_CASE("allergens gained come first in every form", "[diff]") {
  auto pair = edited("density 1.42 g/ml\n  allergen none", "density 1.42 g/ml\n  allergen celery");
  CHECK(pair.drink("Long Wick").allergens.gained.at(0).code == "celery");
  for (const auto& form :
       {pair.text(), pair.markdown(), pair.html(), diff::to_text(diff::staff_page(pair.staff()), false),
        diff::to_markdown(diff::staff_page(pair.staff()))}) {
    INFO(form.substr(0, 600));
    auto alarm = std::min(form.find("Allergens gained"), form.find("ALLERGENS GAINED"));
    auto name = form.find("Long Wick");
    REQUIRE(alarm != std::string::npos);
    REQUIRE(name != std::string::npos);
    CHECK(alarm < name);
    CHECK(form.find("celery") < form.find("Long Wick", name + 1));
  }
  auto json = diff::to_json(pair.changes);
  CHECK(json.find("\"allergens_gained\"") < json.find("\"drinks\""));
  CHECK(named(pair.json()["allergens_gained"], "Long Wick")["gained"] == Json::array({"celery"}));
  CHECK(named(pair.json()["drinks"], "Long Wick")["allergens"]["gained"] == Json::array({"celery"}));
}

TEST_CASE("an allergen that is declared no more is never called absent", "[diff]") {
  auto with_celery =
      with(house, "density 1.42 g/ml\n  allergen none", "density 1.42 g/ml\n  allergen celery");
  auto pair = compare(with_celery, house);
  CHECK(pair.drink("Long Wick").allergens.lost.at(0).code == "celery");
  auto text = pair.text();
  CHECK(has(text, "no longer declared"));
  CHECK(has(text, "not thereby absent"));
  CHECK(testing::clearing_words_in(text).empty());
}

TEST_CASE("what stops saying anything about allergens is told as loudly", "[diff]") {
  auto pair = edited("density 1.42 g/ml\n  allergen none", "density 1.42 g/ml");
  const auto& change = pair.drink("Long Wick").allergens;
  CHECK(change.known_before);
  CHECK_FALSE(change.known_after);
  CHECK(change.unknown_gained == Names{"heather honey"});
  CHECK(has(pair.text().substr(0, 400), "heather honey"));
}

// ---- menus and money

namespace {

const std::string menu = R"(menu List
  section Short
    Bare Wick at 12 EUR
  section Long
    Long Wick at 11 EUR, sells 20
)";

}  // namespace

TEST_CASE("a menu tells what moved and what costs more", "[diff]") {
  auto pair = compare(house + menu, house + R"(menu List
  section Short
  section Long
    Bare Wick at 12 EUR
    Long Wick at 11.50 EUR, sells 25
)");
  REQUIRE(pair.changes.menus.size() == 1);
  const auto& lines = pair.changes.menus[0].lines;
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].drink == "Bare Wick");
  CHECK(lines[0].moved);
  CHECK_FALSE(lines[0].price_changed);
  CHECK(lines[1].drink == "Long Wick");
  CHECK_FALSE(lines[1].moved);
  CHECK(lines[1].price_changed);
  CHECK(lines[1].sells_changed);
  CHECK(has(pair.text(), "moved from Short to Long"));
  CHECK(has(pair.text(), "11.00 EUR → 11.50 EUR"));
  // 1.36 EUR of Long Wick over 11 and over 11.50: the pour cost follows.
  const auto* pour_cost = figure(pair.drink("Long Wick"), "pour_cost_percent");
  REQUIRE(pour_cost);
  CHECK(*pour_cost->before.value / *pour_cost->after.value == Approx(11.5 / 11));
}

TEST_CASE("a drink that is new on a menu or off it is told there", "[diff]") {
  auto pair = compare(house + menu, house + with(menu, "    Long Wick at 11 EUR, sells 20\n", ""));
  REQUIRE(pair.changes.menus.size() == 1);
  CHECK(pair.changes.menus[0].lines.at(0).drink == "Long Wick");
  CHECK_FALSE(pair.changes.menus[0].lines[0].after);
  CHECK(has(pair.text(), "off (was under Long, 11.00 EUR)"));
}

TEST_CASE("what guests get decides what is new and what is gone: drafts and retired drinks are neither",
          "[diff]") {
  const std::string drink = "  glass rocks\n  50 ml vodka\n  10 ml orgeat\n  stir 20 s\n  strain\n";
  auto one = [&](const std::string& status) { return "drink One\n" + status + drink; };
  const std::string draft = "  status draft\n", retired = "  status retired\n";
  // A draft that is approved is new, with its allergens.
  auto approved = compare(one(draft), one(""));
  CHECK(approved.drink("One").kind == diff::Kind::added);
  CHECK(has(approved.text(), "One (new): contains almond"));
  REQUIRE(approved.staff().stations.size() == 1);
  CHECK(approved.staff().stations[0].learn.size() == 1);
  CHECK(has(approved.text(), "Drinks: 1 new."));
  // What is withdrawn is gone.
  for (const auto& status : {draft, retired}) {
    auto gone = compare(one(""), one(status));
    CHECK(has(gone.text(), "Drinks: 1 gone."));
    CHECK(gone.staff().stations[0].stop == Names{"One"});
    CHECK(gone.staff().alerts.empty());
  }
  // What nobody is served is neither, and is not hidden.
  for (const auto& status : {draft, retired}) {
    auto fresh = compare("house H\n", "house H\n" + one(status));
    CHECK(fresh.drink("One").is_unserved);
    CHECK_FALSE(has(fresh.text(), "One (new): contains"));
    CHECK(has(fresh.text(), "nobody is served these"));
    CHECK(fresh.staff().stations.empty());
    auto gone = compare("house H\n" + one(status), "house H\n");
    CHECK(has(gone.text(), "One: gone, and not served before."));
    CHECK_FALSE(has(gone.text(), "1 gone"));
  }
}

TEST_CASE("a menu that stays beside the season's takes no price move and no day from it", "[diff]") {
  const std::string drinks =
      "house X\n  currency EUR\nprices p\n  from 2026-01-01\n  vodka 1 l for 20 EUR\ndrink A\n  glass "
      "rocks\n  50 ml "
      "vodka\n  stir 20 s\n  strain\n  garnish none\ndrink C like A\n";
  const std::string stays = "menu Pairings\n  runs 2026-12-01 ..\n  A at 11 EUR\n  C at 9 EUR\n";
  auto pair =
      compare(drinks + stays + "menu Winter\n  runs 2026-12-01 .. 2027-03-14\n  A at 10 EUR\n  C at 8 EUR\n",
              drinks + stays + "menu Spring\n  runs 2027-03-15 .. 2027-06-30\n  A at 10.50 EUR\n");
  CHECK(pair.changes.before_menu == "Winter");
  CHECK(pair.changes.after_menu == "Spring");
  CHECK(pair.staff().from == "2027-03-15");
  CHECK(has(pair.text(), "10.00 EUR  10.50 EUR"));
  // What left the season and stands on the other as before costs there what it did.
  for (const auto& change : pair.changes.drinks) CHECK(change.name != "C");
}

TEST_CASE("a bowl's price is told as a bowl's, and set against no cup's", "[diff]") {
  const std::string bowl =
      "house X\n  currency EUR\nprices p\n  from 2026-01-01\n  vodka 1 l for 20 EUR\ndrink Bowl\n  glass "
      "punch bowl\n  "
      "cup punch cup\n  ice block\n  serves 12\n  700 ml vodka\n  1 l water\n  stir 30 s\n  garnish "
      "none\nmenu M\n  "
      "runs 2026-12-01 .. 2027-03-14\n";
  auto dearer = compare(bowl + "  Bowl at 160 EUR a bowl\n", bowl + "  Bowl at 170 EUR a bowl\n");
  CHECK(has(dearer.text(), "160.00 EUR a bowl  170.00 EUR a bowl"));
  CHECK(has(dearer.text(), "+10.00"));
  auto other = compare(bowl + "  Bowl at 160 EUR a bowl\n", bowl + "  Bowl at 15 EUR a cup\n");
  CHECK(has(other.text(), "160.00 EUR a bowl"));
  CHECK(has(other.text(), "15.00 EUR a cup"));
  CHECK_FALSE(has(other.text(), "145.00"));
}

TEST_CASE("a drink that comes on the menu or goes off it while its spec stays is told first, and to hands",
          "[diff]") {
  const std::string specs =
      "drink Fire\n  glass rocks\n  50 ml vodka\n  20 ml simple syrup\n  stir 20 s\n  strain\n"
      "drink Ash\n  glass coupe\n  50 ml vodka\n  10 ml orgeat\n  stir 20 s\n  strain\n"
      "drink Known\n  glass rocks\n  50 ml cognac\n  stir 20 s\n  strain\n";
  const std::string winter = "menu Winter\n  runs 2026-03-01 .. 2026-06-01\n  Fire at 10 EUR\n";
  const std::string summer = "menu Summer\n  runs 2026-06-02 .. 2026-09-01\n  Ash at 11 EUR\n";
  // Also where the old menu stays in the house.
  for (const auto& now : {specs + summer, specs + winter + summer}) {
    auto pair = compare(specs + winter, now);
    REQUIRE(pair.changes.menu_moves.size() == 2);
    CHECK(pair.changes.menu_moves[0].is_on);
    auto text = pair.text();
    INFO(text);
    CHECK(has(text, "On the menu now: Ash at 11.00 EUR (contains almond"));
    CHECK(has(text, "Off the menu: Fire."));
    CHECK(has(text, "Ash (new): contains almond"));
    auto sheet = pair.staff();
    REQUIRE(sheet.stations.size() == 2);  // the prep of the syrup, and the bar
    CHECK(sheet.stations[1].learn.at(0).name == "Ash");
    CHECK(sheet.stations[1].stop == Names{"Fire (off the menu)"});
    CHECK(sheet.goods_to_bring == Names{"orgeat"});
    CHECK(sheet.goods_to_put_away == Names{"white sugar"});
    CHECK(pair.json()["menu_moves"].size() == 2);
  }
  // Menus that run side by side are one: nothing moves.
  CHECK(compare(specs + winter + "menu Bar\n  runs 2026-03-01 .. 2026-06-01\n  Ash at 11 EUR\n",
                specs + winter + "menu Bar\n  runs 2026-03-02 .. 2026-06-01\n  Ash at 11 EUR\n")
            .changes.menu_moves.empty());
}

// ---- errors

TEST_CASE("what is in error is told as such, and the rest is compared", "[diff]") {
  auto broken = with(with(house, "45 ml barley spirit\n  20 ml", "45 furlongs barley spirit\n  20 ml"),
                     "45 ml barley spirit\n  2 dashes", "50 ml barley spirit\n  2 dashes");
  auto pair = compare(house, broken);
  CHECK(pair.after->has_errors());
  REQUIRE(pair.changes.not_compared.size() == 1);
  CHECK(pair.changes.not_compared[0].name == "Long Wick");
  CHECK(pair.changes.not_compared[0].in_after);
  CHECK_FALSE(pair.changes.not_compared[0].in_before);
  CHECK(names_of(pair.changes.drinks) == Names{"Bare Wick"});
  CHECK(has(pair.text(), "Long Wick"));
}

// ---- the fixed keys

TEST_CASE("JSON has the keys that are fixed, and pairs are old and new", "[diff]") {
  auto json = edited("45 ml barley spirit\n  2 dashes", "50 ml barley spirit\n  2 dashes").json();
  CHECK(json["format"] == "gill-diff");
  CHECK(json["version"] == 1);
  for (auto* key : {"drinks", "preps", "menus", "ingredients"}) CHECK(json[key].is_array());
  const auto& drink = named(json["drinks"], "Bare Wick");
  for (auto* key :
       {"name", "was", "change", "because", "ingredients", "method", "facts", "allergens", "cost"}) {
    INFO(key);
    CHECK(drink.contains(key));
  }
  CHECK(drink["was"].is_null());
  CHECK(drink["change"] == "changed");
  CHECK(drink["because"] == Json::array());
  CHECK(drink["allergens"]["gained"] == Json::array());
  CHECK(drink["allergens"]["lost"] == Json::array());
  REQUIRE(drink["cost"].size() == 2);
  CHECK(drink["ingredients"][0]["name"] == "barley spirit");
  CHECK(drink["ingredients"][0]["change"] == "changed");
  CHECK(drink["ingredients"][0]["old"] == "45 ml");
  CHECK(drink["ingredients"][0]["new"] == "50 ml");
  REQUIRE(drink["facts"]["abv_percent"].size() == 2);
  CHECK(drink["facts"]["volume_ml"][0].get<double>() < drink["facts"]["volume_ml"][1].get<double>());
}

TEST_CASE("a page holds the drawings of both sides and asks for nothing from outside", "[diff]") {
  auto html = edited("45 ml barley spirit\n  2 dashes", "50 ml barley spirit\n  2 dashes").html();
  std::size_t drawings = 0;
  for (auto at = html.find("<svg"); at != std::string::npos; at = html.find("<svg", at + 1)) ++drawings;
  CHECK(drawings == 2);
  CHECK(has(html, "Before"));
  CHECK(has(html, "Now"));
  for (auto* outside : {"<link", "<script", "src=\"http", "url(http", "@import"})
    CHECK_FALSE(has(html, outside));
}

TEST_CASE("names never reach a page as markup", "[diff]") {
  std::string odd =
      "drink \"<b>Wick</b> & <script>\"\n  glass rocks\n  45 ml vodka\n  15 ml water\n  stir 30 s\n  "
      "strain\n";
  auto pair = compare(odd, with(odd, "45 ml", "50 ml"));
  CHECK_FALSE(has(pair.html(), "<script>"));
  CHECK_FALSE(has(pair.html(), "<b>Wick"));
  CHECK_FALSE(has(pair.markdown(), "<script>"));
}

// ---- the staff's sheet

TEST_CASE("the retraining sheet tells by station what hands do differently, and nothing else", "[diff]") {
  auto pair = compare(house_in("tests/diff/two_seasons/spring"), house_in("tests/diff/two_seasons/autumn"));
  auto sheet = pair.staff();
  Names stations;
  for (const auto& station : sheet.stations) stations.push_back(station.name);
  CHECK(stations == Names{"back prep", "service", "well"});
  const auto& back = sheet.stations[0];
  REQUIRE(back.preps_to_start.size() == 1);
  CHECK(back.preps_to_start[0].name == "walnut syrup");
  CHECK(back.preps_to_stop == Names{"mint water"});
  REQUIRE(back.preps_to_change.size() == 1);
  CHECK(back.preps_to_change[0].name == "hearth cordial");
  CHECK(sheet.stations[1].stop == Names{"Drover's Rest"});
  CHECK(sheet.stations[1].glasses_to_put_away == Names{"mug"});
  const auto& well = sheet.stations[2];
  REQUIRE(well.learn.size() == 1);
  CHECK(well.learn[0].name == "Last Ember");
  CHECK(well.glasses_to_pull == Names{"highball"});
  CHECK(well.glasses_to_put_away == Names{"tumbler"});
  Names reworked;
  for (const auto& rework : well.change) reworked.push_back(rework.name);
  // Oat and Ember tastes otherwise and sells for more; hands do the same.
  CHECK(reworked == Names{"Candle End", "Mould and Dip", "Roasting Fork", "Snuffer's Boy"});
  auto text = diff::to_text(diff::staff_page(sheet), false);
  for (auto* figure : {"% abv", "GBP", "g/100 ml"}) CHECK_FALSE(has(text, figure));
}

TEST_CASE("hands that were measured reach what they melt, and nothing else") {
  const std::string drinks =
      "drink Shaken\n  glass coupe\n  50 ml vodka\n  25 ml lemon juice\n  shake 12 s\n  strain\n"
      "drink Stirred\n  glass coupe\n  50 ml vodka\n  25 ml dry vermouth\n  stir 30 s\n  strain\n";
  auto pair = compare("house H\n" + drinks, "house H\n  hands shake melt 1.2 ± 0.05\n" + drinks);
  auto json = pair.json();
  REQUIRE(json["drinks"].size() == 1);
  CHECK(json["drinks"][0]["name"] == "Shaken");
  CHECK(json["drinks"][0]["because"].dump().find("hands shake") != std::string::npos);
  // What was measured is no change of a drink.
  auto measured = compare("house H\n" + drinks,
                          "house H\n" + drinks + "  measured 2026-09-01, 75 g before, 110 g after\n");
  CHECK(measured.json()["drinks"].empty());
}

namespace {

const std::string bar_with_bottles = R"(house Bar
prep hs
  500 g honey
  250 g water
  dissolve
  keeps 14 d chilled
prep cord
  300 ml hs
  300 ml lemon juice
  stir
  keeps 4 d chilled
drink A
  glass coupe
  guest "Vodka and honey."
  50 ml vodka
  20 ml hs
  25 ml lemon juice
  shake 12 s
  double strain
  garnish none
drink B
  glass highball
  ice cubed
  build
  40 ml vodka
  30 ml cord
  top 100 ml soda water
  garnish lemon wedge
drink L
  glass cocktail glass, frozen
  60 ml London dry gin
  10 ml dry vermouth
  10 ml hs
  batched London dry gin, dry vermouth, hs, with water, bottle 700 ml
  stir 30 s
  strain
  garnish lemon peel
)";

/// What is poured away at all stations together.
std::vector<std::string> poured_away(const Pair& pair) {
  std::vector<std::string> all;
  for (const auto& station : pair.staff().stations)
    all.insert(all.end(), station.pour_away.begin(), station.pour_away.end());
  std::sort(all.begin(), all.end());
  return all;
}

std::vector<std::string> poured_away(const std::string& what, const std::string& by) {
  return poured_away(compare(bar_with_bottles, with(bar_with_bottles, what, by)));
}

}  // namespace

TEST_CASE("what is the same mixture is not poured away", "[staff]") {
  for (const char* line : {"  bottle 500 ml\n", "  par 1 l\n", "  takes 10 min\n", "  station kitchen\n"}) {
    INFO(line);
    CHECK(poured_away("  keeps 14 d chilled\n", "  keeps 14 d chilled\n" + std::string(line)).empty());
  }
  CHECK(poured_away("keeps 14 d", "keeps 10 d").empty());
  CHECK(poured_away("500 g honey\n  250 g water", "1 kg honey\n  500 g water").empty());
  std::string renamed = bar_with_bottles;
  for (auto at = renamed.find("hs"); at != std::string::npos; at = renamed.find("hs", at + 1))
    renamed.replace(at, 2, "honey mix");
  auto pair = compare(bar_with_bottles, renamed);
  CHECK(poured_away(pair).empty());
  CHECK(pair.staff().taste.empty());
}

TEST_CASE("another mixture is poured away with all that was made of it, bottles too", "[staff]") {
  const std::vector<std::string> all = {"cord (made with the old hs)",
                                        "house bottles of L (made with the old hs)", "hs"};
  CHECK(poured_away("250 g water", "400 g water") == all);
  CHECK(poured_away("  dissolve\n", "  simmer 10 min\n") == all);
}

TEST_CASE("house bottles of another mixture, or of a drink that is made no more, are poured away",
          "[staff]") {
  const std::vector<std::string> bottles = {"house bottles of L"};
  CHECK(poured_away("10 ml dry vermouth", "20 ml dry vermouth") == bottles);
  CHECK(poured_away(", with water", "") == bottles);
  CHECK(poured_away("  batched London dry gin, dry vermouth, hs, with water, bottle 700 ml\n", "") ==
        bottles);
  CHECK(poured_away("drink L\n", "drink L\n  status retired\n") == bottles);
  CHECK(poured_away("garnish lemon peel", "garnish lemon twist").empty());
}

TEST_CASE("what is said to the guest is on the staff sheet when it changes", "[staff]") {
  auto pair = compare(bar_with_bottles, with(bar_with_bottles, "Vodka and honey.", "Rye and maple."));
  auto sheet = pair.staff();
  REQUIRE(sheet.stations.size() == 1);
  REQUIRE(sheet.stations[0].change.size() == 1);
  CHECK(sheet.stations[0].change[0].method == std::vector<std::string>{"To the guest: Rye and maple."});
}

TEST_CASE("a drink that a mark of a merge cuts in two is not compared", "[diff]") {
  auto pair = compare(house, with(house, "  20 ml hearth cordial\n",
                                  "<<<<<<< ours\n  20 ml hearth cordial\n=======\n  25 ml hearth cordial\n"
                                  ">>>>>>> theirs\n"));
  REQUIRE(pair.changes.not_compared.size() == 1);
  CHECK(pair.changes.not_compared[0].name == "Long Wick");
}

TEST_CASE("a price is no reason for another recipe", "[diff]") {
  auto dearer = with(house, "for 21.00 EUR", "for 23.00 EUR");
  auto pair = compare(house, with(dearer, "20 ml hearth cordial", "25 ml hearth cordial"));
  CHECK(pair.text().find("Its cost also by the price of barley spirit") != std::string::npos);
  CHECK(pair.text().find("Because of barley spirit.") == std::string::npos);
}

TEST_CASE("a prep that stands for longer moves no figure, and its drinks are tasted", "[diff][staff]") {
  std::string bar =
      "house X\n  currency EUR\nprep herb vodka\n  700 ml vodka\n  10 g rosemary\n  infuse 12 h at 4 C\n"
      "  fine strain\n  keeps 10 d chilled\n";
  for (const char* name : {"Ash", "Birch", "Cedar", "Damson"})
    bar +=
        std::string("drink ") + name +
        "\n  glass coupe\n  50 ml herb vodka\n  20 ml lemon juice\n  shake 12 s\n  strain\n  garnish none\n";
  auto pair = compare(bar, with(bar, "infuse 12 h", "infuse 24 h"));
  CHECK(pair.text().find("Only costs and prices move") == std::string::npos);
  CHECK(pair.text().find("Tastes otherwise, made as before: Ash (because of herb vodka)") !=
        std::string::npos);
  CHECK(pair.staff().taste.size() == 4);
}

TEST_CASE("a price that moves on one of two menus is told at a glance", "[diff]") {
  std::string bar =
      "house X\n  currency EUR\ndrink Fizz\n  glass coupe\n  50 ml vodka\n  20 ml lemon juice\n  shake 12 s\n"
      "  strain\n  garnish none\nmenu Lobby\n  Fizz at 12 EUR\nmenu Pool\n  Fizz at 6 EUR\n";
  auto lobby = compare(bar, with(bar, "12 EUR", "13 EUR")).text();
  CHECK(lobby.find("Prices: Fizz on Lobby 12.00 EUR → 13.00 EUR") != std::string::npos);
  // The price that the figures show stands there once.
  auto pool = compare(bar, with(bar, "6 EUR", "7 EUR")).text();
  CHECK(pool.find("7.00 EUR") != std::string::npos);
  CHECK(pool.find("Prices: Fizz on") == std::string::npos);
}

TEST_CASE("a title tells of two menus only where the later one is new", "[diff]") {
  const std::string noon =
                        "menu Noon\n  runs 2026-03-01 .. 2026-05-31\n  section A\n    Long Wick at 9 EUR\n",
                    late =
                        "menu Late\n  runs 2026-03-02 .. 2026-06-30\n  section A\n    Bare Wick at 8 EUR\n",
                    next =
                        "menu Summer\n  runs 2026-07-01 .. 2026-08-31\n  section A\n    Bare Wick at 8 EUR\n";
  auto title = [&](const std::string& before, const std::string& after) {
    return diff::sides_in_words(compare(house + before, house + after).changes);
  };
  CHECK(title(noon, next).find("Noon → Summer") != std::string::npos);
  CHECK(title("", next).find("no menu → Summer") != std::string::npos);
  // One of two goes: the other stood there before.
  CHECK(title(noon + late, noon).find("Late") == std::string::npos);
}

TEST_CASE("a drink that goes on another menu is told at a glance and to the staff", "[diff]") {
  const std::string bar = "menu Bar\n  runs 2026-03-01 .. 2026-05-31\n  section A\n    Bare Wick at 8 EUR\n",
                    wick = "    Long Wick at 9 EUR\n",
                    stall =
                        "menu Stall\n  runs 2026-03-01 .. 2026-05-31\n  section A\n    Bare Wick at 7 EUR\n";
  auto moved = compare(house + bar + wick + stall, house + bar + stall + wick);
  CHECK(moved.text().find("On other menus: Long Wick off Bar; Long Wick on Stall at 9.00 EUR.") !=
        std::string::npos);
  auto sheet = moved.staff();
  CHECK(sheet.other_menus == std::vector<std::string>{"Long Wick off Bar", "Long Wick on Stall at 9.00 EUR"});
  CHECK(diff::to_text(diff::staff_page(sheet), false).find("On other menus, made as before") !=
        std::string::npos);
  // A second menu beside the first.
  CHECK(compare(house + bar, house + bar + stall).staff().other_menus ==
        std::vector<std::string>{"Bare Wick on Stall at 7.00 EUR"});
  // A season after another brings its drinks along without a word.
  CHECK(compare(house + bar, house + stall).staff().other_menus.empty());
}

TEST_CASE("a price by the bowl and one by the cup keep what they are of at a glance", "[diff]") {
  const std::string bowl = house + "drink Bowl\n  serves 10\n  glass bowl\n  750 ml barley spirit\n  build\n",
                    menu = "menu Bar\n  runs 2026-03-01 .. 2026-05-31\n  section A\n    Bare Wick at 8 EUR\n";
  auto changed = compare(bowl + menu + "    Bowl at 95 EUR a bowl\n", bowl + menu + "    Bowl at 10 EUR\n");
  INFO(changed.text());
  CHECK(changed.text().find("95.00 EUR a bowl → 10.00 EUR") < changed.text().find("Menus"));
}

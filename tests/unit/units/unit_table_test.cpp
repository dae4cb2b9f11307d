#include "units/unit_table.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <map>
#include <sstream>

#include "support/fixture.h"

using gill::base::Exact;
using gill::testing::compile;
using gill::testing::expect_findings;
using gill::units::Kind;
using gill::units::UnitTable;

namespace {

const UnitTable& standard() {
  static const auto compiled = compile("");
  return compiled.units;
}

const gill::units::Unit& unit(std::string_view spelling) {
  INFO(spelling);
  auto id = standard().find(spelling);
  REQUIRE(id.valid());
  return standard()[id];
}

struct HandbookRow {
  std::string unit, value, base, source;
};

std::vector<HandbookRow> handbook() {
  std::vector<HandbookRow> rows;
  std::istringstream text(gill::testing::read_file(GILL_SOURCE_DIR "/tests/unit/units/handbook.csv"));
  std::string line;
  std::getline(text, line);
  while (std::getline(text, line)) {
    HandbookRow row;
    std::istringstream fields(line);
    std::getline(fields, row.unit, ',');
    std::getline(fields, row.value, ',');
    std::getline(fields, row.base, ',');
    std::getline(fields, row.source);
    rows.push_back(row);
  }
  return rows;
}

Kind kind_of_base(const std::string& base) {
  static const std::map<std::string, Kind> kinds = {
      {"ml", Kind::volume},         {"g", Kind::mass},          {"s", Kind::time},
      {"mm", Kind::length},         {"ml/ml", Kind::strength},  {"g/ml", Kind::mass_concentration},
      {"g/g", Kind::mass_fraction}, {"density", Kind::density}, {"kJ", Kind::energy},
      {"bar", Kind::pressure},      {"vol", Kind::gas},         {"share", Kind::share}};
  return kinds.at(base);
}

/// What the `units` program of the distribution (GNU Units) says that one of these is in the other.
double by_units_program(const std::string& from, const std::string& to) {
  std::string command = "LC_ALL=C units --terse --output-format %.15g '" + from + "' '" + to + "' 2>&1";
  INFO(command);
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  char output[200] = {};
  std::size_t length = fread(output, 1, sizeof output - 1, pipe);
  REQUIRE(pclose(pipe) == 0);
  REQUIRE(length > 0);
  return std::stod(output);
}

}  // namespace

TEST_CASE("every unit is exactly what the handbooks say", "[units]") {
  auto rows = handbook();
  CHECK(rows.size() > 60);
  for (const auto& row : rows) {
    INFO(row.unit << " by " << row.source);
    auto value = gill::base::parse_exact(row.value);
    REQUIRE(value);
    CHECK(unit(row.unit).factor == *value);
    CHECK(unit(row.unit).kind == kind_of_base(row.base));
    CHECK(unit(row.unit).offset == 0);
  }
}

TEST_CASE("every unit of volume, mass, time and length stands in the handbook's table", "[units]") {
  std::map<std::string, bool> listed;
  for (const auto& row : handbook()) listed[standard()[standard().find(row.unit)].symbol] = true;
  for (std::size_t i = 0; i < standard().size(); ++i) {
    const auto& unit = standard()[gill::units::UnitId::at(i)];
    if (unit.kind != Kind::volume && unit.kind != Kind::mass && unit.kind != Kind::time &&
        unit.kind != Kind::length)
      continue;
    INFO(unit.symbol);
    CHECK(listed[unit.symbol]);
  }
}

TEST_CASE("every unit says where its size comes from", "[units]") {
  for (std::size_t i = 0; i < standard().size(); ++i) {
    const auto& unit = standard()[gill::units::UnitId::at(i)];
    INFO(unit.symbol);
    CHECK_FALSE(unit.source.empty());
  }
}

TEST_CASE("the units program of the distribution agrees", "[units]") {
  // Ours, and the same in the language of GNU Units.
  struct Row {
    const char* ours;
    const char* theirs;
    const char* base;
  };
  for (const Row& row : {Row{"us gallon", "usgallon", "ml"},
                         Row{"us quart", "usquart", "ml"},
                         Row{"us pint", "uspint", "ml"},
                         Row{"us cup", "uscup", "ml"},
                         Row{"us gill", "usgill", "ml"},
                         Row{"us oz", "usfloz", "ml"},
                         Row{"us tbsp", "ustablespoon", "ml"},
                         Row{"us tsp", "usteaspoon", "ml"},
                         Row{"us fl dram", "fluiddram", "ml"},
                         Row{"us minim", "minim", "ml"},
                         Row{"us fifth", "usgallon/5", "ml"},
                         Row{"us jigger", "jigger", "ml"},
                         Row{"pony", "pony", "ml"},
                         Row{"imp gallon", "brgallon", "ml"},
                         Row{"imp quart", "brquart", "ml"},
                         Row{"imp pint", "brpint", "ml"},
                         Row{"imp cup", "brcup", "ml"},
                         Row{"imp gill", "brgill", "ml"},
                         Row{"imp oz", "brfloz", "ml"},
                         Row{"imp minim", "brminim", "ml"},
                         Row{"metric cup", "metriccup", "ml"},
                         Row{"tbsp", "brtablespoon", "ml"},
                         Row{"au tbsp", "australiatablespoon", "ml"},
                         Row{"l", "litre", "ml"},
                         Row{"cl", "centilitre", "ml"},
                         Row{"dl", "decilitre", "ml"},
                         Row{"drop", "drop", "ml"},
                         Row{"lb", "pound", "g"},
                         Row{"oz wt", "ounce", "g"},
                         Row{"grain", "grain", "g"},
                         Row{"kg", "kilogram", "g"},
                         Row{"mg", "milligram", "g"},
                         Row{"min", "minute", "s"},
                         Row{"h", "hour", "s"},
                         Row{"d", "day", "s"},
                         Row{"wk", "week", "s"},
                         Row{"inch", "inch", "mm"},
                         Row{"psi", "psi", "bar"},
                         Row{"kcal", "1000 calorie_th", "kJ"},
                         Row{"g/l", "g/litre", "g/ml"},
                         Row{"kg/m3", "kg/m^3", "g/ml"},
                         Row{"g/100ml", "g/(100 ml)", "g/ml"}}) {
    INFO(row.ours << " is " << row.theirs);
    double theirs = by_units_program(row.theirs, row.base);
    // Within the digits that the program was asked to print.
    CHECK(gill::base::to_double(unit(row.ours).factor) == Approx(theirs).epsilon(1e-14).margin(0));
  }
}

TEST_CASE("temperatures are points on their scales", "[units]") {
  auto celsius = [](const char* symbol, int number) {
    return unit(symbol).factor * number + unit(symbol).offset;
  };
  CHECK(celsius("C", -18) == -18);
  CHECK(celsius("F", 32) == 0);
  CHECK(celsius("F", 212) == 100);
  CHECK(celsius("F", -40) == -40);
  CHECK(celsius("K", 0) == Exact(-27315, 100));
  // Whole degrees, so that every value is exact; checked against the units program.
  for (int degrees : {-40, 0, 14, 68, 100, 451}) {
    INFO(degrees << " F");
    CHECK(gill::base::to_double(celsius("F", degrees)) ==
          Approx(by_units_program("tempF(" + std::to_string(degrees) + ")", "tempC")).epsilon(1e-14));
  }
  CHECK(gill::base::to_double(celsius("K", 300)) ==
        Approx(by_units_program("tempK(300)", "tempC")).epsilon(1e-12));
}

TEST_CASE("proof is half of US proof, and four sevenths of the old UK degree", "[units]") {
  CHECK(unit("proof us").factor * 80 == Exact(40, 100));
  CHECK(unit("proof us").factor * 100 == Exact(1, 2));
  // 100 degrees proof was 4/7 by volume, 57.14 %: common practice for converting the old scale.
  CHECK(unit("proof uk").factor * 100 == Exact(4, 7));
  CHECK(unit("proof uk").factor * 70 == Exact(40, 100));
}

TEST_CASE("units are found in every spelling of the page, in any case, with or without a trailing point",
          "[units]") {
  struct Row {
    const char* symbol;
    std::vector<const char*> spellings;
  };
  for (const Row& row : std::vector<Row>{
           {"ml", {"ml", "ML", "ml.", "millilitre", "millilitres", "milliliter", "Milliliters"}},
           {"cl", {"cl", "centilitres", "centiliter"}},
           {"dl", {"dl", "decilitre"}},
           {"l", {"l", "L", "litre", "litres", "liter", "liters"}},
           {"oz", {"oz", "OZ", "oz.", "ounce", "ounces", "fl oz", "Fl Oz", "fluid ounce", "fluid ounces"}},
           {"us oz", {"us oz", "US oz", "us fl oz", "us fluid ounces", "us ounce"}},
           {"imp oz", {"imp oz", "Imp oz", "imp fl oz", "imperial fluid ounces", "imperial ounce"}},
           {"tsp", {"tsp", "tsp.", "teaspoon", "teaspoons"}},
           {"tbsp", {"tbsp", "tablespoon", "tablespoons"}},
           {"barspoon", {"barspoon", "barspoons", "bar spoon", "bar spoons", "bsp"}},
           {"dash", {"dash", "dashes", "Dash"}},
           {"drop", {"drop", "drops"}},
           {"splash", {"splash", "splashes"}},
           {"part", {"part", "parts"}},
           {"mg", {"mg", "milligram", "milligrams"}},
           {"g", {"g", "gram", "grams", "gramme", "grammes"}},
           {"kg", {"kg", "kilogram", "kilograms", "kilos"}},
           {"oz wt", {"oz wt", "OZ WT", "oz wt.", "ounce weight"}},
           {"lb", {"lb", "lbs", "lb.", "pound", "pounds"}},
           {"leaf", {"leaf", "leaves"}},
           {"sprig", {"sprig", "sprigs"}},
           {"slice", {"slice", "slices"}},
           {"wedge", {"wedge", "wedges"}},
           {"wheel", {"wheel", "wheels"}},
           {"twist", {"twist", "twists"}},
           {"peel", {"peel", "peels"}},
           {"strip", {"strip", "strips"}},
           {"half", {"half", "halves"}},
           {"cube", {"cube", "cubes"}},
           {"pod", {"pod", "pods"}},
           {"stick", {"stick", "sticks"}},
           {"stalk", {"stalk", "stalks"}},
           {"clove", {"clove", "cloves"}},
           {"bean", {"bean", "beans"}},
           {"berry", {"berry", "berries"}},
           {"piece", {"piece", "pieces"}},
           {"sheet", {"sheet", "sheets"}},
           {"bunch", {"bunch", "bunches"}},
           {"handful", {"handful", "handfuls"}},
           {"pinch", {"pinch", "pinches"}},
           {"s", {"s", "sec", "secs", "second", "seconds"}},
           {"min", {"min", "mins", "min.", "minute", "minutes"}},
           {"h", {"h", "hr", "hrs", "hour", "hours"}},
           {"d", {"d", "day", "days"}},
           {"wk", {"wk", "wks", "week", "weeks"}},
           {"mo", {"mo", "month", "months"}},
           {"y", {"y", "yr", "yrs", "year", "years"}},
           {"C", {"C", "c", "°C", "celsius"}},
           {"F", {"F", "°F", "fahrenheit"}},
           {"K", {"K", "kelvin"}},
           {"% abv", {"% abv", "% ABV"}},
           {"proof us", {"proof us", "Proof US"}},
           {"proof uk", {"proof uk", "proof UK"}},
           {"% w/v", {"% w/v", "% W/V"}},
           {"% w/w", {"% w/w"}},
           {"brix", {"brix", "Brix", "°Brix"}},
           {"g/l", {"g/l", "g/L"}},
           {"g/ml", {"g/ml", "g/mL"}},
           {"kg/l", {"kg/l"}},
           {"kg/m3", {"kg/m3"}},
           {"vol", {"vol", "volumes"}},
           {"bar", {"bar", "bars"}},
           {"psi", {"psi"}},
           {"kcal", {"kcal"}},
           {"kJ", {"kJ", "kj"}},
           {"%", {"%"}}}) {
    for (const char* spelling : row.spellings) {
      INFO(spelling);
      CHECK(unit(spelling).symbol == row.symbol);
    }
  }
  // The concentration has two names of one meaning.
  CHECK(unit("g/100ml").kind == Kind::mass_concentration);
}

TEST_CASE("item words count pieces", "[units]") {
  for (const char* word : {"leaf", "sprig", "twist", "cube", "pinch", "half"}) {
    CHECK(unit(word).kind == Kind::count);
    CHECK(unit(word).is_item_word);
  }
  CHECK_FALSE(unit("ml").is_item_word);
}

TEST_CASE("a dash is far looser than a millilitre", "[units]") {
  CHECK_FALSE(unit("ml").tolerance);
  CHECK_FALSE(unit("us oz").tolerance);
  REQUIRE(unit("dash").tolerance);
  CHECK(*unit("dash").tolerance == Approx(0.35));
  CHECK(unit("drop").tolerance);
  CHECK(unit("barspoon").tolerance);
}

TEST_CASE("what has two meanings is none of them until the house says which", "[units]") {
  for (const char* word : {"cup", "cups", "pint", "quart", "gallon", "proof"}) {
    INFO(word);
    CHECK_FALSE(standard().find(word).valid());
    CHECK_THAT(standard().explain_unknown(word).message,
               Catch::Contains("two things") || Catch::Contains("several things"));
  }
  CHECK(standard().explain_unknown("pints").help ==
        "Write `us pint` (473.2 ml) or `imp pint` (568.3 ml), or say which in the house: `pint us`.");
  CHECK_THAT(standard().explain_unknown("proof").help,
             Catch::Contains("`proof us`") && Catch::Contains("`proof uk`"));
  CHECK(standard().explain_unknown("mll").help == "Did you mean `ml`?");
}

TEST_CASE("a pour that every house sizes for itself is offered in the sizes that bars mean by it") {
  // Common practice, no source.
  struct Pour {
    const char* word;
    std::vector<double> ml;
  };
  for (const auto& [word, ml] :
       {Pour{"shot", {30, 45, 25}}, Pour{"single", {25, 30, 35}}, Pour{"double", {50, 60, 70}},
        Pour{"jigger", {45, 60, 30}}, Pour{"measure", {25, 35}}, Pour{"bottle", {700, 750}},
        Pour{"can", {250, 330}}, Pour{"pony", {20, 30}}, Pour{"carafe", {250, 500}},
        Pour{"jug", {500, 1000}}}) {
    INFO(word);
    auto explained = standard().explain_unknown(word);
    CHECK(std::vector<double>(explained.millilitres.begin(), explained.millilitres.end()) == ml);
    CHECK(standard().explain_unknown(std::string(word) + "s").millilitres == explained.millilitres);
  }
  CHECK(standard().explain_unknown("bottle").help ==
        "Write how much it is (`700 ml` or `750 ml`), or say it once for the house: `unit bottle = 700 ml`.");
}

TEST_CASE("only the house says what a measure is that has several sizes", "[units]") {
  auto compiled = compile(
      "house H\n  room 20 C\nglass beaker\n  ounce us oz\n  pint us\ndrink D\n  ounce us oz\n  cup us\n");
  for (auto [name, ml] : {std::pair("oz", 30), std::pair("ounces", 30)}) {
    auto id = compiled.units.find(name);
    REQUIRE(id.valid());
    CHECK(compiled.units[id].factor == ml);
  }
  const auto plain = compile("house H\n  room 20 C\n");
  for (const char* name : {"pint", "cup"})
    CHECK(compiled.units.find(name).valid() == plain.units.find(name).valid());
}

TEST_CASE("the house says what an ounce is", "[units]") {
  auto factor = [](const std::string& line, const char* spelling) {
    auto compiled = compile("house H\n  " + line + "\n");
    INFO(line);
    CHECK(gill::testing::findings(compiled).empty());
    auto id = compiled.units.find(spelling);
    REQUIRE(id.valid());
    return compiled.units[id].factor;
  };
  CHECK(factor("room 20 C", "oz") == 30);
  CHECK(factor("ounce 30 ml", "oz") == 30);
  CHECK(factor("ounce 29.5 ml", "ounces") == Exact(59, 2));
  CHECK(factor("ounce us oz", "oz") == *gill::base::parse_exact("29.5735295625"));
  CHECK(factor("ounce imp oz", "fl oz") == *gill::base::parse_exact("28.4130625"));
  CHECK(factor("ounce us", "oz") == *gill::base::parse_exact("29.5735295625"));
  CHECK(factor("pint imp", "pint") == *gill::base::parse_exact("568.26125"));
  CHECK(factor("pint us", "pints") == *gill::base::parse_exact("473.176473"));
  CHECK(factor("cup us", "cups") == *gill::base::parse_exact("236.5882365"));
  CHECK(factor("cup metric", "cup") == 250);
  CHECK(factor("quart us", "quart") == *gill::base::parse_exact("946.352946"));
  CHECK(factor("gallon imp", "gallon") == *gill::base::parse_exact("4546.09"));
  CHECK(factor("pint 570 ml", "pint") == 570);
}

TEST_CASE("a meaning that is none is an error at its words", "[units]") {
  expect_findings(
      "house H\n"
      "  # error: 9-4 [wrong-kind] volume\n"
      "  ounce 30 g\n"
      "  # error: 8-5 [unknown-unit] `pint us`\n"
      "  pint scots\n"
      "  # error: 14-5 [bad-line]\n"
      "  cup 250 ml level\n");
}

TEST_CASE("a house declares its own units, one by another and in any order", "[units]") {
  auto compiled = compile(
      "unit ladle = 2 scoops\nunit scoop = 60 ml ± 5 %\n  aka big spoon\nunit dash = 0.8 ml ± 40 %\n");
  CHECK(gill::testing::findings(compiled).empty());
  const auto& units = compiled.units;
  CHECK(units[units.find("ladles")].factor == 120);
  CHECK(units[units.find("big spoons")].factor == 60);
  CHECK(units[units.find("scoop")].tolerance == Approx(0.05));
  CHECK(units[units.find("dashes")].factor == Exact(8, 10));
  CHECK(units[units.find("dashes")].tolerance == Approx(0.4));
}

TEST_CASE("a house's unit is defined by the house's ounce", "[units]") {
  auto compiled = compile("unit jig = 1 1/2 oz\nhouse H\n  ounce us oz\n");
  CHECK(compiled.units[compiled.units.find("jig")].factor == *gill::base::parse_exact("44.36029434375"));
}

TEST_CASE("a unit that cannot be defined is an error at its words", "[units]") {
  expect_findings(
      "# error: 1-9 [bad-line] unit blob = QUANTITY\n"
      "unit blob\n"
      "# error: 1-12 [bad-line]\n"
      "unit blob2 =\n"
      "# error: 16-3 [unknown-unit] `ml`\n"
      "unit blob3 = 3 mll\n"
      "# error: 16-4 [unknown-unit] several things\n"
      "unit blob4 = 3 cups\n"
      "# error: 14-4 [wrong-kind]\n"
      "unit blob5 = 0 ml\n"
      "# error: 14-4 [wrong-kind]\n"
      "unit blob6 = 20 C\n"
      "# error: 14-7 [wrong-kind]\n"
      "unit blob7 = 1..2 ml\n"
      "# error: 19-5 [bad-line]\n"
      "unit blob8 = 3 ml extra\n"
      "unit dish = 3 ml\n"
      "# error: 6-4 [duplicate-name]\n"
      "unit dish = 4 ml\n");
}

TEST_CASE("units that are defined by each other are a circle", "[units]") {
  auto found = gill::testing::findings("unit blob = 2 blab\nunit blab = 2 blob\n");
  CHECK(found == std::vector<std::string>{"name-cycle 2:15-4"});
  CHECK(gill::testing::findings("unit blob = 2 blobs\n") == std::vector<std::string>{"name-cycle 1:15-5"});
  CHECK(gill::testing::findings("unit blob = 2 blab\nunit blab = 2 blib\n") ==
        std::vector<std::string>{"unknown-unit 2:15-4"});
}

TEST_CASE("a house's unit may be defined by the library's of the same name", "[units]") {
  auto compiled = compile("unit dash = 2 dashes\n");
  CHECK(gill::testing::findings(compiled).empty());
  CHECK(compiled.units[compiled.units.find("dash")].factor == Exact(18, 10));
}

TEST_CASE("a unit that is built from too many others to stay exact is refused", "[units]") {
  std::string text = "unit u0 = 1.2345678901234567890123456789 ml\n";
  for (int i = 1; i < 8; ++i)
    text +=
        "unit u" + std::to_string(i) + " = 1.2345678901234567890123456789 u" + std::to_string(i - 1) + "\n";
  CHECK(gill::testing::findings(text) == std::vector<std::string>{"bad-number 5:11-33"});
}

TEST_CASE("a number is written with its unit as people write it", "[units]") {
  using gill::units::with_unit;
  CHECK(with_unit("1", unit("dash"), true) == "1 dash");
  CHECK(with_unit("2", unit("dash"), false) == "2 dashes");
  CHECK(with_unit("8", unit("leaf"), false) == "8 leaves");
  CHECK(with_unit("60", unit("ml"), false) == "60 ml");
  CHECK(with_unit("2", unit("us oz"), false) == "2 us oz");
  CHECK(with_unit("3", unit("%"), false) == "3 %");
  CHECK(with_unit("2", unit("barspoon"), false) == "2 barspoons");
  CHECK(with_unit("1 1/2", unit("oz"), false) == "1 1/2 oz");
}

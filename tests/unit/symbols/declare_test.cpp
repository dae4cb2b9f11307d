#include <catch2/catch.hpp>
#include <chrono>

#include "support/fixture.h"
#include "symbols/symbol_table.h"

using gill::symbols::DeclarationKind;
using gill::symbols::NameSpace;
using gill::testing::compile;
using gill::testing::compile_alone;
using gill::testing::compile_files;
using gill::testing::expect_findings;
using gill::testing::findings;
using Findings = std::vector<std::string>;

namespace {

/// The first declared name of a house read without the library.
std::string first_name(const std::string& header) {
  auto compiled = compile_alone(header);
  INFO(header);
  REQUIRE(compiled.names.size() == 1);
  CHECK(findings(compiled).empty());
  return compiled.names[gill::symbols::DeclarationId::at(0)].name;
}

}  // namespace

TEST_CASE("every keyword starts a declaration, whatever its case", "[names]") {
  auto compiled = compile_alone(
      "house H\nunit blob = 2 ml\ningredient I\nPREP P\nGlass G\nice C\nfamily F\ndrink D\nprices R\nmenu "
      "M\n");
  CHECK(findings(compiled).empty());
  REQUIRE(compiled.names.size() == 10);
  for (std::size_t i = 0; i < 10; ++i)
    CHECK(compiled.names[gill::symbols::DeclarationId::at(i)].kind == static_cast<DeclarationKind>(i));
}

TEST_CASE("a name runs to the end of its line", "[names]") {
  CHECK(first_name("drink Meet Me at Nine\n") == "Meet Me at Nine");
  CHECK(first_name("drink   9:30   Special # a comment\n") == "9:30 Special");
  CHECK(first_name("drink Siete’s & Co. (aged) 1/2\n") == "Siete’s & Co. (aged) 1/2");
  CHECK(first_name("drink 1888\n") == "1888");
  CHECK(first_name("drink 2026-01-01\n") == "2026-01-01");
  CHECK(first_name("drink 柚子 чай\n") == "柚子 чай");
  CHECK(first_name("drink Jack-in-a-box\n") == "Jack-in-a-box");
  CHECK(first_name("drink Like Water\n") == "Like Water");
  CHECK(first_name("drink 10-12\n") == "10-12");
}

TEST_CASE("quotes hold what a bare name cannot", "[names]") {
  CHECK(first_name("drink \"Yes, Chef!\"\n") == "Yes, Chef!");
  CHECK(first_name("drink \"Half = Half\"\n") == "Half = Half");
  CHECK(first_name("drink \"Odd like Even\"\n") == "Odd like Even");
  CHECK(first_name("drink \"#9\" # the comment\n") == "#9");
}

TEST_CASE("a bare name that holds something else says where, and to quote it", "[names]") {
  expect_findings(
      "# error: 12-1 [bad-line] \"Half = Half\"\n"
      "drink Half = Half\n"
      "# error: 10-1 [bad-line] \"Yes, Chef\"\n"
      "drink Yes, Chef\n"
      "# error: 11-1 [bad-line] \"Chef!\"\n"
      "drink Chef!\n"
      "# error: 7-11 [bad-line] straight quotes\n"
      "drink “Half Half”\n"
      "# error: 7-5 [bad-line] not closed\n"
      "drink \"Half\n"
      "# error: 7-2 [bad-line] empty\n"
      "drink \"\"\n");
}

TEST_CASE("a declaration needs a name, and `like` something to start from", "[names]") {
  expect_findings(
      "# error: 1-5 [bad-line] drink NAME\n"
      "drink\n"
      "# error: 9-4 [bad-line] like NAME\n"
      "drink X like\n"
      "# error: 6-1 [bad-line] colon\n"
      "drink: Y\n");
}

TEST_CASE("an unknown first word is met with the nearest keyword", "[names]") {
  expect_findings(
      "# error: 1-5 [unknown-word] `drink`\n"
      "drnik X\n"
      "# error: 1-10 [unknown-word] `ingredient`\n"
      "ingredeint X\n"
      "# error: 1-6 [unknown-word] indented\n"
      "shaken 12 s\n");
}

TEST_CASE("ingredients and preps share one set of names, every other kind has its own", "[names]") {
  expect_findings(
      "ingredient velvet\n"
      "  kind spirit\n"
      "# error: 6-6 [duplicate-name] another name\n"
      "prep velvet\n"
      "  makes 100 ml\n"
      "glass velvet\n"
      "ice velvet\n"
      "family velvet\n"
      "drink velvet\n"
      "menu velvet\n"
      "prices velvet\n");
}

TEST_CASE("the second of one name is the duplicate, and it points to the first", "[names]") {
  auto compiled = compile("drink Velvet\ndrink VELVET\n");
  REQUIRE(compiled.sink.all().size() == 1);
  const auto& finding = compiled.sink.all().front();
  CHECK(findings(compiled) == Findings{"duplicate-name 2:7-6"});
  REQUIRE(finding.related.size() == 1);
  CHECK(compiled.sources[finding.related[0].span.file_id].place_of(finding.related[0].span).line == 1);
}

TEST_CASE("a duplicate may stand in another file, and order of files decides nothing else", "[names]") {
  auto compiled = compile_files({{"a.gill", "drink Velvet\n"}, {"b.gill", "drink Velvet\n"}});
  CHECK(findings(compiled) == Findings{"duplicate-name 1:7-6"});
}

TEST_CASE("an alias shares the set of names", "[names]") {
  expect_findings(
      "ingredient red wine\n"
      "  kind wine\n"
      "  aka  the red, house red\n"
      "ingredient other red\n"
      "  kind wine\n"
      "# error: 14-9 [duplicate-name]\n"
      "  aka  ruby, house red\n"
      "# error: 12-7 [duplicate-name]\n"
      "ingredient The Red\n"
      "  kind wine\n");
}

TEST_CASE("a house's name beats the library's", "[names]") {
  auto compiled = compile("ingredient honey\n  kind syrup\ndrink X\n  15 ml HONEY\n");
  CHECK(findings(compiled).empty());
  CHECK_FALSE(compiled.names[compiled.names.find(NameSpace::stock, "honey")].from_library);
  CHECK_FALSE(compiled.specs[compiled.drink("X").recipe.amounts[0].use().stock].head.from_library);
}

TEST_CASE("a house's alias beats a name of the library", "[names]") {
  auto compiled = compile("ingredient our honey\n  kind sweetener\n  aka honey\ndrink X\n  15 ml honey\n");
  CHECK(findings(compiled).empty());
  CHECK(compiled.specs[compiled.drink("X").recipe.amounts[0].use().stock].head.name == "our honey");
}

TEST_CASE("`like` its own name starts from the library's", "[names]") {
  auto compiled = compile("ingredient honey like honey\n  keeps 2 y ambient\n");
  CHECK(findings(compiled).empty());
  CHECK(compiled.stock("honey").sugar.has_value());
  CHECK_FALSE(compiled.stock("honey").head.from_library);
}

TEST_CASE("`like` may look forward, and into other files", "[names]") {
  auto compiled =
      compile_files({{"a.gill", "drink B like A\n"}, {"b.gill", "drink A\n  60 ml bourbon whiskey\n"}});
  CHECK(findings(compiled).empty());
  CHECK(compiled.drink("B").recipe.amounts.size() == 1);
}

TEST_CASE("`like` of an unknown name offers the nearest", "[names]") {
  expect_findings(
      "drink Velvet\n"
      "# error: 19-6 [unknown-name] `Velvet`\n"
      "drink Velour like Velvte\n"
      "# error: 15-9 [unknown-name]\n"
      "drink X1 like Xylophone\n");
}

TEST_CASE("`like` of another kind says which kinds they are", "[names]") {
  expect_findings(
      "ingredient velvet\n"
      "  kind spirit\n"
      "# error: 18-6 [unknown-name] an ingredient\n"
      "prep velour like velvet\n"
      "  makes 100 ml\n");
}

TEST_CASE("a circle of `like` is reported once", "[names]") {
  auto compiled = compile_alone("drink A like B\ndrink B like C\ndrink C like A\ndrink D like A\ndrink E\n");
  CHECK(findings(compiled) == Findings{"name-cycle 1:14-1"});
  CHECK_THAT(compiled.sink.all()[0].message, Catch::Contains("`B`") && Catch::Contains("`C`"));
  CHECK(compiled.names.in_order().size() == 1);
}

TEST_CASE("what is like itself is a circle of one", "[names]") {
  CHECK(findings(compile_alone("drink A like A\n")) == Findings{"name-cycle 1:14-1"});
}

TEST_CASE("every declaration comes after the one that it is like", "[names]") {
  auto compiled = compile_alone("drink C like B\ndrink B like A\ndrink A\n");
  std::vector<std::string> order;
  for (auto id : compiled.names.in_order()) order.push_back(compiled.names[id].name);
  CHECK(order == std::vector<std::string>{"A", "B", "C"});
}

TEST_CASE("a house is declared once", "[names]") {
  expect_findings(
      "house One\n"
      "# error: 7-3 [duplicate-name] second time\n"
      "house Two\n");
}

TEST_CASE("a house may go without a name, and without a declaration", "[names]") {
  CHECK(findings("house\n  place GB\n").empty());
  CHECK(compile("house\n  place GB\n").specs.house.head.name == "a house");
  CHECK(compile("drink X\n").specs.house.head.name == "a house");
  CHECK(compile("house The Wheel\n").specs.house.head.name == "The Wheel");
}

TEST_CASE("misspelt names are met with the nearest known one, in any script", "[names]") {
  auto compiled =
      compile_alone("ingredient crème de thé\ningredient юдзу\ningredient rye whiskey\n  aka old rye\n");
  const auto& names = compiled.names;
  CHECK(names.nearest(NameSpace::stock, "creme de thé") == "crème de thé");
  CHECK(names.nearest(NameSpace::stock, "Rye Wiskey") == "rye whiskey");
  CHECK(names.nearest(NameSpace::stock, "юдзю") == "юдзу");
  CHECK(names.nearest(NameSpace::stock, "old rie") == "old rye");
  CHECK_FALSE(names.nearest(NameSpace::stock, "xylophone"));
  CHECK_FALSE(names.nearest(NameSpace::drink, "rye whiskey"));
}

TEST_CASE("the same words in another order are recognised", "[names]") {
  auto compiled = compile_alone("ingredient rye whiskey\n");
  CHECK(compiled.names.same_words(NameSpace::stock, "whiskey rye") == "rye whiskey");
  CHECK_FALSE(compiled.names.same_words(NameSpace::stock, "whiskey"));
}

TEST_CASE("the dump of names leaves the library out", "[names]") {
  auto compiled = compile("ingredient honey like honey\n  aka runny\ndrink X\n");
  CHECK(gill::symbols::dump(compiled.names, compiled.sources) ==
        "ingredient honey (house.gill:1) like honey of the library\n  aka runny\ndrink X (house.gill:3)\n");
}

TEST_CASE("the library's likes stand on the library, whatever a house calls by their names", "[symbols]") {
  // The library's ginger cordial is like its ginger syrup, an ingredient; this house makes a prep of that
  // name.
  auto compiled = compile("prep ginger syrup\n  100 ml water\n");
  CHECK(compiled.sink.all().empty());
}

TEST_CASE("the library's other names of a thing are the house's once it takes the name", "[symbols]") {
  auto compiled = compile("ingredient lime like lime\n  gives 20 ml lime juice\ndrink X\n  2 limes\n");
  const auto& use = compiled.drink("X").recipe.amounts[0].use();
  CHECK_FALSE(compiled.specs[use.stock].head.from_library);
}

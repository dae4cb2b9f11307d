// The standard library and the demo house, as far as the typed declarations.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "support/fixture.h"

using gill::symbols::NameSpace;
using gill::testing::compile;
using gill::testing::findings;

namespace {

const gill::testing::Compiled& library() {
  static const auto compiled = compile("");
  return compiled;
}

void has(NameSpace space, std::initializer_list<const char*> names) {
  for (const char* name : names) {
    INFO(name);
    CHECK(library().names.find(space, name).valid());
  }
}

}  // namespace

TEST_CASE("the standard library is read without a finding", "[library]") {
  for (const auto& finding : library().sink.all()) UNSCOPED_INFO(finding.message);
  CHECK(findings(library()).empty());
}

TEST_CASE("the library surely has the names that the page lists", "[library]") {
  has(NameSpace::stock, {"rye whiskey",
                         "bourbon whiskey",
                         "London dry gin",
                         "white rum",
                         "aged rum",
                         "overproof rum",
                         "vodka",
                         "tequila blanco",
                         "cognac",
                         "sweet vermouth",
                         "dry vermouth",
                         "orange liqueur",
                         "maraschino liqueur",
                         "bitter aperitivo",
                         "aromatic bitters",
                         "orange bitters",
                         "absinthe",
                         "sparkling wine",
                         "lemon juice",
                         "lime juice",
                         "orange juice",
                         "grapefruit juice",
                         "pineapple juice",
                         "simple syrup",
                         "rich syrup",
                         "honey",
                         "honey syrup",
                         "maple syrup",
                         "agave syrup",
                         "grenadine",
                         "orgeat",
                         "white sugar",
                         "sugar cube",
                         "citric acid",
                         "malic acid",
                         "egg white",
                         "whole egg",
                         "egg yolk",
                         "cream",
                         "milk",
                         "butter",
                         "coconut cream",
                         "toasted sesame oil",
                         "sesame seed",
                         "water",
                         "soda water",
                         "tonic water",
                         "ginger beer",
                         "espresso",
                         "salt",
                         "lemon",
                         "lime",
                         "orange",
                         "mint"});
  has(NameSpace::glass, {"coupe", "rocks", "double rocks", "highball", "collins", "flute", "mug",
                         "cocktail glass", "wine glass", "shot", "julep cup", "punch cup", "punch bowl"});
  has(NameSpace::ice, {"cubed", "large cube", "crushed", "spear"});
  has(NameSpace::family, {"sour", "egg sour", "daisy", "spirit-forward", "built on ice", "highball", "fizz",
                          "spritz", "sparkling", "flip", "cream", "punch", "julep", "tropical", "blended",
                          "hot", "long juice", "layered"});
}

TEST_CASE("the library holds some two hundred other ingredients", "[library]") {
  CHECK(library().specs.stock.size() >= 250);
}

TEST_CASE("names people use for two things are in no library", "[library]") {
  for (const char* name : {"sugar syrup", "cordial", "lemonade", "cider", "cream of coconut"}) {
    INFO(name);
    CHECK_FALSE(library().names.find(NameSpace::stock, name).valid());
  }
}

TEST_CASE("who writes such a name is pointed to names that the library has", "[library]") {
  for (const char* name : {"sugar syrup", "cordial", "lemonade", "cider", "cream of coconut", "sour mix",
                           "vermouth", "bitters", "egg"}) {
    auto compiled = compile(std::string("drink A\n  30 ml ") + name + "\n");
    REQUIRE(compiled.sink.all().size() == 1);
    const std::string& help = compiled.sink.all().front().help;
    INFO(help);
    for (std::size_t begin = help.find('`'); begin != std::string::npos; begin = help.find('`', begin + 1)) {
      std::size_t end = help.find('`', begin + 1);
      REQUIRE(end != std::string::npos);
      std::string written = help.substr(begin + 1, end - begin - 1);
      // The line that answers once for a house names what it means behind its `=`.
      if (auto equals = written.find(" = "); equals != std::string::npos)
        written = written.substr(equals + 3);
      INFO(written);
      CHECK(library().names.find(NameSpace::stock, written).valid());
      begin = end;
    }
  }
}

TEST_CASE("everything in the library has a source, and every ingredient a kind", "[library]") {
  for (const auto& stock : library().specs.stock) {
    INFO(stock.head.name);
    CHECK_FALSE(stock.head.source.empty());
    // The kind of a prep follows from what goes in.
    CHECK((stock.is_prep || stock.kind != gill::analysis::StockKind::unstated));
  }
}

TEST_CASE("every glass of the library has its volume, its line and its shape", "[library]") {
  for (const auto& glass : library().specs.glasses) {
    INFO(glass.head.name);
    CHECK(glass.holds);
    CHECK(glass.line);
    CHECK(glass.shape.size() >= 2);
  }
}

TEST_CASE("every ice of the library weighs something", "[library]") {
  for (const auto& ice : library().specs.ices) {
    INFO(ice.head.name);
    CHECK(ice.each);
    CHECK(ice.melt > 0);
  }
}

TEST_CASE("the demo house is read without an error", "[library]") {
  auto files = gill::testing::texts_in("specs");
  REQUIRE(files.size() > 10);
  auto compiled = gill::testing::compile_files(files);
  for (const auto& finding : compiled.sink.all()) UNSCOPED_INFO(finding.message);
  CHECK(findings(compiled).empty());
  CHECK(compiled.specs.drinks.size() >= 20);
  CHECK(compiled.specs.menus.size() >= 2);
}

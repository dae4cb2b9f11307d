#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "rendered_house.h"
#include "support/clearing_words.h"

using namespace gill;
using Catch::Contains;
using testing::RenderedHouse;

namespace {

constexpr std::string_view small_house =
    "house The Weir\n  currency EUR\n  pour cost ..20 %\n  tax 20 % included\n"
    "ingredient Reed gin like London dry gin\n  strength 43 % abv\n  allergen none\n  buy 700 ml for 21 EUR\n"
    "prep bay syrup\n  | Boil *once*.\n  500 g white sugar\n  500 g water\n  dissolve\n  keeps 2 wk chilled\n"
    "drink Withy Cutter\n  | Cold, then colder.\n  family sour\n  glass coupe, chilled\n  50 ml Reed gin\n  "
    "25 ml lemon juice\n"
    "  20 ml bay syrup\n  1 egg white\n  dry shake 15 s\n  shake 12 s with 4 cubes\n  double strain\n  "
    "garnish none\n"
    "  right when \"The head stands.\"\n"
    "drink \"Withy Cutter, Late\" like Withy Cutter\n  swap Reed gin -> aged rum\n"
    "drink Half Done\n  status draft\n  60 ml Reed gin\n"
    "drink Long Gone\n  status retired\n  60 ml Reed gin\n"
    "menu Spring\n  runs 2026-03-01 .. 2026-05-31\n  section Short\n    Withy Cutter at 12 EUR\n";

bool has(const std::vector<std::string>& paths, std::string_view path) {
  return std::find(paths.begin(), paths.end(), path) != paths.end();
}

/// How often a piece stands in a text.
std::size_t count(const std::string& text, std::string_view piece) {
  std::size_t n = 0;
  for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece, at + piece.size())) ++n;
  return n;
}

}  // namespace

TEST_CASE("a book has a page for everything and nothing twice", "[render]") {
  RenderedHouse house(small_house);
  auto paths = house.paths(render::Form::both);
  for (std::string path :
       {"index", "preps", "inspection", "balance", "allergens", "glossary", "drinks/withy-cutter",
        "preps/bay-syrup", "ingredients/reed-gin", "ingredients/lemon-juice", "ingredients/egg-white"}) {
    INFO(path);
    CHECK(has(paths, path + ".html"));
    CHECK(has(paths, path + ".md"));
  }
  for (const char* path : {"book.css", "book.js", "find.js"}) CHECK(has(paths, path));
  CHECK(has(paths, "drinks/withy-cutter.svg"));
  CHECK(std::set<std::string>(paths.begin(), paths.end()).size() == paths.size());
  CHECK(std::is_sorted(paths.begin(), paths.end()));
  CHECK_FALSE(has(house.paths(render::Form::html), "index.md"));
  CHECK_FALSE(has(house.paths(render::Form::markdown), "index.html"));
}

TEST_CASE("drafts come when asked for, retired drinks never", "[render]") {
  RenderedHouse house(small_house);
  CHECK_FALSE(has(house.paths(render::Form::html), "drinks/half-done.html"));
  CHECK(has(house.paths(render::Form::html, true), "drinks/half-done.html"));
  CHECK_FALSE(has(house.paths(render::Form::html, true), "drinks/long-gone.html"));
}

TEST_CASE("the same house gives the same bytes, whatever the order of its files", "[render]") {
  std::vector<testing::NamedText> files = {
      {"a.gill", "drink A\n  glass coupe\n  60 ml London dry gin\n  stir 30 s\n  strain\n"},
      {"b.gill", "drink B\n  glass rocks\n  60 ml aged rum\n  stir 30 s\n  strain\n"}};
  auto forwards = RenderedHouse(files).book();
  std::reverse(files.begin(), files.end());
  auto backwards = RenderedHouse(files).book();
  REQUIRE(forwards.size() == backwards.size());
  for (std::size_t i = 0; i < forwards.size(); ++i) {
    CHECK(forwards[i].path == backwards[i].path);
    CHECK(forwards[i].content == backwards[i].content);
  }
}

TEST_CASE("a drink's page tells the build in both units, the method and the end in mind", "[render]") {
  RenderedHouse house(small_house);
  std::string page = house.page("drinks/withy-cutter.md");
  CHECK_THAT(page, Contains("# Withy Cutter\n"));
  CHECK_THAT(page, Contains("| 50 ml | 1 2/3 oz | [Reed gin](../ingredients/reed-gin.md)"));
  CHECK_THAT(page, Contains("2. Shake 12 s with 4 cubes.\n"));
  CHECK_THAT(page, Contains("The head stands."));
  CHECK_THAT(page, Contains("Cold, then colder."));
  CHECK_THAT(page, Contains("**Garnish:** none, on purpose"));
  CHECK_THAT(page, Contains("Contains **egg**, from [egg white](../ingredients/egg-white.md)"));
  CHECK_THAT(page, Contains("Raw egg"));
  CHECK_THAT(page, Contains("Spring, Short: 12.00 EUR"));
  CHECK_THAT(page, Contains("Withy Cutter, Late"));
  CHECK_THAT(page, Contains("Worked out from the listed ingredients. Check each label and your local code."));
  CHECK_THAT(page, Contains("Shakers, strainers, jiggers and glasses are shared"));
}

TEST_CASE("every page of HTML has one heading of the first order, its language and its landmarks",
          "[render]") {
  for (const auto& file : RenderedHouse(small_house).book(render::Form::html)) {
    if (!file.path.ends_with(".html")) continue;
    INFO(file.path);
    CHECK_THAT(file.content, Catch::StartsWith("<!DOCTYPE html>\n<html lang=\"en\">"));
    CHECK(count(file.content, "<h1>") == 1);
    for (const char* piece :
         {"<main id=\"content\">", "<nav aria-label=", "<footer>", "class=\"skip\" href=\"#content\""})
      CHECK(count(file.content, piece) == 1);
    // The only http addresses are the names of SVG's and schema.org's vocabularies: nothing is asked for from
    // outside.
    CHECK(count(file.content, "http") == count(file.content, "xmlns=\"http://www.w3.org/2000/svg\"") +
                                             count(file.content, "\"https://schema.org\"") +
                                             count(file.content, "http-equiv"));
    CHECK(count(file.content, "book.js\" defer></script>") == 1);
    CHECK(count(file.content, "<script") == 1 + count(file.content, "<script type=\"application/ld+json\">"));
  }
}

TEST_CASE("every link of a book leads to a page and an anchor that are there", "[render]") {
  auto files = RenderedHouse(small_house).book(render::Form::html);
  auto content_of = [&](const std::string& path) -> const std::string* {
    for (const auto& file : files)
      if (file.path == path) return &file.content;
    return nullptr;
  };
  for (const auto& file : files) {
    std::string folder = file.path.substr(0, file.path.rfind('/') + 1);
    for (auto at = file.content.find("href=\""); at != std::string::npos;
         at = file.content.find("href=\"", at + 1)) {
      std::string url = file.content.substr(at + 6, file.content.find('"', at + 6) - at - 6);
      INFO(file.path << " -> " << url);
      auto hash = url.find('#');
      std::string path = url.substr(0, hash), anchor = hash == std::string::npos ? "" : url.substr(hash + 1);
      if (path.starts_with("../"))
        path = path.substr(3);
      else if (!path.empty())
        path = folder + path;
      const std::string* target = path.empty() ? &file.content : content_of(path);
      REQUIRE(target);
      if (!anchor.empty()) CHECK_THAT(*target, Contains("id=\"" + anchor + "\""));
    }
  }
}

TEST_CASE("hostile names and texts stay text on every page", "[render]") {
  RenderedHouse house(
      "house \"<b>Weir</b> [x](javascript:alert(1))\"\n  notice \"<i>ask</i>\"\n"
      "ingredient \"gin <script>alert(1)</script>\"\n  kind spirit\n  strength 40 % abv\n  caution <img "
      "src=x onerror=alert(1)>\n"
      "  source \"](javascript:alert(2))\"\n"
      "drink \"<script>alert(4)</script>\"\n  | [a](javascript:alert(5)) <script>alert(6)</script> "
      "![p](https://example.org/p.png)\n"
      "  glass coupe\n  60 ml \"gin <script>alert(1)</script>\"\n  stir 30 s, <u>fast</u>\n  strain\n"
      "  garnish \"<svg onload=alert(7)>\"\n  right when \"<marquee>\"\n  author <b>me</b>\n  tag a|b, *c*\n"
      "  do <script>alert(8)</script>\n");
  auto files = house.book();
  REQUIRE(files.size() > 10);
  for (const auto& file : files) {
    INFO(file.path);
    CHECK(std::all_of(file.path.begin(), file.path.end(), [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
             std::string_view("-./").find(c) != std::string_view::npos;
    }));
    CHECK(file.path.find("..") == std::string::npos);
    if (!file.path.ends_with(".html")) continue;
    bool is_drink = file.path.starts_with("drinks/");
    CHECK(count(file.content, "<script") == (is_drink ? 2U : 1U));
    CHECK(count(file.content, "</script") == (is_drink ? 2U : 1U));
    for (const char* markup :
         {"<script>", "<img", "<b>", "<i>", "<u>", "<marquee", "<svg onload", "href=\"javascript"})
      CHECK(count(file.content, markup) == 0);
  }
}

TEST_CASE("a drink in error has a page that says what is not sound", "[render]") {
  RenderedHouse house(
      "drink A\n  glass coupe\n  60 ml London dry gin\n  20 mll lemon juice\n  shake 12 s\n  strain\n  "
      "garnish none\n");
  std::string page = house.page("drinks/a.md");
  CHECK_THAT(page, Contains("This spec has an error"));
  CHECK_THAT(page, Contains("house.gill, line 4"));
  CHECK_THAT(page, Contains("60 ml"));
  CHECK_THAT(page, Contains("**Strength:** not worked out"));
  CHECK_THAT(page, Contains("**Not known:**"));
  CHECK_THAT(house.page("index.md"), Contains("has an error"));
}

TEST_CASE("allergens that are not known are said in words, never left blank", "[render]") {
  RenderedHouse house(
      "ingredient weir amaro\n  kind liqueur\n  strength 28 % abv\n  sugar 20 % w/v\n"
      "ingredient nut oil\n  kind fat\n  fat 100 % w/w\n  allergen nuts: hazelnut\n  allergen may sesame\n  "
      "allergen coconut\n"
      "prep nut rum\n  700 ml aged rum\n  80 g nut oil\n  rest 4 h\n  remove nut oil\n"
      "drink A\n  glass coupe\n  45 ml nut rum\n  15 ml weir amaro\n  stir 30 s\n  strain\n  garnish "
      "unheard-of thing\n");
  std::string page = house.page("drinks/a.md");
  CHECK_THAT(page, Contains("Contains **hazelnut (nut)**, from [nut oil](../ingredients/nut-oil.md) in [nut "
                            "rum](../preps/nut-rum.md)"));
  CHECK_THAT(page, Contains("May contain **sesame**"));
  CHECK_THAT(page, Contains("Also contains, outside the EU list, **coconut**"));
  CHECK_THAT(page, Contains("**Not known:** nothing is said of"));
  CHECK_THAT(page, Contains("weir amaro") && Contains("unheard-of thing"));
  std::string matrix = house.page("allergens.html");
  CHECK_THAT(matrix, Contains("<strong>yes</strong>") && Contains("may"));
  // Nothing is ever cleared.
  for (const auto& file : house.book())
    if (!file.path.ends_with(".js")) {
      INFO(file.path);
      CHECK(testing::clearing_words_in(file.content) == std::vector<std::string>{});
    }
}

TEST_CASE("a bowl is told a serve and as a whole", "[render]") {
  RenderedHouse house(
      "drink Weir Bowl\n  glass punch bowl\n  cup punch cup\n  serves 8\n  ice block\n  build\n  400 ml aged "
      "rum\n  200 ml lemon juice\n"
      "  160 ml simple syrup\n  600 ml water\n  stir 1 min\n  garnish none\n");
  std::string page = house.page("drinks/weir-bowl.md");
  CHECK_THAT(page, Contains("**Serves:** 8"));
  CHECK_THAT(page, Contains("| 400 ml |"));
  CHECK_THAT(page, Contains("As served, each"));
  CHECK_THAT(page, Contains("The whole, for 8:"));
}

TEST_CASE("a house bottle is poured once and says what it holds", "[render]") {
  RenderedHouse house(
      "drink A\n  glass rocks\n  ice large cube\n  30 ml London dry gin\n  30 ml sweet vermouth\n  30 ml "
      "bitter aperitivo\n"
      "  batched London dry gin, sweet vermouth, bitter aperitivo, bottle 700 ml\n  stir 30 s\n  strain\n  "
      "garnish orange twist\n");
  std::string page = house.page("drinks/a.md");
  CHECK_THAT(page, Contains("One pour from the batch bottle of 700 ml: 90 ml, 3 oz."));
  CHECK(count(page, "*in the batch*") == 3);
}

TEST_CASE("an empty house has an empty book", "[render]") {
  RenderedHouse house("");
  auto paths = house.paths(render::Form::both);
  CHECK(has(paths, "index.html"));
  CHECK(has(paths, "allergens.md"));
  CHECK_THAT(house.page("allergens.md"), !Contains("free"));
}

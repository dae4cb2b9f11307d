#include <cmark.h>

#include <catch2/catch.hpp>
#include <cstdlib>

#include "rendered_house.h"

using namespace gill;
using Catch::Contains;
using testing::RenderedHouse;

namespace {

constexpr std::string_view plain_house_text =
    "house The Weir\n"
    "prep bay syrup\n  | Boil *once*.\n  500 g white sugar\n  500 g water\n  dissolve\n  keeps 2 wk chilled\n"
    "drink Withy Cutter\n  family sour\n  glass coupe, chilled\n  50 ml London dry gin\n    | From the "
    "*freezer*.\n  25 ml lemon juice\n  20 ml bay syrup\n"
    "  1 egg white\n  dry shake 15 s\n  shake 12 s with 4 cubes\n  double strain\n  garnish none\n"
    "menu Spring\n  section Short\n    Withy Cutter\n";

/// What cmark, the reference program of CommonMark, makes of a text.
std::string through_cmark(const std::string& text) {
  char* html = cmark_markdown_to_html(text.data(), text.size(), CMARK_OPT_DEFAULT);
  std::string result = html;
  std::free(html);
  return result;
}

}  // namespace

TEST_CASE("plain CommonMark has lists where Markdown has tables", "[render]") {
  RenderedHouse house(plain_house_text);
  for (const auto& file : house.book(render::Form::commonmark)) {
    if (!file.path.ends_with(".md")) continue;
    INFO(file.path);
    auto html = through_cmark(file.content);
    CHECK_THAT(file.content, !Contains("| --"));
    // A table that CommonMark does not know comes out as a paragraph of bars.
    CHECK_THAT(html, !Contains("<p>|"));
    // Raw HTML would come out as this remark.
    CHECK_THAT(html, !Contains("raw HTML omitted"));
  }
}

TEST_CASE("a build as a list reads as it is poured", "[render]") {
  auto text = RenderedHouse(plain_house_text).page("drinks/withy-cutter.md", render::Form::commonmark);
  CHECK_THAT(text, Contains("- 50 ml · 1 2/3 oz · [London dry gin](../ingredients/london-dry-gin.md)\n\n  "
                            "From the *freezer*.\n"));
  CHECK_THAT(text, Contains("- 1 · [egg white](../ingredients/egg-white.md) *about 30 ml*\n"));
}

TEST_CASE("every link of plain CommonMark leads to a file of the book", "[render]") {
  RenderedHouse house(plain_house_text);
  auto files = house.book(render::Form::commonmark);
  auto exists = [&](const std::string& path) {
    return std::any_of(files.begin(), files.end(), [&](const auto& file) { return file.path == path; });
  };
  std::size_t links = 0;
  for (const auto& file : files) {
    if (!file.path.ends_with(".md")) continue;
    std::string html = through_cmark(file.content), folder = file.path.substr(0, file.path.rfind('/') + 1);
    for (auto at = html.find("href=\""); at != std::string::npos;
         at = html.find("href=\"", at + 1), ++links) {
      std::string url = html.substr(at + 6, html.find('"', at + 6) - at - 6);
      INFO(file.path << " -> " << url);
      CHECK(exists(url.starts_with("../") ? url.substr(3) : folder + url));
    }
  }
  CHECK(links > 20);
}

TEST_CASE("the form of plain CommonMark has the pictures beside and nothing of HTML", "[render]") {
  auto paths = RenderedHouse(plain_house_text).paths(render::Form::commonmark);
  CHECK(std::find(paths.begin(), paths.end(), "drinks/withy-cutter.svg") != paths.end());
  CHECK(std::none_of(paths.begin(), paths.end(),
                     [](const auto& path) { return path.ends_with(".html") || path.ends_with(".js"); }));
}

#include <catch2/catch.hpp>

#include "render/document/guest_menu.h"
#include "render/html/page.h"
#include "render/markdown/page.h"
#include "rendered_house.h"
#include "support/clearing_words.h"

using namespace gill;
using Catch::Contains;
using testing::RenderedHouse;

namespace {

constexpr std::string_view guest_house_text =
    "house The Weir\n  currency EUR\n  tax 20 % included\n  notice \"Ask before you order.\"\n"
    "ingredient odd leaf\n  kind herb\n"
    "prep sesame rye\n  700 ml rye whiskey\n  140 g toasted sesame oil\n  rest 2 h\n  remove toasted sesame "
    "oil\n"
    "drink Withy Cutter\n  glass coupe\n  guest \"Rye, lemon, a white head.\"\n  50 ml sesame rye\n  25 ml "
    "lemon juice\n  20 ml simple syrup\n"
    "  1 egg white\n  dry shake 15 s\n  shake 12 s\n  strain\n  allow raw-egg because \"the guests are "
    "told\"\n"
    "drink Leafy\n  glass rocks\n  build\n  50 ml London dry gin\n  garnish odd leaf\n"
    "drink Half Done\n  status draft\n  60 ml London dry gin\n"
    "menu Spring\n  | Open windows.\n  runs 2026-03-01 .. 2026-05-31\n  section Short\n    Withy Cutter at "
    "12.50 EUR\n    Leafy at 11 EUR\n    Half Done at 9 EUR\n";

struct Menu {
  /// What lint finds of the drink: its disclosure prints whether an `allow` quiets the finding or not.
  explicit Menu(std::string_view text) : house(text) {
    house.compiled.sink.add(diagnostics::Rule::raw_egg, {}, "`egg white` is raw egg").drink = "Withy Cutter";
  }

  std::string html() const {
    auto input = house.input();
    render::document::BookIndex index(input, false);
    return render::html::to_html_alone(render::document::guest_menu_page(index, index.menus().front()),
                                       render::document::guest_menu_frame(index));
  }

  std::string markdown() const {
    auto input = house.input();
    render::document::BookIndex index(input, false);
    return render::markdown::to_markdown(render::document::guest_menu_page(index, index.menus().front()),
                                         render::document::guest_menu_frame(index))
        .text;
  }

  RenderedHouse house;
};

}  // namespace

TEST_CASE("a guests' menu tells prices, lines, and allergens with the way they come by", "[render]") {
  auto text = Menu(guest_house_text).markdown();
  CHECK_THAT(text, Contains("Rye, lemon, a white head."));
  CHECK_THAT(text, Contains("12.50"));
  CHECK_THAT(text, Contains("**sesame** by the sesame rye"));
  CHECK_THAT(text, Contains("**egg** by the egg white"));
  CHECK_THAT(text, Contains("Not all of its allergens are known: ask us."));
  CHECK_THAT(text, Contains("tax of 20 % included"));
  CHECK_THAT(text, Contains("Ask before you order."));
  CHECK_THAT(text, Contains("are shared"));
}

// FDA Food Code 2022, 3-603.11: a disclosure where the food is named, a reminder of the risk below.
TEST_CASE("raw egg is disclosed beside the drink and reminded of below, though its finding is allowed",
          "[render]") {
  auto text = Menu(guest_house_text).markdown();
  CHECK_THAT(text, Contains("Withy Cutter\\*"));
  CHECK_THAT(text, Contains("Served with raw egg."));
  CHECK_THAT(text, Contains("The risk is higher for young children"));
}

TEST_CASE("a guests' menu leads nowhere and clears nothing", "[render]") {
  Menu menu(guest_house_text);
  auto html = menu.html();
  CHECK_THAT(html, !Contains("href="));
  CHECK_THAT(html, !Contains("<script"));
  CHECK_THAT(html, !Contains("Half Done"));
  CHECK_THAT(menu.markdown(), !Contains("]("));
  CHECK(testing::clearing_words_in(html).empty());
}

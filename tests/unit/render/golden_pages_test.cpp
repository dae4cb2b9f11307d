// Whole outputs that hold no worked-out figure: golden/weir.gill beside what is made of it. GILL_UPDATE=1 in
// the environment rewrites them; the review of that diff is the test.
#include <catch2/catch.hpp>

#include "render/document/guest_menu.h"
#include "render/html/page.h"
#include "render/markdown/page.h"
#include "rendered_house.h"
#include "support/golden.h"

using namespace gill;

namespace {

const std::string folder = GILL_SOURCE_DIR "/tests/unit/render/golden/";

}  // namespace

TEST_CASE("whole pages are what their golden files say", "[render]") {
  testing::RenderedHouse house(testing::read_file(folder + "weir.gill"));
  house.compiled.sink.add(diagnostics::Rule::raw_egg, {}, "`egg white` is raw egg").drink = "Withy Cutter";
  testing::compare_with_golden(folder + "inspection.md", house.page("inspection.md"));
  testing::compare_with_golden(folder + "find.js", house.page("find.js"));
  auto input = house.input();
  render::document::BookIndex index(input, false);
  auto page = render::document::guest_menu_page(index, index.menus().front());
  testing::compare_with_golden(
      folder + "guest_menu.md",
      render::markdown::to_markdown(page, render::document::guest_menu_frame(index)).text);
}

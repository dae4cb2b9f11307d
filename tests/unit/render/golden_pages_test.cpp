// Whole outputs that hold no worked-out figure: golden/weir.gill beside what is made of it. GILL_UPDATE=1 in
// the environment rewrites them; the review of that diff is the test.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>

#include "render/document/guest_menu.h"
#include "render/html/page.h"
#include "render/markdown/page.h"
#include "rendered_house.h"

using namespace gill;

namespace {

const std::string folder = GILL_SOURCE_DIR "/tests/unit/render/golden/";

void compare(const std::string& name, const std::string& got) {
  INFO(name);
  const char* update = std::getenv("GILL_UPDATE");
  if (update && std::string_view(update) == "1") std::ofstream(folder + name, std::ios::binary) << got;
  CHECK(got == testing::read_file(folder + name));
}

}  // namespace

TEST_CASE("whole pages are what their golden files say", "[render]") {
  testing::RenderedHouse house(testing::read_file(folder + "weir.gill"));
  house.compiled.sink.add(diagnostics::Rule::raw_egg, {}, "`egg white` is raw egg").drink = "Withy Cutter";
  compare("inspection.md", house.page("inspection.md"));
  compare("find.js", house.page("find.js"));
  render::BookInput input{house.compiled.specs,   house.facts,     house.compiled.units, house.compiled.names,
                          house.compiled.sources, house.findings()};
  render::document::BookIndex index(input, false);
  auto page = render::document::guest_menu_page(index, index.menus().front());
  compare("guest_menu.md",
          render::markdown::to_markdown(page, render::document::guest_menu_frame(index)).text);
}

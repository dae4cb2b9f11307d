#include <catch2/catch.hpp>
#include <cmath>

#include "render/drawing/drink_picture.h"
#include "render/drawing/glass_section.h"
#include "render/drawing/svg.h"
#include "rendered_house.h"

using namespace gill;
using namespace gill::render::drawing;
using testing::RenderedHouse;

namespace {

/// The highest and lowest point of a path's ends.
std::pair<double, double> extent(const Path& path) {
  double top = path.from.y_mm, bottom = path.from.y_mm;
  for (const auto& piece : path.segments)
    top = std::min(top, piece.to.y_mm), bottom = std::max(bottom, piece.to.y_mm);
  return {top, bottom};
}

}  // namespace

TEST_CASE("a filling stands between its heights, to scale", "[render]") {
  RenderedHouse house("drink A\n  glass coupe\n");
  GlassSection glass(house.compiled.glass("coupe"), 2, 50, 100);
  auto [top, bottom] = extent(glass.filling(0, 30, Paint::ink(), {}));
  CHECK(bottom - top == Approx(15));
  CHECK(bottom == Approx(glass.y_at(0)));
  double rim = glass.profile().height_mm();
  CHECK(2 * glass.half_width_at(rim) * 2 == Approx(glass.profile().diameter_at_mm(rim)));
}

TEST_CASE("the inside drawn is as wide at every point as the glass is declared", "[render]") {
  RenderedHouse house("drink A\n  glass coupe\n");
  for (const char* name : {"coupe", "flute", "hurricane", "collins", "punch bowl", "tulip"}) {
    GlassSection glass(house.compiled.glass(name), 1, 0, 0);
    double before = 0;
    for (const auto& point : glass.profile().points()) {
      INFO(name << " at " << point.height_mm);
      CHECK(2 * glass.half_width_at(point.height_mm) == Approx(point.diameter_mm));
      // Between two points it is never wider or narrower than both.
      double middle = (point.height_mm + before) / 2, wide = 2 * glass.half_width_at(middle);
      double low = std::min(glass.profile().diameter_at_mm(before), point.diameter_mm);
      double high = std::max(glass.profile().diameter_at_mm(before), point.diameter_mm);
      CHECK(wide >= low - 1e-9);
      CHECK(wide <= high + 1e-9);
      before = point.height_mm;
    }
  }
}

TEST_CASE("the level drawn is the level worked out", "[render]") {
  RenderedHouse house("drink A\n  glass coupe\n");
  DrinkPicture picture;
  picture.glass = &house.compiled.glass("coupe");
  picture.in_glass.liquid_ml = 120;
  picture.in_glass.level_ml = 120;
  picture.layers = {{120, "#aa5500"}};
  auto drawn = draw_drink(picture);
  CHECK(drawn.level_mm == Approx(model::GlassProfile(*picture.glass).height_of_ml(120)));
  CHECK_FALSE(drawn.over_the_rim);
  picture.in_glass.level_ml = 200;
  CHECK(draw_drink(picture).over_the_rim);
}

TEST_CASE("every glass of the library can be drawn, with and without ice", "[render]") {
  RenderedHouse house("drink A\n  glass coupe\n");
  for (const auto& glass : house.compiled.specs.glasses) {
    INFO(glass.head.name);
    for (const auto& ice : house.compiled.specs.ices) {
      DrinkPicture picture;
      picture.glass = &glass;
      picture.ice = &ice;
      double holds = glass.holds->number();
      picture.in_glass.liquid_ml = holds * 0.5;
      picture.in_glass.ice_g = holds * 0.4;
      picture.in_glass.ice_below_ml = holds * 0.25;
      picture.in_glass.ice_above_ml = holds * 0.15;
      picture.in_glass.level_ml = holds * 0.75;
      picture.layers = {{holds * 0.4, "#886622"}, {holds * 0.1, "#ffffff"}};
      picture.parts = {{"45 ml", "a spirit with a very long name indeed", 45, false},
                       {"1 dash", "bitters", 0.9, false},
                       {"30 ml", "water", 30, true}};
      auto drawn = draw_drink(picture);
      std::string svg = to_svg(drawn.scene, SvgUse::standalone, "p");
      CHECK(svg.find("nan") == std::string::npos);
      CHECK(svg.find("inf") == std::string::npos);
      CHECK(drawn.scene.height_mm < 130);
      CHECK(svg.size() < 60000);
    }
  }
}

TEST_CASE("a name in a picture is text", "[render]") {
  Scene scene;
  scene.title = "<script>";
  scene.description = "a & \"b\"";
  scene.add(Text{{0, 0}, "</text><script>alert(1)</script>", 3, Anchor::start, Paint::ink(), false});
  std::string svg = to_svg(scene, SvgUse::on_page, "p");
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("&lt;/text&gt;&lt;script&gt;") != std::string::npos);
}

TEST_CASE("a picture on a page takes the page's ink, one of its own brings it", "[render]") {
  Scene scene;
  scene.add(straight({0, 0}, {1, 1}, {Paint::ink(), 0.2, 0}));
  CHECK(to_svg(scene, SvgUse::on_page, "p").find("stroke=\"currentColor\"") != std::string::npos);
  CHECK(to_svg(scene, SvgUse::standalone, "p").find("currentColor") == std::string::npos);
}

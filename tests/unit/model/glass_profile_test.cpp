// How high a drink stands in its glass: solids of revolution whose volumes geometry gives.
#include "model/glass_profile.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "model_house.h"

using namespace gill;
using model::GlassProfile;

namespace {

GlassProfile profile_of(std::string_view lines) {
  auto house = testing::compile("glass beaker\n" + std::string(lines));
  return GlassProfile(house.glass("beaker"));
}

}  // namespace

TEST_CASE("a glass without a shape is a cylinder as high as it is wide") {
  auto glass = profile_of("  holds 200 ml\n");
  // V = pi/4 d^3, in mm^3.
  double side = std::cbrt(200'000 * 4 / std::numbers::pi);
  CHECK(glass.height_mm() == Approx(side).epsilon(1e-9));
  CHECK(glass.diameter_at_mm(0) == Approx(side).epsilon(1e-9));
  CHECK(glass.diameter_at_mm(side / 3) == Approx(side).epsilon(1e-9));
  CHECK(glass.height_of_ml(50) == Approx(side / 4).epsilon(1e-9));
  CHECK(glass.volume_below_mm(side / 2) == Approx(100).epsilon(1e-9));
}

TEST_CASE("a glass that says nothing of its size is reckoned as one of 300 ml") {
  // Common practice, no source.
  CHECK(profile_of("").holds_ml() == 300);
  CHECK(profile_of("  holds 1 ml\n").holds_ml() == 1);
}

TEST_CASE("a cone filled to half its height holds an eighth") {
  auto cone = profile_of("  holds 160 ml\n  shape 0 mm at 0 mm, 90 mm at 60 mm\n");
  double height = cone.height_mm();
  CHECK(cone.height_of_ml(20) == Approx(height / 2).epsilon(1e-9));
  CHECK(cone.volume_below_mm(height / 2) == Approx(20).epsilon(1e-9));
  CHECK(cone.diameter_at_mm(height / 2) == Approx(45).epsilon(1e-9));
  // pi/12 d^2 h is what it holds.
  CHECK(std::numbers::pi / 12 * 90 * 90 * height / 1000 == Approx(160).epsilon(1e-9));
}

TEST_CASE("a shape is stretched in height until it holds what the glass holds, from its lowest point") {
  // Drawn as 40 mm high from 5 mm on: pi/4 50^2 40 = 78.5 ml; 157 ml is twice as high.
  auto glass = profile_of("  holds 157.0796327 ml\n  shape 50 mm at 5 mm, 50 mm at 45 mm\n");
  CHECK(glass.points().front().height_mm == 0);
  CHECK(glass.height_mm() == Approx(80).epsilon(1e-6));
  CHECK(glass.points().back().diameter_mm == 50);
}

TEST_CASE("between the points of a shape a glass widens evenly, below and above them it does not") {
  // Two frusta: pi/12 h (a^2 + ab + b^2) each, in ml.
  auto frustum = [](double a, double b, double h) {
    return std::numbers::pi / 12 * h * (a * a + a * b + b * b) / 1000;
  };
  double lower = frustum(40, 60, 30), upper = frustum(60, 80, 30);
  auto glass = profile_of(fmt::format(
      "  holds {:.9f} ml\n  shape 40 mm at 0 mm, 60 mm at 30 mm, 80 mm at 60 mm\n", lower + upper));
  CHECK(glass.height_mm() == Approx(60).epsilon(1e-6));
  CHECK(glass.diameter_at_mm(15) == Approx(50).epsilon(1e-6));
  CHECK(glass.diameter_at_mm(45) == Approx(70).epsilon(1e-6));
  CHECK(glass.diameter_at_mm(-1) == 40);
  CHECK(glass.diameter_at_mm(99) == 80);
  CHECK(glass.volume_below_mm(30) == Approx(lower).epsilon(1e-6));
  CHECK(glass.volume_below_mm(15) == Approx(frustum(40, 50, 15)).epsilon(1e-6));
  CHECK(glass.volume_below_mm(45) == Approx(lower + frustum(60, 70, 15)).epsilon(1e-6));
  CHECK(glass.volume_below_mm(0) == 0);
  CHECK(glass.volume_below_mm(99) == Approx(lower + upper).epsilon(1e-6));
  CHECK(glass.height_of_ml(lower) == Approx(30).epsilon(1e-6));
}

TEST_CASE("what stands in a glass is never below its bottom nor above its rim") {
  auto glass = profile_of("  holds 160 ml\n  shape 10 mm at 0 mm, 90 mm at 60 mm\n");
  CHECK(glass.height_of_ml(0) == 0);
  CHECK(glass.height_of_ml(-5) == 0);
  CHECK(glass.height_of_ml(0.5) > 0);
  CHECK(glass.height_of_ml(160) == Approx(glass.height_mm()));
  CHECK(glass.height_of_ml(161) == glass.height_mm());
  CHECK(glass.height_of_ml(500) == glass.height_mm());
  CHECK(glass.height_of_ml(159) < glass.height_mm());
}

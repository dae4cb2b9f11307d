// What a house measured against what the model says, with houses whose hands are known.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "analysis/read_recipe.h"
#include "analysis/verbs.h"
#include "model/calibration.h"
#include "model_house.h"

using namespace gill;
using model::Calibration;
using model::CalibrationFinding;
using testing::evaluate;

namespace {

constexpr const char* drinks = R"(
glass tin
  holds 400 ml

drink Sour
  glass tin
  60 ml white rum
  22.5 ml lime juice
  22.5 ml simple syrup
  shake 12 s
  strain
%sour%
drink Short
  glass tin
  60 ml rye whiskey
  30 ml sweet vermouth
  stir 30 s
  strain
%short%
)";

std::string house_of(const std::string& sour, const std::string& shorts, const std::string& house = "") {
  std::string text = drinks;
  text.replace(text.find("%sour%"), 6, sour);
  text.replace(text.find("%short%"), 7, shorts);
  return house + text;
}

Calibration calibrated(const testing::ModelHouse& house) {
  return model::calibrate(house.front.specs, house.front.units, house.facts,
                          model::measurements_of(house.front.specs));
}

const CalibrationFinding* find(const Calibration& calibration, CalibrationFinding::What what,
                               model::ChillMethod method = model::ChillMethod::shake) {
  for (const auto& finding : calibration.findings)
    if (finding.what == what && (what != CalibrationFinding::What::melt || finding.method == method))
      return &finding;
  return nullptr;
}

/// What comes out of a drink in a house whose hands are so: grams and degrees.
struct CameOut {
  double before_g, after_g, temperature_c;
};
CameOut came_out(const std::string& name, const std::string& house_lines) {
  auto house = evaluate(house_of("", "", house_lines.empty() ? "" : "house H\n" + house_lines));
  const auto& drink = house.drink(name);
  // The thermometer goes into the tin: in the glass it is warmer.
  double celsius = drink.served.temperature_c;
  for (const auto& step : drink.trace)
    if (step.melt_g > 0) celsius = step.after.temperature_c;
  return {drink.mixed.mass_g, drink.served.mass_g, celsius};
}

std::string line(int day, double before, double after, double temperature = NAN) {
  std::string text =
      fmt::format("  measured 2026-09-{:02d}, {:.3f} g before, {:.3f} g after", day, before, after);
  if (!std::isnan(temperature)) text += fmt::format(", {:.3f} C", temperature);
  return text + "\n";
}

}  // namespace

TEST_CASE("nothing measured, nothing changed") {
  auto house = evaluate(house_of("", ""));
  auto calibration = calibrated(house);
  CHECK(calibration.findings.empty());
  CHECK(model::house_lines(calibration).empty());
  model::Hands usual = model::hands_of(house.front.specs.house);
  for (double factor : usual.melt) CHECK(factor == 1);
  for (double width : usual.melt_width) CHECK(width == model::melt_share);
  // Lines of measurements alone change no figure either.
  auto measured = evaluate(house_of(line(1, 110, 200), ""));
  CHECK(measured.drink("Sour").served.volume_ml == house.drink("Sour").served.volume_ml);
  CHECK(measured.drink("Sour").tolerance.abv_percent == house.drink("Sour").tolerance.abv_percent);
}

TEST_CASE("hands that are known come out again") {
  const std::string truth = "  hands shake melt 1.2\n  hands stir melt 0.8\n";
  auto sour = came_out("Sour", truth), shorts = came_out("Short", truth);
  std::string sours, short_lines;
  for (int day = 1; day <= 4; ++day) {
    sours += line(day, sour.before_g, sour.after_g);
    short_lines += line(day, shorts.before_g, shorts.after_g);
  }
  auto calibration = calibrated(evaluate(house_of(sours, short_lines)));
  const auto* shake = find(calibration, CalibrationFinding::What::melt, model::ChillMethod::shake);
  const auto* stir = find(calibration, CalibrationFinding::What::melt, model::ChillMethod::stir);
  REQUIRE(shake);
  REQUIRE(stir);
  CHECK(shake->value == Approx(1.2).margin(0.002));
  CHECK(stir->value == Approx(0.8).margin(0.002));
  CHECK(shake->points == 4);
  // The lines that it writes make the drinks come out as they were weighed.
  std::string lines;
  for (const auto& written : model::house_lines(calibration)) lines += "  " + written + "\n";
  CHECK(came_out("Sour", lines).after_g == Approx(sour.after_g).margin(0.3));
  CHECK(came_out("Short", lines).after_g == Approx(shorts.after_g).margin(0.3));
  // And what it finds does not hang on what the house says now.
  auto again = calibrated(evaluate(house_of(sours, short_lines, "house H\n" + truth)));
  CHECK(find(again, CalibrationFinding::What::melt)->value == Approx(shake->value).margin(1e-6));
}

TEST_CASE("noisy hands are found within what is claimed of them") {
  // A hundred bars of known hands and known errors: what is found lies within twice what it is known to in
  // about 95 %.
  const double truth = 1.1;
  auto exact = came_out("Sour", "  hands shake melt 1.1\n");
  std::mt19937 chance(7);
  std::normal_distribution<double> noise(0, 1.5);
  int inside = 0;
  constexpr int bars = 40;
  for (int bar = 0; bar < bars; ++bar) {
    std::string lines;
    for (int day = 1; day <= 6; ++day) lines += line(day, exact.before_g, exact.after_g + noise(chance));
    auto calibration = calibrated(evaluate(house_of(lines, "")));
    const auto* shake = find(calibration, CalibrationFinding::What::melt);
    REQUIRE(shake);
    inside += std::abs(shake->value - truth) < 2 * shake->error;
    CHECK(shake->width >= shake->error);
    CHECK(shake->width < 0.15);
  }
  CHECK(inside >= 36);
}

TEST_CASE("one weighing against the mean by hand: the same factor and error as a weighted mean") {
  // Linear in one factor, least squares is the weighted mean of what each weighing says by itself.
  auto exact = came_out("Sour", "");
  std::string lines;
  for (double off : {2.0, -1.0, 4.0, 1.0, 3.0})
    lines += line(static_cast<int>(10 + off), exact.before_g, exact.after_g + off);
  auto calibration = calibrated(evaluate(house_of(lines, "")));
  double sum = 0, weights = 0;
  for (const auto& point : calibration.points) {
    const double weight = 1 / (point.factor_error * point.factor_error);
    sum += weight * point.factor;
    weights += weight;
  }
  const auto* shake = find(calibration, CalibrationFinding::What::melt);
  REQUIRE(shake);
  CHECK(shake->value == Approx(sum / weights).epsilon(1e-5));
  double square = 0;
  for (const auto& point : calibration.points)
    square += std::pow((point.factor - shake->value) / point.factor_error, 2);
  CHECK(shake->error == Approx(std::sqrt(std::max(1.0, square / 4) / weights)).epsilon(1e-3));
}

TEST_CASE("a weighing that cannot be is left out and named") {
  auto exact = came_out("Sour", "  hands shake melt 1.1\n");
  std::string lines;
  for (int day = 1; day <= 5; ++day)
    lines += line(day, exact.before_g, exact.after_g + 0.5 * (day % 2) + (day == 3 ? 45 : 0));
  auto house = evaluate(house_of(lines, ""));
  auto calibration = calibrated(house);
  int left_out = 0;
  for (const auto& point : calibration.points)
    if (point.is_outlier) {
      ++left_out;
      CHECK(calibration.measured[point.measured].measurement.date == "2026-09-03");
      CHECK(point.found == Approx(exact.after_g).margin(2));
    }
  CHECK(left_out == 1);
  CHECK(find(calibration, CalibrationFinding::What::melt)->value == Approx(1.1).margin(0.02));
  // Two that disagree: nobody can say which is off.
  auto two = calibrated(evaluate(house_of(line(1, 110, 170) + line(2, 110, 220), "")));
  for (const auto& point : two.points) CHECK(!point.is_outlier);
}

TEST_CASE("few measurements leave the usual doubt where it is") {
  auto exact = came_out("Sour", "");
  auto calibration = calibrated(evaluate(house_of(line(1, exact.before_g, exact.after_g), "")));
  const auto* shake = find(calibration, CalibrationFinding::What::melt);
  REQUIRE(shake);
  CHECK(shake->width == Approx(model::melt_share * shake->value));
}

TEST_CASE("colder ice is told apart from hands by the temperatures") {
  const std::string truth = "  ice -6 C\n  hands shake melt 1.3\n";
  auto sour = came_out("Sour", truth), shorts = came_out("Short", "  ice -6 C\n");
  std::string sours, short_lines;
  for (int day = 1; day <= 8; ++day) {
    sours += line(day, sour.before_g, sour.after_g, sour.temperature_c);
    short_lines += line(day, shorts.before_g, shorts.after_g, shorts.temperature_c);
  }
  auto calibration = calibrated(evaluate(house_of(sours, short_lines)));
  const auto* ice = find(calibration, CalibrationFinding::What::ice_temperature);
  REQUIRE(ice);
  CHECK(ice->value == Approx(-6).margin(0.3));
  CHECK(find(calibration, CalibrationFinding::What::melt)->value == Approx(1.3).margin(0.03));
}

TEST_CASE("temperatures that no ice makes decide nothing of the ice") {
  auto sour = came_out("Sour", "");
  std::string lines;
  for (int day = 1; day <= 4; ++day) lines += line(day, sour.before_g, sour.after_g, 5);
  auto calibration = calibrated(evaluate(house_of(lines, "")));
  CHECK(!find(calibration, CalibrationFinding::What::ice_temperature));
  CHECK(find(calibration, CalibrationFinding::What::melt)->value == Approx(1).margin(0.01));
}

TEST_CASE("what strained solids keep comes out of a prep's weights") {
  const std::string prep =
      "prep Green\n  500 ml vodka\n  100 g mint\n  infuse 1 d\n  strain\n  keeps 7 d chilled\n";
  auto of = [&](const std::string& house, const std::string& lines) {
    return evaluate((house.empty() ? "" : "house H\n" + house) + prep + lines);
  };
  auto wetter = of("  hands strain hold 1.5\n", "").stock("Green");
  auto usual = of("", "").stock("Green");
  CHECK(wetter.would_be_g < usual.would_be_g);
  std::string lines;
  for (int day = 1; day <= 3; ++day)
    lines += fmt::format("  measured 2026-09-0{}, {:.3f} g after\n", day, wetter.would_be_g);
  auto house = of("", lines);
  auto calibration = calibrated(house);
  const auto* hold = find(calibration, CalibrationFinding::What::hold);
  REQUIRE(hold);
  CHECK(hold->value == Approx(1.5).margin(0.01));
}

TEST_CASE("the hands' line moves the melt and its doubt, and says so in the work") {
  auto usual = evaluate(house_of("", ""));
  auto house = evaluate(house_of("", "", "house H\n  hands shake melt 1.2 ± 0.06\n"));
  const auto& now = house.drink("Sour");
  CHECK(now.dilution_percent == Approx(1.2 * usual.drink("Sour").dilution_percent).epsilon(1e-6));
  CHECK(testing::influence_of(house, now, "the dilution").width == Approx(0.05));
  // The stir is nobody's business.
  CHECK(house.drink("Short").dilution_percent == usual.drink("Short").dilution_percent);
  CHECK(testing::influence_of(house, house.drink("Short"), "the dilution").width ==
        Approx(model::melt_share));
}

TEST_CASE("what to measure next is what tells most of the house's strengths") {
  auto none = calibrated(evaluate(house_of("", "")));
  REQUIRE(none.next.size() == 2);
  CHECK(none.next[0].doubt_after < none.next[0].doubt_before);
  CHECK(none.next[1].doubt_before == Approx(none.next[0].doubt_after));
  // A shake that is known leaves the stir to be weighed.
  auto exact = came_out("Sour", "");
  std::string lines;
  for (int day = 1; day <= 9; ++day) lines += line(day, exact.before_g, exact.after_g);
  auto known = calibrated(evaluate(house_of(lines, "")));
  REQUIRE(!known.next.empty());
  CHECK(known.next[0].method == model::ChillMethod::stir);
}

TEST_CASE("nobody is asked to weigh a bowl") {
  auto calibration =
      calibrated(evaluate("drink Bowl\n  glass punch bowl\n  serves 10\n  600 ml vodka\n  300 ml lime "
                          "juice\n  stir 60 s\n  strain\n"));
  CHECK(calibration.next.empty());
}

TEST_CASE("what cannot be used says why") {
  auto house = evaluate(
      "drink Flat\n  glass coupe\n  60 ml vodka\n  build\n  ice none\n  measured 2026-09-01, 70 g after\n"
      "drink Sour\n  glass coupe\n  60 ml vodka\n  30 ml lime juice\n  shake 12 s\n  strain\n"
      "  measured 2026-09-01, 120 g after, stir 20 s\n");
  auto calibration = calibrated(house);
  CHECK(calibration.findings.empty());
  REQUIRE(calibration.unused.size() == 2);
  for (const auto& unused : calibration.unused) CHECK(unused.reason.ends_with("."));
}

TEST_CASE("the house can state its hands for just the steps that the model moves by them") {
  for (const auto& verb : analysis::all_verbs()) {
    INFO(verb.name);
    CHECK(analysis::has_hands(verb.verb) == model::chill_method_of(verb.verb).has_value());
    if (auto method = model::chill_method_of(verb.verb)) CHECK(model::verb_of(*method) == verb.verb);
  }
}

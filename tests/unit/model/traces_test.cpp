// What a law names by the milligram, how sweet sugars are, and what instruments would show of a prep.
#include <fmt/format.h>

#include <algorithm>

#include "model_house.h"

using namespace gill;
using model::Statement;
using model::TraceKind;
using testing::evaluate;

namespace {

constexpr const char* parts = R"(
ingredient plain spirit
  kind spirit
  strength 40 % abv
  allergen none

ingredient bitter water
  kind mixer
  quinine 80 mg/l
  allergen none

ingredient brown fizz
  kind mixer
  caffeine 100 mg/l
  fizz 3.5 vol
  allergen none

ingredient strong brew
  kind tea/coffee
  caffeine 2 g/l
  allergen none

ingredient house white
  kind wine
  strength 12 % abv
  sulphites 120 mg/l
  allergen may sulphites
)";

bool says(const std::vector<Statement>& statements, Statement::Kind kind) {
  return std::any_of(statements.begin(), statements.end(),
                     [&](const Statement& statement) { return statement.kind == kind; });
}

double mg_per_l(const model::Traces& traces, TraceKind kind) {
  return traces[model::index_of(kind)].mg_per_l.value_or(-1);
}

}  // namespace

TEST_CASE("milligrams thin out with what they are poured into") {
  auto house = evaluate(
      std::string(parts) +
      "drink Long\n  glass highball\n  ice none\n  50 ml plain spirit\n  150 ml bitter water\n  build\n");
  const auto& drink = house.drink("Long");
  // 80 mg/l in three quarters of it: 12 mg in what 50 and 150 ml come to.
  CHECK(mg_per_l(drink.traces, TraceKind::quinine) ==
        Approx(12.0 / drink.served.volume_ml * 1000).epsilon(1e-9));
  CHECK(mg_per_l(drink.traces, TraceKind::caffeine) == -1);
  REQUIRE(drink.statements.size() == 1);
  CHECK(drink.statements[0].kind == Statement::Kind::quinine);
  REQUIRE(drink.statements[0].via.size() == 1);
  CHECK(house.front.specs[drink.statements[0].via[0]].head.name == "bitter water");
}

TEST_CASE("milligrams come through preps, and what is strained off takes its share along") {
  auto house = evaluate(
      std::string(parts) +
      "prep syrup\n  500 ml bitter water\n  500 g white sugar\n  dissolve\n  keeps 7 d chilled\n"
      "prep strained\n  500 ml bitter water\n  300 g mint\n  steep 1 h\n  strain\n  keeps 1 d chilled\n"
      "drink Sour\n  glass coupe\n  50 ml plain spirit\n  20 ml syrup\n  shake 12 s\n  strain\n");
  const auto& syrup = house.stock("syrup");
  // 40 mg in all that it makes.
  CHECK(mg_per_l(syrup.traces, TraceKind::quinine) == Approx(40 / syrup.yield_ml * 1000).epsilon(1e-9));
  const auto& strained = house.stock("strained");
  CHECK(mg_per_l(strained.traces, TraceKind::quinine) * strained.yield_ml / 1000 < 40);
  CHECK(mg_per_l(strained.traces, TraceKind::quinine) > 20);
  const auto& drink = house.drink("Sour");
  // A strain leaves a hundredth of all in the tin.
  double mg = mg_per_l(syrup.traces, TraceKind::quinine) * 0.020 * 0.99;
  CHECK(mg_per_l(drink.traces, TraceKind::quinine) ==
        Approx(mg / drink.served.volume_ml * 1000).epsilon(1e-6));
  CHECK(says(drink.statements, Statement::Kind::quinine));
}

TEST_CASE("much caffeine is said above 150 mg/l, but of what is called coffee or tea and holds no other") {
  // Regulation (EU) No 1169/2011, Annex III, 4.1 (from memory).
  auto drink_of = [](const std::string& name, const std::string& lines) {
    return evaluate(std::string(parts) + "drink " + name + "\n  glass coupe\n  ice none\n" + lines +
                    "  build\n")
        .drink(name)
        .statements;
  };
  const std::string much = "  30 ml plain spirit\n  30 ml strong brew\n";
  CHECK(says(drink_of("Dark Sail", much), Statement::Kind::much_caffeine));
  CHECK(!says(drink_of("Coffee Flip", much), Statement::Kind::much_caffeine));
  CHECK(!says(drink_of("Sail of Tea", much), Statement::Kind::much_caffeine));
  CHECK(says(drink_of("Teapot Row", much), Statement::Kind::much_caffeine));
  // Called coffee, but the cola brings some as well.
  CHECK(says(drink_of("Coffee Cola", much + "  30 ml brown fizz\n"), Statement::Kind::much_caffeine));
  CHECK(!says(drink_of("Pale Sail", "  30 ml plain spirit\n  1 ml strong brew\n"),
              Statement::Kind::much_caffeine));
  // Caffeine that no coffee or tea brings is named, however little.
  CHECK(says(drink_of("Fizz Sail", "  30 ml plain spirit\n  100 ml brown fizz\n"),
             Statement::Kind::caffeine_added));
  CHECK(!says(drink_of("Dark Sail", much), Statement::Kind::caffeine_added));
}

TEST_CASE("sulphites above ten milligrams a litre are an allergen that is there, and fewer clear nothing") {
  // Regulation (EU) No 1169/2011, Annex II, 12.
  auto allergens = [](const std::string& amount) {
    auto house =
        evaluate(std::string(parts) + "drink Cup\n  glass wine glass\n  ice none\n  100 ml water\n  " +
                 amount + " house white\n  build\n");
    const auto& drink = house.drink("Cup");
    return std::pair(drink.allergens.present(), drink.allergens.possible());
  };
  CHECK(allergens("100 ml").first == std::vector<std::string>{"sulphites"});
  CHECK(allergens("100 ml").second.empty());
  // 120 mg/l in one part of sixteen: seven and a half.
  CHECK(allergens("6.7 ml").first.empty());
  CHECK(allergens("6.7 ml").second == std::vector<std::string>{"sulphites"});
}

TEST_CASE("sugars are as sweet as their kinds, and what nobody says is between") {
  auto sweet = [](const std::string& lines) {
    auto house =
        evaluate("ingredient sweet thing\n  kind syrup\n  sugar 60 % w/v\n  allergen none\n" + lines);
    const auto& stock = house.stock("sweet thing");
    return std::pair(stock.sweetness_g_per_100ml, stock.sweetness_tolerance);
  };
  CHECK(sweet("  sugars 100 % sucrose\n").first == Approx(60));
  CHECK(sweet("  sugars 100 % sucrose\n").second == Approx(0).margin(1e-12));
  // Food Chemistry, Springer (from memory), in a solution of 10 %.
  CHECK(sweet("  sugars 100 % fructose\n").first == Approx(60 * 1.14));
  CHECK(sweet("  sugars 100 % lactose\n").first == Approx(60 * 0.39));
  CHECK(sweet("  sugars 50 % fructose, 50 % glucose\n").first == Approx(60 * (1.14 + 0.69) / 2));
  CHECK(sweet("").first == Approx(60));
  CHECK(sweet("").second == Approx(0.25));
  // Half of it not said.
  CHECK(sweet("  sugars 50 % sucrose\n").second == Approx(0.125));
}

TEST_CASE("a drink is as sweet as its parts, by the sugar that each brings") {
  auto house = evaluate(
      "ingredient fruit sugar water\n  kind syrup\n  sugar 50 % w/v\n  sugars 100 % fructose\n  allergen "
      "none\n"
      "ingredient cane water\n  kind syrup\n  sugar 50 % w/v\n  sugars 100 % sucrose\n  allergen none\n"
      "drink A\n  glass coupe\n  ice none\n  30 ml fruit sugar water\n  90 ml cane water\n  build\n");
  const auto& drink = house.drink("A");
  CHECK(drink.sweetness_g_per_100ml / drink.served.sugar_g_per_100ml == Approx((1.14 + 3) / 4));
  CHECK(drink.tolerance.sweetness_g_per_100ml >= 0.2 / 4 * drink.served.sugar_g_per_100ml);
}

TEST_CASE("instruments show a syrup as it is, and a sour one sweeter") {
  auto house = evaluate(
      "prep plain\n  500 g white sugar\n  500 g water\n  dissolve\n  bottle 500 ml\n  keeps 7 d chilled\n"
      "prep sharp\n  500 g white sugar\n  440 g water\n  60 g citric acid\n  dissolve\n  keeps 7 d chilled\n"
      "prep boozy\n  500 ml vodka\n  200 g white sugar\n  dissolve\n  keeps 7 d chilled\n");
  const auto& plain = house.stock("plain").shown;
  // ICUMSA: 50 brix, 1.2297 g/ml.
  CHECK(*plain.refractometer_brix == Approx(50).margin(0.1));
  CHECK(*plain.hydrometer_brix == Approx(50).margin(0.1));
  CHECK(*plain.weight_of_100ml_g == Approx(122.97).margin(0.1));
  CHECK(*plain.bottle_g == Approx(614.8).margin(0.5));
  CHECK(!plain.hydrometer_abv_percent);
  const auto& sharp = house.stock("sharp");
  CHECK(*sharp.shown.refractometer_brix > sharp.brix + 4);
  CHECK(*sharp.shown.refractometer_brix < sharp.brix + 6);
  CHECK(sharp.shown.refractometer_tolerance_brix > 0.3);
  const auto& boozy = house.stock("boozy");
  // Spirit lightens what a hydrometer weighs and bends light as sugar does: the two instruments lie apart.
  CHECK(*boozy.shown.refractometer_brix > boozy.brix + 8);
  CHECK(boozy.shown.hydrometer_brix.value_or(0) < boozy.brix - 8);
}

TEST_CASE("a refractometer's line sets the sugar with which it would show so much") {
  auto shown = [](const std::string& line) {
    auto house = evaluate("prep sharp\n  500 g white sugar\n  440 g water\n  60 g citric acid\n  dissolve\n" +
                          line + "  keeps 7 d chilled\n");
    return house.stock("sharp");
  };
  const auto as_made = shown("");
  const auto read = shown("  refractometer 52 brix\n");
  CHECK(*read.shown.refractometer_brix == Approx(52).margin(1e-3));
  CHECK(read.brix < as_made.brix);
  CHECK(read.brix > 44);
  REQUIRE(read.readings.size() == 1);
  CHECK(read.readings[0].of == model::Reading::Of::refractometer);
  CHECK(read.readings[0].computed == Approx(*as_made.shown.refractometer_brix));
  CHECK(read.computed_sugar_g_per_100ml == Approx(as_made.sugar_g_per_100ml));
  // What it would show is no change.
  const auto same = shown(fmt::format("  refractometer {:.9f} brix\n", *as_made.shown.refractometer_brix));
  CHECK(same.sugar_g_per_100ml == Approx(as_made.sugar_g_per_100ml).epsilon(1e-5));
  // Less than the acid alone shows: no sugar at all, and no sugar below nothing.
  CHECK(shown("  refractometer 1 brix\n").sugar_g_per_100ml == Approx(0).margin(1e-6));
}

TEST_CASE("a hydrometer's line sets the density, on each of its scales") {
  auto density = [](const std::string& line) {
    return evaluate("prep plain\n  500 g white sugar\n  500 g water\n  dissolve\n  hydrometer " + line +
                    "\n  keeps 7 d chilled\n")
        .stock("plain")
        .density_g_per_ml;
  };
  CHECK(density("1.240") == Approx(1.240 * 0.99820123));
  // ICUMSA: 52 brix weigh 1.2407 g/ml.
  CHECK(density("52 brix") == Approx(1.2407).margin(0.0002));
}

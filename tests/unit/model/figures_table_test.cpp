// What the table of figures says of each: which grow with the amount, and which a printed comparison leaves
// out.
#include "model/figures_table.h"

#include <set>

#include "model_house.h"

using namespace gill;
using namespace gill::model;

TEST_CASE("a figure that grows is twice as much of a drink twice as large, any other stays as it is") {
  // Poured without ice, so that nothing but the amounts differs; a scale from one is linear.
  auto house = testing::evaluate(
      "drink One\n  40 ml aged rum\n  20 ml lime juice\n  20 ml simple syrup\n  build\n  ice none\n"
      "drink Two\n  80 ml aged rum\n  40 ml lime juice\n  40 ml simple syrup\n  build\n  ice none\n");
  std::size_t grown = 0;
  for (const auto& figure : drink_figures()) {
    INFO(figure.row.key);
    auto one = value_of(figure, house.drink("One")), two = value_of(figure, house.drink("Two"));
    if (!one || !two || *one == 0) continue;
    CHECK(*two == Approx(figure.grows ? 2 * *one : *one).epsilon(1e-9));
    grown += figure.grows;
  }
  CHECK(grown >= 4);
}

TEST_CASE("a printed comparison leaves to the JSON what another of its figures says") {
  std::set<std::string_view> left_out;
  for (const auto& figure : drink_figures())
    if (!figure.row.is_compared_in_print) left_out.insert(figure.row.key);
  for (const auto& figure : stock_figures())
    if (!figure.row.is_compared_in_print) left_out.insert(figure.row.key);
  // Weight and yield by weight follow from the volume, ethanol from units, energy and sweetness from what it
  // is made of, what instruments show from strength, sugar, acid and density; milligrams are said where a law
  // asks for them.
  CHECK(left_out == std::set<std::string_view>{"mass_g", "ethanol_g", "energy_kcal", "energy_kj", "yield_g",
                                               "sweetness_g_per_100ml", "fizz_vol", "caffeine_mg_per_l",
                                               "quinine_mg_per_l", "sulphites_mg_per_l", "refractometer_brix",
                                               "hydrometer_specific_gravity", "hydrometer_brix",
                                               "hydrometer_abv_percent", "weight_of_100ml_g", "bottle_g"});
}

TEST_CASE("every figure has a key of its own and words, and one that is tuned is one that is expected") {
  std::set<std::string_view> keys;
  for (const auto& figure : drink_figures()) {
    INFO(figure.row.key);
    CHECK(keys.insert(figure.row.key).second);
    CHECK_FALSE(figure.row.words.empty());
    if (figure.tuned_as) {
      CHECK(figure.expected_as);
      CHECK(&figure_of(*figure.tuned_as) == &figure);
      CHECK(figure.family_range);
      CHECK(figure.low_words != figure.high_words);
    }
    if (figure.expected_as) CHECK(figure_of(*figure.expected_as) == &figure);
  }
}

TEST_CASE("what an instrument shows is told to as many places as its scale is read to") {
  // A refractometer, a saccharometer and an alcoholmeter are read to tenths, a hydrometer to the thousandth.
  // Common practice, no source.
  for (auto [key, places] :
       {std::pair("refractometer_brix", 1), std::pair("hydrometer_brix", 1),
        std::pair("hydrometer_abv_percent", 1), std::pair("hydrometer_specific_gravity", 3)})
    CHECK(stock_figure(key).row.places == places);
}

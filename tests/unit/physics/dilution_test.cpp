#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "example_drinks.h"
#include "model/physics/dilution.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/freezing.h"
#include "model/physics/heat.h"
#include "model/physics/volume.h"
#include "plain_balance.h"
#include "published_table.h"

using namespace gill::model;
using gill::model::testing::PublishedTable;

namespace {

constexpr ChillMethod every_method[] = {ChillMethod::shake,   ChillMethod::stir,   ChillMethod::whip,
                                        ChillMethod::swizzle, ChillMethod::throw_, ChillMethod::roll,
                                        ChillMethod::blend,   ChillMethod::churn,  ChillMethod::build};

double dilution(double melt_g, double ml) { return melt_g / (ml * ethanol_water::water_density_g_per_ml); }

// The case of the fits: room-temperature drink, 300 g of ice at 0 °C to 100 ml, the usual time.
Chilled usual(ChillMethod method, const Masses& drink) {
  return chill(method, drink, 20, {.ice_g = 3 * volume_ml(drink)}, 1, usual_time(method), 20);
}

double end_percent(Masses drink, double dilution_share) {
  drink[Component::water] += dilution_share * 100 * ethanol_water::water_density_g_per_ml;
  return 100 * strength(drink);
}

struct Case {
  ChillMethod method;
  Masses drink;
  double start_c;
  IceBath bath;
  double melt_rate, time_s, room_c;

  Chilled chilled() const { return chill(method, drink, start_c, bath, melt_rate, time_s, room_c); }
};

Case any_case(testing::Draws& draws) {
  const auto method = every_method[static_cast<std::size_t>(draws.between(0, 8.999))];
  const Masses drink = testing::any_drink(draws);
  const double ml = volume_ml(drink);
  return {method,
          drink,
          draws.between(-5, 30),
          {.ice_g = draws.between(0.1, 5) * ml,
           .ice_c = draws.between(-20, 0),
           .surface_water_g = draws.between(0, 5),
           .vessel_j_per_k = draws.between(0, 150),
           .vessel_c = draws.between(0, 22)},
          draws.between(0.3, 3),
          draws.between(0.2, 3) * usual_time(method),
          draws.between(15, 30)};
}

}  // namespace

TEST_CASE("the fits are the published polynomials", "[physics]") {
  // Liquid Intelligence, W. W. Norton, 2014 (coefficients from memory); rows evaluated separately.
  const PublishedTable table("dilution_comparison.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double a = table.number(row, "strength_percent") / 100;
    CHECK(shaken_dilution(a) == Approx(table.number(row, "shaken")).margin(0.0006));
    CHECK(stirred_dilution(a) == Approx(table.number(row, "stirred")).margin(0.0006));
  }
  CHECK(shaken_dilution(0.02) == shaken_dilution(0.10));
  CHECK(stirred_dilution(0.7) == stirred_dilution(0.50));
}

TEST_CASE("fits and energy balance compare as worked out", "[physics]") {
  const PublishedTable table("dilution_comparison.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const double a = table.number(row, "strength_percent") / 100;
    const Masses drink = testing::hundred_ml(a, 8);
    const auto share = [&](double start_c, const IceBath& bath) {
      return dilution(testing::equilibrium(drink, start_c, bath).melt_g + bath.surface_water_g, 100);
    };
    const auto celsius = [&](double dilution_share) {
      return testing::plain_balance(drink, 20, {.ice_g = 300})
          .temperature_c(100 * dilution_share * ethanol_water::water_density_g_per_ml);
    };
    INFO(100 * a << " %");
    CHECK(share(20, {.ice_g = 300}) == Approx(table.number(row, "equilibrium")).margin(0.0015));
    CHECK(testing::equilibrium(drink, 20, {.ice_g = 300}).end_c ==
          Approx(table.number(row, "equilibrium_c")).margin(0.1));
    CHECK(share(20, {.ice_g = 300, .surface_water_g = 3, .vessel_j_per_k = 100, .vessel_c = 20}) ==
          Approx(table.number(row, "equilibrium_wet")).margin(0.0015));
    CHECK(share(20, {.ice_g = 300, .ice_c = -18}) ==
          Approx(table.number(row, "equilibrium_cold")).margin(0.0015));
    CHECK(share(4, {.ice_g = 300}) == Approx(table.number(row, "equilibrium_chilled")).margin(0.0015));
    CHECK(celsius(shaken_dilution(a)) == Approx(table.number(row, "c_at_shaken")).margin(0.1));
    CHECK(celsius(stirred_dilution(a)) == Approx(table.number(row, "c_at_stirred")).margin(0.1));
    CHECK(end_percent(drink, stirred_dilution(a)) ==
          Approx(table.number(row, "end_percent_stirred")).margin(0.06));
    CHECK(end_percent(drink, shaken_dilution(a)) ==
          Approx(table.number(row, "end_percent_shaken")).margin(0.06));
    CHECK(end_percent(drink, dilution(testing::equilibrium(drink, 20, {.ice_g = 300}).melt_g, 100)) ==
          Approx(table.number(row, "end_percent_equilibrium")).margin(0.06));
  }
}

TEST_CASE("a usual shake or stir gives the published fit itself", "[physics]") {
  for (int percent = 12; percent <= 48; percent += 4)
    for (const double sugar : {0.0, 8.0, 20.0}) {
      const Masses drink = testing::hundred_ml(percent / 100.0, sugar);
      const double a = strength(drink);
      const double ml = volume_ml(drink);
      const Chilled shaken = usual(ChillMethod::shake, drink);
      const Chilled stirred = usual(ChillMethod::stir, drink);
      CHECK(shaken.basis == Chilled::Basis::fit);
      CHECK(dilution(shaken.melt_g, ml) == Approx(shaken_dilution(a)).epsilon(1e-6));
      CHECK(dilution(stirred.melt_g, ml) == Approx(stirred_dilution(a)).epsilon(1e-6));
    }
}

TEST_CASE("usual temperatures are those measured", "[physics]") {
  // "The Science of Shaking", Cooking Issues, 2009: about −7 °C with ice at 0 °C, −8.8 °C with strong spirit;
  // stirred drinks stay several kelvin warmer.
  CHECK(usual(ChillMethod::shake, testing::hundred_ml(0.25, 8)).end_c == Approx(-7).margin(0.5));
  CHECK(usual(ChillMethod::shake, testing::hundred_ml(0.40, 2)).end_c == Approx(-8.8).margin(0.8));
  const Chilled stirred = usual(ChillMethod::stir, testing::hundred_ml(0.30, 6));
  CHECK(stirred.end_c < 0);
  CHECK(stirred.end_c > -5);
}

TEST_CASE("after the usual shake more time changes little, and two minutes of stirring make a shake",
          "[physics]") {
  // The same source.
  const Masses drink = testing::hundred_ml(0.28, 6);
  const IceBath bath{.ice_g = 300};
  const auto at = [&](ChillMethod method, double seconds) {
    return chill(method, drink, 20, bath, 1, seconds, 20);
  };
  CHECK(at(ChillMethod::shake, 20).melt_g < 1.06 * at(ChillMethod::shake, 12).melt_g);
  CHECK(at(ChillMethod::stir, 120).melt_g == Approx(at(ChillMethod::shake, 15).melt_g).epsilon(0.08));
  CHECK(at(ChillMethod::stir, 120).end_c == Approx(at(ChillMethod::shake, 15).end_c).margin(1.0));
}

TEST_CASE("finished drinks fall in the ranges of a bar handbook", "[physics]") {
  // Liquid Intelligence, W. W. Norton, 2014 (from memory): shaken sours 23–31.5 % with 51–60 % dilution end
  // at 15–20 %; stirred drinks 29–43 % with 41–49 % end at 21–29 %. Half a per cent of strength is left for
  // memory.
  for (const double a : {0.23, 0.27, 0.315}) {
    const Masses sour = testing::hundred_ml(a, 9);
    const double share = dilution(usual(ChillMethod::shake, sour).melt_g, 100);
    CHECK(share > 0.505);
    CHECK(share < 0.605);
    CHECK(end_percent(sour, share) > 14.5);
    CHECK(end_percent(sour, share) < 20.5);
  }
  for (const double a : {0.29, 0.36, 0.43}) {
    const Masses spirit_forward = testing::hundred_ml(a, 6);
    const double share = dilution(usual(ChillMethod::stir, spirit_forward).melt_g, 100);
    CHECK(share > 0.40);
    CHECK(share < 0.495);
    CHECK(end_percent(spirit_forward, share) > 20.4);
    CHECK(end_percent(spirit_forward, share) < 29.8);
  }
}

TEST_CASE("other methods dilute and chill as bartenders expect", "[physics]") {
  // Common practice, no source.
  struct Row {
    ChillMethod method;
    double strength, start_c, ice_g, wet_share, melt_rate, low, high, coldest, warmest;
  };
  for (const Row& row : {Row{ChillMethod::throw_, 0.22, 20, 250, 0.05, 1, 0.25, 0.35, -4, 3},
                         Row{ChillMethod::roll, 0.12, 20, 250, 0.05, 1, 0.20, 0.30, -2, 3},
                         Row{ChillMethod::swizzle, 0.25, 20, 150, 0.08, 3.9, 0.40, 0.60, -7, -1},
                         Row{ChillMethod::churn, 0.25, 20, 150, 0.08, 3.9, 0.40, 0.60, -7, -1},
                         Row{ChillMethod::build, 0.20, 14, 150, 0.05, 1, 0.09, 0.25, 0, 10},
                         Row{ChillMethod::whip, 0.20, 20, 25, 0.05, 2, 0.245, 0.255, -1, 6}}) {
    const Masses drink = testing::hundred_ml(row.strength, 8);
    const double film_g = row.wet_share * row.ice_g;
    const Chilled chilled =
        chill(row.method, drink, row.start_c, {.ice_g = row.ice_g - film_g, .surface_water_g = film_g},
              row.melt_rate, usual_time(row.method), 20);
    INFO("method " << static_cast<int>(row.method) << " dilution " << dilution(chilled.water_added_g, 100)
                   << " end " << chilled.end_c);
    CHECK(chilled.basis == Chilled::Basis::balance);
    CHECK(dilution(chilled.water_added_g, 100) > row.low);
    CHECK(dilution(chilled.water_added_g, 100) < row.high);
    CHECK(chilled.end_c > row.coldest);
    CHECK(chilled.end_c < row.warmest);
  }
}

TEST_CASE("whipped with a few pieces, all the ice melts", "[physics]") {
  const Chilled whipped = chill(ChillMethod::whip, testing::hundred_ml(0.2, 8), 20, {.ice_g = 25}, 2, 6, 20);
  CHECK(whipped.melt_g == 25);
  CHECK(whipped.ice_left_g == 0);
  CHECK(whipped.all_melted);
}

TEST_CASE("a blended drink keeps as slush what the heat cannot melt", "[physics]") {
  const Masses drink = testing::hundred_ml(0.15, 12);
  const Chilled blended = chill(ChillMethod::blend, drink, 20, {.ice_g = 120}, 2, 20, 20);
  CHECK(!blended.all_melted);
  CHECK(blended.melt_g + blended.ice_left_g == Approx(120));
  CHECK(blended.end_c < -3);  // common practice: −3 to −6 °C
  CHECK(blended.end_c > -6);
  const Chilled hot = chill(ChillMethod::blend, drink, 80, {.ice_g = 60}, 2, 20, 20);
  CHECK(hot.all_melted);
  CHECK(hot.melt_g == 60);
}

TEST_CASE("no drink ends below its freezing point, loses water, or melts more ice than there is",
          "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 5000; ++i) {
    const Case any = any_case(draws);
    const Chilled chilled = any.chilled();
    Masses diluted = any.drink;
    diluted[Component::water] += chilled.water_added_g;
    INFO("case " << i);
    CHECK(chilled.water_added_g >= 0);
    CHECK(chilled.ice_left_g >= -1e-9);
    // Ice and the water on it are all that there is: the one or the other.
    CHECK(chilled.water_added_g + chilled.ice_left_g == Approx(any.bath.ice_g + any.bath.surface_water_g));
    CHECK(chilled.end_c >= freezing_point_c(diluted) - 1e-9);
    CHECK(chilled.end_c <= std::max({any.start_c, any.room_c, any.bath.vessel_c}) + 1e-9);
  }
}

TEST_CASE("never more melts than the equilibrium allows, but for what the fit itself has at the usual time",
          "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 3000; ++i) {
    const Case any = any_case(draws);
    const Chilled chilled = any.chilled();
    double allowed = std::max(chilled.equilibrium_melt_g, 0.0);
    if (chilled.basis == Chilled::Basis::fit)
      allowed *= std::max(1.0, chilled.fit_dilution * volume_ml(any.drink) *
                                   ethanol_water::water_density_g_per_ml / chilled.reference_melt_g);
    CHECK(chilled.melt_g <= allowed + 1e-9);
  }
}

TEST_CASE("longer never melts less", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    double before = 0;
    for (const double times : {0.0, 0.1, 0.5, 0.9, 0.99, 1.0, 1.01, 1.1, 1.5, 3.0, 10.0, 100.0, 10000.0}) {
      any.time_s = times * usual_time(any.method);
      const Chilled chilled = any.chilled();
      const double melt = chilled.melt_g;
      // In a drink so cold, what froze on is never asked for more.
      if (chilled.equilibrium_melt_g < 0) continue;
      INFO("case " << i << " method " << static_cast<int>(any.method) << " at " << any.time_s);
      CHECK(melt >= before - 1e-6);
      before = melt;
    }
  }
}

TEST_CASE("ice that melts more readily never melts less", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    double before = 0;
    for (const double rate : {0.0, 0.2, 0.5, 0.9, 1.0, 1.1, 2.0, 5.0}) {
      any.melt_rate = rate;
      const Chilled chilled = any.chilled();
      const double melt = chilled.melt_g;
      if (chilled.equilibrium_melt_g < 0) continue;
      CHECK(melt >= before - 1e-9);
      before = melt;
    }
  }
}

TEST_CASE("colder ice never melts more and never leaves the drink warmer", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    any.time_s = std::max(any.time_s, usual_time(any.method));
    any.bath.surface_water_g = 0;
    double melt_before = 1e9;
    double end_before = 1e9;
    for (double celsius = 0; celsius >= -30; celsius -= 1.5) {
      any.bath.ice_c = celsius;
      const Chilled chilled = any.chilled();
      INFO("case " << i << " method " << static_cast<int>(any.method) << " ice at " << celsius);
      CHECK(chilled.water_added_g <= melt_before + 1e-6);
      CHECK(chilled.end_c <= end_before + 1e-6);
      melt_before = chilled.water_added_g;
      end_before = chilled.end_c;
    }
  }
}

TEST_CASE("more ice of a kind never leaves the drink warmer, until some lasts and beyond the fits' plenty",
          "[physics]") {
  // In between, what lasts of 0 °C ice is itself cooled by the drink, and the more of it the less cold the
  // drink. Where ice just suffices, a fit above the equilibrium dilutes a little further and so ends up to
  // 0.1 K warmer.
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    any.bath.surface_water_g = 0;
    const double allowance = any.method == ChillMethod::shake ? 0.1 : 0.005;
    const double ml = volume_ml(any.drink);
    double coldest_melting = 1e9, coldest_in_plenty = 1e9;
    for (double share = 0; share <= 8; share = share * 1.12 + 0.02) {
      any.bath.ice_g = share * ml;
      const Chilled chilled = any.chilled();
      INFO("case " << i << " method " << static_cast<int>(any.method) << " ice " << any.bath.ice_g << " at "
                   << any.bath.ice_c << " drink " << any.start_c);
      if (chilled.equilibrium_melt_g >= any.bath.ice_g) {
        CHECK(chilled.end_c <= coldest_melting + allowance);
        coldest_melting = std::min(coldest_melting, chilled.end_c);
      }
      if (share >= 3) {
        CHECK(chilled.end_c <= coldest_in_plenty + allowance);
        coldest_in_plenty = std::min(coldest_in_plenty, chilled.end_c);
      }
    }
  }
}

TEST_CASE("more ice at 0 °C never melts less", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    any.bath.ice_c = 0;
    const double ml = volume_ml(any.drink);
    double before = -1e9;
    for (double share = 0; share <= 8; share = share * 1.12 + 0.02) {
      any.bath.ice_g = share * ml;
      const double melt = any.chilled().melt_g;
      INFO("case " << i << " method " << static_cast<int>(any.method) << " ice " << any.bath.ice_g);
      CHECK(melt >= before - 1e-6);
      before = melt;
    }
  }
}

TEST_CASE("the colder the ice, the less of the water on it is liquid", "[physics]") {
  CHECK(surface_water_share(0.05, 0) == 0.05);
  CHECK(surface_water_share(0.05, 1) == 0.05);
  // A gram of ice takes 2.09 J to warm by 1 K, and a gram of water gives 333.55 J as it freezes.
  CHECK(surface_water_share(0.05, -4) == Approx(0.05 - 4 * 2.09 / 333.55));
  CHECK(surface_water_share(0.05, -8) == 0);
  CHECK(surface_water_share(0, 0) == 0);
}

TEST_CASE(
    "the water on bar ice is in the figures of a shake, and of wetter ice what is beyond it comes on top",
    "[physics]") {
  const Masses drink = testing::hundred_ml(0.25, 8);
  const auto added = [&](ChillMethod method, double wet_share) {
    const IceBath bath{.ice_g = 300 * (1 - wet_share), .surface_water_g = 300 * wet_share};
    return chill(method, drink, 20, bath, 1, usual_time(method), 20).water_added_g;
  };
  for (const ChillMethod method :
       {ChillMethod::shake, ChillMethod::stir, ChillMethod::throw_, ChillMethod::roll}) {
    INFO("method " << static_cast<int>(method));
    CHECK(added(method, 0.05) == added(method, 0));
    CHECK(added(method, 0.03) == added(method, 0));
    CHECK(added(method, 0.15) - added(method, 0.05) == Approx(30).margin(3));
  }
  const IceBath wet{.ice_g = 285, .surface_water_g = 15};
  CHECK(chill(ChillMethod::stir, drink, 20, wet, 1, 30, 20, {.in_glass = true}).water_added_g -
            added(ChillMethod::stir, 0) ==
        Approx(15).margin(1.5));
  for (const ChillMethod method : {ChillMethod::build, ChillMethod::swizzle, ChillMethod::churn})
    CHECK(added(method, 0.05) - added(method, 0) == Approx(15).margin(1));
}

TEST_CASE("a drink that stands long enough on its ice, in its glass, ends with all heat accounted for",
          "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    any.bath.heat_j = 0;
    any.bath.ice_g = draws.between(0.1, 3) * volume_ml(any.drink);
    const Chilled chilled = chill(ChillMethod::build, any.drink, any.start_c, any.bath, 1, 1e6, /*room_c=*/0);
    if (chilled.equilibrium_melt_g < -any.bath.surface_water_g) continue;
    Masses diluted = any.drink;
    diluted[Component::water] += chilled.water_added_g;
    const double before = liquid_enthalpy_j(any.drink, any.start_c) +
                          any.bath.ice_g * ice_enthalpy_j_per_g(any.bath.ice_c) +
                          any.bath.surface_water_g * water_at_0_c_enthalpy_j_per_g +
                          any.bath.vessel_j_per_k * any.bath.vessel_c;
    const double after = liquid_enthalpy_j(diluted, chilled.end_c) +
                         chilled.ice_left_g * ice_enthalpy_j_per_g(chilled.end_c) +
                         any.bath.vessel_j_per_k * chilled.end_c;
    INFO("case " << i << " ends at " << chilled.end_c);
    CHECK(after - before == Approx(0).margin(1e-9 * std::abs(before) + 1e-3));
  }
}

TEST_CASE("a fit's own case is the drink as it was poured: warmer by its heat of mixing", "[physics]") {
  const Masses drink = testing::hundred_ml(0.25, 8);
  const IceBath bath{.ice_g = 300};
  const Chilled poured = chill(ChillMethod::shake, drink, 23, bath, 1, 12, 20, {.start_c = 23});
  CHECK(dilution(poured.melt_g, volume_ml(drink)) == Approx(shaken_dilution(strength(drink))).epsilon(1e-9));
  const Chilled cold = chill(ChillMethod::shake, drink, 20, bath, 1, 12, 20);
  CHECK(poured.end_c > cold.end_c + 0.5);
  CHECK(chill(ChillMethod::shake, drink, 23, bath, 1, 12, 20).melt_g > poured.melt_g);
}

TEST_CASE("60 ml of 40 % rum with 60 g of ice melts 35 g of it, as much as its heat allows", "[physics]") {
  // By hand, with the tables named in tables.h; liquids are counted from 25 °C and unmixed, J. The rum is
  // 18.94 g of ethanol and 37.94 g of water (33.3 % by mass, 4.15 J/(g K) about 20 °C, heat of mixing
  // −35.6 J/g); with m = 34.8 g of melt it is 91.7 g at 20.7 % by mass (4.345 J/(g K) on the way to −11.5 °C,
  // −36.4 J/g), which freezes at −11.5 °C.
  //   before: rum 56.88 × (4.15 × (20 − 25) − 35.6) = −3205; melt 34.8 × (−104.9 − 333.55) = −15258
  //   after: 91.7 × (4.345 × (−11.5 − 25) − 36.4) = −17881; ice left 25.2 × 2.09 × (−11.5) = −606
  // −18463 and −18487: they close within 0.1 g of melt.
  Masses rum;
  rum[Component::ethanol] = 18.94;
  rum[Component::water] = 37.94;
  const Chilled whipped = chill(ChillMethod::whip, rum, 20, {.ice_g = 60}, 2, 6, 20);
  CHECK(whipped.melt_g == Approx(34.8).margin(0.3));
  CHECK(whipped.end_c == Approx(-11.5).margin(0.2));
}

TEST_CASE("whipped and blended drinks melt what the plain balance has, where ice is not in plenty",
          "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    any.bath.ice_g = draws.between(0, 3) * volume_ml(any.drink);
    any.bath.surface_water_g = 0;
    const IceBalance plain = testing::equilibrium(any.drink, any.start_c, any.bath);
    for (const ChillMethod method : {ChillMethod::whip, ChillMethod::blend}) {
      const Chilled chilled =
          chill(method, any.drink, any.start_c, any.bath, any.melt_rate, any.time_s, /*room_c=*/0);
      INFO("case " << i);
      CHECK(chilled.melt_g == Approx(std::max(plain.melt_g, 0.0)).epsilon(1e-9));
      if (plain.melt_g > 0) CHECK(chilled.end_c == Approx(plain.end_c).margin(1e-4));
    }
  }
}

TEST_CASE("a warmer drink never melts less", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 500; ++i) {
    Case any = any_case(draws);
    double before = -1e9;
    for (double celsius = -18; celsius <= 90; celsius += 4) {
      any.start_c = celsius;
      const double melt = any.chilled().melt_g;
      CHECK(melt >= before - 1e-6);
      before = melt;
    }
  }
}

TEST_CASE("chilling has no jumps: a small step of any input moves melt and temperature little", "[physics]") {
  testing::Draws draws;
  for (int i = 0; i < 1500; ++i) {
    const Case base = any_case(draws);
    const Chilled a = base.chilled();
    const double scale = a.melt_g + 0.1 * (base.drink.total() + base.bath.ice_g);
    // 0.1 % of an input moves a result by 0.2 % of its scale at most; a millionth, by two millionths and the
    // solver's last digits.
    for (const double step : {1e-3, 1e-6}) {
      const auto check_near = [&](const Case& moved) {
        const Chilled b = moved.chilled();
        INFO("method " << static_cast<int>(base.method) << " melt " << a.melt_g << " to " << b.melt_g
                       << ", end " << a.end_c << " to " << b.end_c << " by a step of " << step);
        CHECK(std::abs(a.melt_g - b.melt_g) < 2 * step * scale + 2e-6);
        CHECK(std::abs(a.end_c - b.end_c) < 2 * step * 40 + 2e-6);
      };
      Case moved = base;
      moved.time_s *= 1 + step;
      check_near(moved);
      moved = base;
      moved.melt_rate *= 1 + step;
      check_near(moved);
      moved = base;
      moved.bath.ice_g *= 1 + step;
      check_near(moved);
      moved = base;
      moved.bath.ice_c *= 1 + step;
      check_near(moved);
      moved = base;
      moved.start_c *= 1 + step;
      check_near(moved);
      moved = base;
      moved.room_c *= 1 + step;
      check_near(moved);
      moved = base;
      moved.drink[Component::ethanol] *= 1 + step;
      check_near(moved);
      moved = base;
      moved.drink[Component::sugar] *= 1 + step;
      check_near(moved);
      moved = base;
      moved.drink *= 1 + step;
      check_near(moved);
    }
  }
}

TEST_CASE("the ends of the fits' range are crossed without a jump", "[physics]") {
  for (const double a : {0.10, 0.50})
    for (const ChillMethod method : {ChillMethod::shake, ChillMethod::stir}) {
      const double below = usual(method, testing::hundred_ml(a - 1e-6, 5)).melt_g;
      const double above = usual(method, testing::hundred_ml(a + 1e-6, 5)).melt_g;
      CHECK(below == Approx(above).epsilon(1e-4));
    }
  CHECK(usual(ChillMethod::shake, testing::hundred_ml(0.05, 5)).strength_clamped);
  CHECK(!usual(ChillMethod::shake, testing::hundred_ml(0.25, 5)).strength_clamped);
}

TEST_CASE("drinks outside the range of the fits follow the balance from its edge", "[physics]") {
  const double soft = dilution(usual(ChillMethod::shake, testing::hundred_ml(0, 9)).melt_g, 100);
  CHECK(soft < shaken_dilution(0.10));
  CHECK(soft > 0.2);
  const double strong = dilution(usual(ChillMethod::shake, testing::hundred_ml(0.75, 0)).melt_g, 100);
  CHECK(strong > shaken_dilution(0.50));
  CHECK(strong < 1.3);
}

TEST_CASE("no ice, no time and no drink leave things as they were", "[physics]") {
  const Masses drink = testing::hundred_ml(0.25, 8);
  for (const ChillMethod method : every_method) {
    const Chilled dry = chill(method, drink, 20, {}, 1, usual_time(method), 20);
    CHECK(dry.melt_g == 0);
    CHECK(dry.end_c == Approx(20).margin(0.1));
    CHECK(dry.all_melted);
    const Chilled nothing = chill(method, Masses{}, 20, {.ice_g = 100}, 1, 10, 20);
    CHECK(nothing.melt_g == 0);
    CHECK(nothing.end_c == 20);
    CHECK(nothing.ice_left_g == 100);
  }
  const Chilled untouched = chill(ChillMethod::shake, drink, 20, {.ice_g = 300, .ice_c = -10}, 1, 0, 20);
  CHECK(untouched.melt_g == 0);
  CHECK(untouched.end_c == Approx(20).margin(0.2));
}

TEST_CASE("a hot room melts a little more, and no drink gets warmer than room, vessel and start",
          "[physics]") {
  const Masses drink = testing::hundred_ml(0.25, 8);
  const IceBath bath{.ice_g = 150};
  CHECK(chill(ChillMethod::build, drink, 20, bath, 1, 60, 35).melt_g >
        chill(ChillMethod::build, drink, 20, bath, 1, 60, 15).melt_g);
  CHECK(chill(ChillMethod::shake, drink, 20, bath, 1, 12, 35).melt_g ==
        Approx(chill(ChillMethod::shake, drink, 20, bath, 1, 12, 20).melt_g).epsilon(0.01));
  const Chilled forgotten = chill(ChillMethod::build, drink, 5, {.ice_g = 40}, 1, 1e6, 22);
  CHECK(forgotten.end_c <= 22);
  CHECK(forgotten.all_melted);
}

TEST_CASE("strange numbers give finite answers", "[physics]") {
  const Masses drink = testing::hundred_ml(0.95, 0);
  for (const ChillMethod method : every_method)
    for (const double start_c : {-60.0, 0.0, 100.0})
      for (const double ice_g : {0.0, 1.0, 1e5}) {
        const Chilled chilled = chill(method, drink, start_c, {.ice_g = ice_g, .ice_c = -40}, 100, 1e9, 45);
        CHECK(std::isfinite(chilled.melt_g));
        CHECK(std::isfinite(chilled.end_c));
        CHECK(chilled.melt_g <= ice_g);
      }
}

TEST_CASE("a blender and a whip are at their end at once, however short they run", "[physics]") {
  // The blades and the pebbles leave no ice that has not met the drink; a built drink is on its way still.
  const Masses drink = testing::hundred_ml(0.2, 8);
  const IceBath bath{.ice_g = 40};
  for (auto method : {ChillMethod::blend, ChillMethod::whip}) {
    const Chilled brief = chill(method, drink, 20, bath, 1, 1, 20);
    CHECK(brief.time_share == 1);
    CHECK(brief.melt_g == Approx(brief.equilibrium_melt_g));
  }
  CHECK(chill(ChillMethod::build, drink, 20, bath, 1, 1, 20).time_share < 0.1);
}

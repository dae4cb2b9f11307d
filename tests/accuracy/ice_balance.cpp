#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "accuracy/table.h"
#include "model/physics/dilution.h"
#include "model/physics/volume.h"
#include "unit/physics/published_table.h"

using namespace gill;
using namespace gill::accuracy;
using model::Component;
using model::testing::PublishedTable;

TEST_CASE("ice and drink come to the balance worked out by hand", "[accuracy]") {
  // Worked out in another program from the heats and freezing points of the CRC Handbook of Chemistry and
  // Physics, the International Institute of Refrigeration and J. Chem. Thermodynamics 7 (1975), Academic
  // Press.
  const PublishedTable published("ice_balance.csv");
  constexpr std::string_view title = "Heat balance of published tables (CRC, IIR, J. Chem. Thermodynamics 7)";
  Table melt({"ice_balance-melt", title, "ice melted by a drink", "g"}, within(0.15));
  Table end({"ice_balance-temperature", title, "temperature of drink and ice", "C"}, within(0.05));
  Table strength({"ice_balance-strength", title, "strength of the diluted drink", "% vol"}, within(0.03));
  for (std::size_t row = 0; row < published.size(); ++row) {
    const auto number = [&](std::string_view column) { return published.number(row, column); };
    model::Masses drink;
    drink[Component::ethanol] = number("ethanol_g");
    drink[Component::water] = number("water_g");
    drink[Component::sugar] = number("sugar_g");
    const model::IceBath bath{.ice_g = number("ice_g"),
                              .ice_c = number("ice_T_C"),
                              .surface_water_g = number("surface_water_g"),
                              .vessel_j_per_k = number("vessel_J_K"),
                              .vessel_c = number("T0_C"),
                              .heat_j = number("heat_J")};
    // As a drink goes through it: built, and left until nothing changes, in a room that gives no heat.
    const model::Chilled got =
        model::chill(model::ChillMethod::build, drink, number("T0_C"), bath, 1, 1e6, /*room_c=*/0);
    const std::string label = fmt::format(
        "{:2.0f} % vol, {:2.0f} g sugar, {:2.0f} °C; {:3.0f} g ice at {:3.0f} °C, {} g wet, {:3.0f} J/K, "
        "{:3.0f} J",
        number("start_vol_pct"), number("start_sugar_g_100mL"), number("T0_C"), bath.ice_g, bath.ice_c,
        bath.surface_water_g, bath.vessel_j_per_k, bath.heat_j);
    melt.add(label, number("melt_g"), got.melt_g);
    end.add(label, number("T_end_C"), got.end_c);
    drink[Component::water] += got.melt_g + bath.surface_water_g;
    strength.add(label, number("end_vol_pct"), 100 * model::strength(drink));
  }
  melt.check();
  end.check();
  strength.check();
}

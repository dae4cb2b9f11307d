#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// Poured hotter than this it is still above 65 °C, "very hot" in the words of the International Agency for
// Research on Cancer (2016, from memory), at the first sip. Common practice, no source, for the pour.
constexpr double scalding_from_c = 70;

}  // namespace

void hot_serve(const DrinkCase& drink, Reporter& report) {
  double temperature = drink.facts.served.temperature_c;
  if (drink.facts.entries.empty() || temperature < scalding_from_c) return;
  report.add(drink.name_span(), fmt::format("it is served at about {:.0f} C", temperature),
             "That scalds a hurried guest, and a straw makes it worse. 60 to 65 C is a usual first sip: "
             "cooler water, or a rest. A trained "
             "person decides (International Agency for Research on Cancer, 2016: drinks above 65 C count as "
             "very hot).");
}

}  // namespace gill::lint

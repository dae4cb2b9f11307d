#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <map>

#include "accuracy/table.h"
#include "model/physics/volume.h"
#include "unit/physics/published_table.h"

// CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press, "Concentrative properties of aqueous
// solutions". One volume a gram serves for an acid at all strengths, and other sugars are reckoned as
// sucrose; so the rows that a drink can reach are compared: acids to 20 % by mass, glucose, fructose and
// maltose to 30 %.

using namespace gill;
using namespace gill::accuracy;
using model::Component;
using model::testing::PublishedTable;

TEST_CASE("compared with the CRC table, solutions of acids and of other sugars part by 3 g in a litre",
          "[accuracy]") {
  // A comparison: the model gives every acid one volume and every sugar that of sucrose, and no source says
  // how far that parts from the measured densities. The limits are the differences found and a little, so
  // that it is told when they grow.
  const PublishedTable published("solute_density.csv");
  constexpr std::string_view title = "CRC Handbook of Chemistry and Physics, 102nd edition, CRC Press";
  Table acids({"crc_solution_densities-acids", title, "density of acids in water, to 20 % by mass", "g/ml"},
              within(0.0025));
  Table sugars(
      {"crc_solution_densities-sugars", title, "density of other sugars taken as sucrose, to 30 %", "g/ml"},
      within(0.003));
  const std::map<std::string, Component> components{{"citric acid", Component::citric},
                                                    {"lactic acid", Component::lactic},
                                                    {"phosphoric acid", Component::phosphoric},
                                                    {"acetic acid", Component::acetic},
                                                    {"glucose", Component::sugar},
                                                    {"fructose", Component::sugar},
                                                    {"maltose", Component::sugar}};
  for (std::size_t row = 0; row < published.size(); ++row) {
    const std::string& solute = published.text(row, "solute");
    const auto component = components.find(solute);
    if (component == components.end()) continue;
    const bool is_sugar = component->second == Component::sugar;
    const double percent = published.number(row, "mass_percent");
    if (percent > (is_sugar ? 30 : 20)) continue;
    model::Masses solution;
    solution[component->second] = percent;
    solution[Component::water] = 100 - percent;
    (is_sugar ? sugars : acids)
        .add(fmt::format("{:2.0f} % {} by mass", percent, solute), published.number(row, "density_g_per_ml"),
             model::density_g_per_ml(solution));
  }
  acids.check();
  sugars.check();
}

#include <fmt/format.h>

#include "lint/hazards.h"
#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// Toxic signs are told of from about 5 g of nutmeg; 2 g in a serve is the line (poison-centre literature,
// from memory).
constexpr double max_nutmeg_g = 2;

}  // namespace

void restricted_ingredient(const DrinkCase& drink, Reporter& report) {
  report_hazards(diagnostics::Rule::restricted_ingredient, drink, report);
  for (const auto& entry : drink.facts.entries) {
    const auto& name = drink.house.specs[entry.use.stock].head.name;
    bool is_nutmeg = name.find("nutmeg") != std::string::npos || name == "mace";
    if (!is_nutmeg || drink.house.specs[entry.use.stock].kind != analysis::StockKind::spice ||
        entry.mass_g.value_or(0) <= max_nutmeg_g)
      continue;
    // A whole nut to grate from is not what goes in.
    if (entry.role != model::Role::amount) continue;
    report.add(drink.span_of_amount(entry.index),
               fmt::format("{:.2g} g of `{}` in a serve is a dose, not a spice", *entry.mass_g, name),
               fmt::format("Grate a pinch over the top: signs of poisoning are told of from about 5 g "
                           "(poison-centre literature, from memory). {}",
                           who_decides));
  }
}

void restricted_ingredient(const PrepCase& prep, Reporter& report) {
  report_hazards(diagnostics::Rule::restricted_ingredient, prep, report);
}

}  // namespace gill::lint

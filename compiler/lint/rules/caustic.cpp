#include <fmt/format.h>

#include "base/percent.h"
#include "lint/hazards.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/acid.h"

namespace gill::lint {

namespace {

// Lactic and acetic acid from about here on, g in one g, burn skin (hazard classes of the labels, from
// memory).
constexpr double burning_acid = 0.25;
// A serve with more than this, g citric equivalents in 100 ml, is sharper than any juice. From memory.
constexpr double burning_serve = 2;

template <typename Case>
void check_strong_acids(const Case& build, Reporter& report) {
  for (const auto& entry : build.facts.entries) {
    const auto& stock = build.house.specs[entry.use.stock];
    const auto& per_gram = build.house.facts[entry.use.stock].composition.per_gram;
    if (stock.effective_form() != analysis::Form::liquid || per_gram.all_acids() < burning_acid) continue;
    report.add(entry.role == model::Role::amount ? build.span_of_amount(entry.index)
                                                 : build.span_of_step(entry.index),
               fmt::format("`{}` is {:.0f} % acid by weight, which burns skin and eyes", entry.name,
                           base::percent_of_share(per_gram.all_acids())),
               fmt::format("Gloves and goggles, acid into water and never water into acid; dilute it before "
                           "it comes to the well, and label it. {} "
                           "(Source: hazard classes of the labels, from memory.)",
                           who_decides));
  }
}

/// Acid in the serve, g citric equivalents in 100 ml. Whole fruit is reckoned as if all of it were pressed
/// out, and is left aside.
double poured_acid(const DrinkCase& drink) {
  double from_fruit_g = 0;
  for (const auto& entry : drink.facts.entries)
    if (drink.house.specs[entry.use.stock].kind == analysis::StockKind::fruit &&
        entry.role == model::Role::amount)
      from_fruit_g += model::citric_equivalents_g(drink.house.facts[entry.use.stock].composition.per_gram) *
                      entry.mass_g.value_or(0);
  const auto& served = drink.facts.served;
  return served.volume_ml > 0 ? served.acid_g_per_100ml - base::per_100_ml(from_fruit_g / served.volume_ml)
                              : 0;
}

}  // namespace

void caustic(const DrinkCase& drink, Reporter& report) {
  report_hazards(diagnostics::Rule::caustic, drink, report);
  check_strong_acids(drink, report);
  double acid = poured_acid(drink);
  // A line that was refused may be what dilutes it.
  if (acid <= burning_serve || drink.drink.head.has_amount_errors) return;
  report.add(
      drink.name_span(), fmt::format("a serve holds {:.2g} g/100 ml of acid: no drink is that sharp", acid),
      fmt::format("Check the amounts and their units: this hurts teeth and throat. {} (Source: from memory.)",
                  who_decides));
}

void caustic(const PrepCase& prep, Reporter& report) {
  report_hazards(diagnostics::Rule::caustic, prep, report);
  check_strong_acids(prep, report);
}

}  // namespace gill::lint

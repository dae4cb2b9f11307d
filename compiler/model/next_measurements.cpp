#include "model/next_measurements.h"

#include <algorithm>
#include <cmath>

#include "model/constants.h"
#include "model/program_builder.h"
#include "model/serving_ice.h"

namespace gill::model {

namespace {

// One drink beside the next of the same hands, as a share of the melt: what one more measurement is good for.
// Common practice, no source.
constexpr double one_bar_scatter = 0.05;

struct MeltingDrink {
  analysis::DrinkId drink;
  ChillMethod method;
  double strength_by_factor = 0;  ///< % abv for a factor of one more
  double measured_to = 0;         ///< what one measurement of this drink tells of its factor, ±
};

std::optional<double> melt_effect(const DrinkFacts& drink) {
  for (const auto& influence : drink.influences)
    if (influence.cause.kind == Cause::Kind::melt && influence.width > 0)
      return influence.effect.abv_percent / influence.width;
  return std::nullopt;
}

std::vector<MeltingDrink> drinks_that_melt(const analysis::Specs& specs, const units::UnitTable& units,
                                           const HouseFacts& facts) {
  diagnostics::DiagnosticSink unheard;
  ProgramBuilder builder(specs, units, facts.stock, unheard);
  std::vector<MeltingDrink> known;
  for (const auto& drink : facts.drinks) {
    const auto& declared = specs[drink.drink];
    if (declared.head.from_library || !drink.valid || declared.status == analysis::Status::retired) continue;
    // Nobody weighs a bowl.
    auto effect = declared.serves > 1 ? std::nullopt : melt_effect(drink);
    if (!effect) continue;
    BuiltProgram built = builder.build(declared);
    auto chill = first_melt(built.program);
    if (!chill) continue;
    ChillMethod method = built.program.operations[*chill].as<operation::Chill>()->method;
    double melt_g = drink.trace[*chill].melt_g;
    double after_g = drink.trace[*chill].after.masses.liquid();
    if (!(melt_g > 1)) continue;
    double error_g = std::hypot(scale_error_g, scale_error_g * after_g / std::max(after_g - melt_g, 1.0));
    known.push_back({drink.drink, method, std::abs(*effect), std::hypot(error_g / melt_g, one_bar_scatter)});
  }
  return known;
}

/// How unsure the factor of each way of chilling is, as squares.
using MeltVariances = std::array<double, chill_method_count>;

MeltVariances variances_of(const std::vector<CalibrationFinding>& findings) {
  MeltVariances variance;
  variance.fill(melt_share * melt_share);
  for (const auto& finding : findings)
    if (finding.what == CalibrationFinding::What::melt) {
      double& of = variance[index_of(finding.method)];
      of = std::min(finding.error * finding.error, of);
    }
  return variance;
}

MeltVariances after_one_more(MeltVariances variance, const MeltingDrink& drink) {
  double& of = variance[index_of(drink.method)];
  of = 1 / (1 / of + 1 / (drink.measured_to * drink.measured_to));
  return variance;
}

/// Of the strength of all the drinks together: the root of the mean square, % abv.
double doubt_of(const std::vector<MeltingDrink>& drinks, const MeltVariances& variance) {
  double sum = 0;
  for (const auto& drink : drinks)
    sum += drink.strength_by_factor * drink.strength_by_factor * variance[index_of(drink.method)];
  return std::sqrt(sum / static_cast<double>(drinks.size()));
}

}  // namespace

std::vector<NextMeasurement> next_measurements(const analysis::Specs& specs, const units::UnitTable& units,
                                               const HouseFacts& facts,
                                               const std::vector<CalibrationFinding>& findings) {
  constexpr std::size_t wanted = 2;
  const auto drinks = drinks_that_melt(specs, units, facts);
  std::vector<NextMeasurement> next;
  if (drinks.empty()) return next;
  MeltVariances variance = variances_of(findings);
  while (next.size() < wanted) {
    const double before = doubt_of(drinks, variance);
    double best = before;
    const MeltingDrink* chosen = nullptr;
    for (const auto& drink : drinks) {
      if (std::any_of(next.begin(), next.end(), [&](const auto& one) { return one.drink == drink.drink; }))
        continue;
      if (double then = doubt_of(drinks, after_one_more(variance, drink)); then < best)
        best = then, chosen = &drink;
    }
    if (!chosen) break;
    variance = after_one_more(variance, *chosen);
    next.push_back({chosen->drink, chosen->method, before, best});
  }
  return next;
}

}  // namespace gill::model

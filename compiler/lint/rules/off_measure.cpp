#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/any_of.h"
#include "base/text.h"
#include "lint/rules.h"
#include "model/trial_drink.h"

namespace gill::lint {

namespace {

// A jigger's line is good to this share: an ounce of 29.57 ml is poured with one of 30. Common practice, no
// source.
constexpr double same_measure_share = 0.03;

/// Strong or sweet enough that it is measured however much there is of it; anything else beyond two measures
/// is poured from its bottle, a jug or a tap.
bool is_always_measured(const analysis::Stock& stock) {
  using analysis::StockKind;
  return base::is_any_of(
      stock.kind, {StockKind::spirit, StockKind::liqueur, StockKind::fortified_wine, StockKind::bitters,
                   StockKind::syrup, StockKind::sweetener, StockKind::acid});
}

double nearest(const std::vector<double>& pourable, double volume) {
  return *std::min_element(pourable.begin(), pourable.end(),
                           [&](double a, double b) { return std::abs(a - volume) < std::abs(b - volume); });
}

/// `30 ml`, or `30 ml and 2.5 ml`: the jiggers that make it.
std::string jiggers(const analysis::House& house, double volume) {
  for (const auto& first : house.measures)
    if (std::abs(first.number() - volume) < 1e-6) return fmt::format("{:.4g} ml", volume);
  for (const auto& first : house.measures)
    for (const auto& second : house.measures)
      if (std::abs(first.number() + second.number() - volume) < 1e-6)
        return fmt::format("{:.4g} ml ({:.4g} and {:.4g})", volume, first.number(), second.number());
  return fmt::format("{:.4g} ml", volume);
}

/// What is less than half the smallest jigger is dashed or spooned: how many of them it is.
std::string small_amount(const units::UnitTable& units, double volume, double smallest) {
  std::vector<std::string> ways;
  for (std::string_view name : {"dash", "barspoon"}) {
    auto id = units.find(name);
    if (!id.valid() || units[id].kind != units::Kind::volume) continue;
    double one_ml = base::to_double(units[id].factor);
    if (volume >= one_ml / 4)
      ways.push_back(fmt::format("{} (one is {:.2g} ml)",
                                 units::with_unit(fmt::format("{:.2g}", volume / one_ml), units[id], false),
                                 one_ml));
  }
  return fmt::format("The smallest measure is {:.4g} ml. By hand it is about {}.", smallest,
                     ways.empty() ? "a few drops" : base::join_with_or(ways));
}

/// What the other amount does to the drink, in the figures that it moves.
std::string effect(const model::Figures& before, const model::Figures& after) {
  std::vector<std::string> words;
  auto add = [&](std::string_view name, double was, double is, int places, std::string_view unit) {
    if (fmt::format("{:.{}f}", was, places) != fmt::format("{:.{}f}", is, places))
      words.push_back(fmt::format("{} from {:.{}f} to {:.{}f}{}", name, was, places, is, places, unit));
  };
  add("strength", before.abv_percent, after.abv_percent, 1, " % abv");
  add("sugar", before.sugar_g_per_100ml, after.sugar_g_per_100ml, 1, " g/100 ml");
  add("acid", before.acid_g_per_100ml, after.acid_g_per_100ml, 2, " g/100 ml");
  return words.empty() ? "nobody would taste it" : "it moves " + base::join_with_and(words);
}

}  // namespace

void off_measure(const DrinkCase& drink, Reporter& report) {
  const auto& house = drink.house.specs.house;
  // A bowl is filled from jugs.
  if (house.measures.empty() || drink.drink.serves > 1) return;
  auto pourable = model::pourable_ml(house);
  model::TrialDrink trial(drink.house.specs, drink.house.units, drink.house.facts, drink.facts.drink);
  for (const auto& line : drink.drink.recipe.order) {
    if (!line.is_amount || !trial.is_jiggered(line.index)) continue;
    const auto& amount = drink.drink.recipe.amounts[line.index];
    double volume = trial.millilitres(line.index);
    if (volume <= 0 ||
        (volume > pourable.back() && !is_always_measured(drink.house.specs[amount.use().stock])))
      continue;
    // What is so much that nobody pours it is told as such.
    if (volume > 3 * pourable.back()) continue;
    double near = nearest(pourable, volume);
    double width = std::max(same_measure_share * volume, amount.quantity.tolerance.value_or(0));
    if (std::abs(near - volume) <= width) continue;
    std::string message =
        fmt::format("{:.4g} ml of `{}` is neither one of the house's measures nor two together", volume,
                    drink.house.specs[amount.use().stock].head.name);
    if (volume < pourable.front() / 2) {
      report.add(drink.span_of_amount(line.index), message,
                 small_amount(drink.house.units, volume, pourable.front()));
      continue;
    }
    auto before = trial.served().figures;
    trial.set_millilitres(line.index, near);
    auto after = trial.served().figures;
    trial.set_millilitres(line.index, volume);
    report.add(drink.span_of_amount(line.index), message,
               fmt::format("The nearest that can be poured is {}; {}.", jiggers(house, near),
                           effect(before, after)));
  }
}

}  // namespace gill::lint

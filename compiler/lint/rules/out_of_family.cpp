#include <fmt/format.h>

#include <cmath>

#include "base/percent.h"
#include "base/text.h"
#include "lint/rules.h"
#include "model/figures_table.h"
#include "model/physics/acid.h"

namespace gill::lint {

namespace {

using model::Component;
using model::TuneProperty;
using model::TuneTarget;

// Outside by more than this share of the band's width is far. House rule of the balance table.
constexpr double far_share = 0.25;
// A jigger is good to this share of what it pours, and so is what follows from it. Common practice, no source
// (1 to 1.5 ml of 60).
constexpr double pour_error_share = 0.02;
// More changes than two are a new recipe.
constexpr std::size_t max_changes = 2;

/// One property of the drink against its family's range, in the units of `Figures`.
struct Judgement {
  TuneProperty property;
  double value, tolerance;
  TuneTarget range;
  std::string unit;
  std::string_view low_words, high_words;

  bool below() const { return value + std::max(tolerance, pour_error_share * range.low) < range.low; }
  bool above() const { return value - std::max(tolerance, pour_error_share * range.high) > range.high; }
  bool outside() const { return below() || above(); }

  double width() const {
    if (std::isfinite(range.low) && std::isfinite(range.high)) return range.high - range.low;
    return std::max(std::abs(std::isfinite(range.low) ? range.low : range.high), 1.0);
  }
  bool far() const { return (below() ? range.low - value : value - range.high) > far_share * width(); }

  std::string range_words() const {
    if (std::isfinite(range.low) && std::isfinite(range.high))
      return fmt::format("{:.3g} to {:.3g}{}", range.low, range.high, unit);
    return std::isfinite(range.low) ? fmt::format("at least {:.3g}{}", range.low, unit)
                                    : fmt::format("at most {:.3g}{}", range.high, unit);
  }
};

std::vector<Judgement> judgements(const DrinkCase& drink, const analysis::Family& family) {
  std::vector<Judgement> result;
  for (auto property : model::tune_properties()) {
    const auto& figure = model::figure_of(property);
    auto range = model::family_range(family, property);
    auto value = model::value_of(figure, drink.facts);
    if (!range || !value) continue;
    result.push_back({property, *value, model::written_tolerance_of(figure, drink.facts), *range,
                      model::unit_behind(figure.row), figure.low_words, figure.high_words});
  }
  return result;
}

/// Grams (or ml) that an entry brings of what the property is about.
double share_of(const DrinkCase& drink, const model::Entry& entry, TuneProperty property) {
  auto masses = drink.house.facts[entry.use.stock].composition.per_gram * entry.mass_g.value_or(0);
  switch (property) {
    case TuneProperty::strength:
      return masses[Component::ethanol];
    case TuneProperty::sugar:
    case TuneProperty::balance:
      return masses[Component::sugar];
    case TuneProperty::acid:
      return model::citric_equivalents_g(masses);
    case TuneProperty::volume:
      return entry.volume_ml.value_or(0);
  }
  return 0;
}

/// What in the drink makes the property what it is: its largest source, or that it has none.
std::string cause(const DrinkCase& drink, const Judgement& it) {
  const model::Entry* largest = nullptr;
  double maximum = 0, all = 0;
  // A drink that is sour for its sugar is so by what brings the acid.
  auto property = it.property == TuneProperty::balance && it.below() ? TuneProperty::acid : it.property;
  for (const auto& entry : drink.facts.entries) {
    bool drunk = entry.role != model::Role::garnish && entry.role != model::Role::side &&
                 entry.role != model::Role::rim;
    if (entry.optional || !drunk) continue;
    double share = share_of(drink, entry, property);
    all += share;
    if (share > maximum) maximum = share, largest = &entry;
  }
  std::string_view noun = property == TuneProperty::strength ? "alcohol"
                          : property == TuneProperty::acid   ? "acid"
                          : property == TuneProperty::volume ? "volume before the ice"
                                                             : "sugar";
  if (!largest || all <= 0) return fmt::format("Nothing in it brings any {}. ", noun);
  std::string melt = property == TuneProperty::volume || (property == TuneProperty::strength && it.below())
                         ? fmt::format(" The ice adds {:.0f} % of water.", drink.facts.dilution_percent)
                         : std::string();
  return fmt::format("{:.0f} % of its {} comes with `{}` ({}).{} ", base::percent_of_share(maximum / all),
                     noun, largest->name, largest->as_written.empty() ? "worked out" : largest->as_written,
                     melt);
}

/// So many ml in the unit in which the amount was written, where that is a fraction that a jigger has; else
/// in ml.
std::string written_as(const DrinkCase& drink, const units::Quantity& was, double ml) {
  constexpr double largest_divisor = 8, exact_enough = 1e-6;
  if (was.kind == units::Kind::volume && was.unit.valid()) {
    const auto& unit = drink.house.units[was.unit];
    double number = ml / base::to_double(unit.factor);
    for (double divisor = 1; divisor <= largest_divisor; ++divisor)
      if (double parts = std::round(number * divisor); std::abs(parts - number * divisor) < exact_enough) {
        base::Exact share(static_cast<long long>(parts), static_cast<long long>(divisor));
        bool is_metric = unit.symbol == "ml" || unit.symbol == "cl" || unit.symbol == "l";
        auto digits = is_metric ? fmt::format("{:.4g}", number) : base::to_fraction(share);
        return units::with_unit(digits, unit, number <= 1);
      }
  }
  return fmt::format("{:.4g} ml", ml);
}

/// The edits that make the change, where all its amounts stand in the drink's own lines.
std::optional<diagnostics::Fix> edits_of(const DrinkCase& drink, const model::Tuned& tuned) {
  diagnostics::Fix made;
  for (const auto& change : tuned.amounts) {
    const auto& was = drink.recipe.amounts[change.amount_index];
    bool is_own = std::any_of(drink.recipe.order.begin(), drink.recipe.order.end(), [&](const auto& line) {
      return line.is_amount && line.index == change.amount_index && !line.inherited;
    });
    if (!is_own || was.second || was.form != analysis::Amount::Form::measured || drink.facts.serves != 1)
      return std::nullopt;
    made.edits.push_back({was.quantity.span, written_as(drink, was.quantity, change.new_ml)});
  }
  return made;
}

/// A change in words and, where it can be put into the text, as edits.
struct Change {
  std::string words;
  std::optional<diagnostics::Fix> fix;
};

/// The smallest change in measures the house can pour that brings the whole drink in.
Change smallest_change(const DrinkCase& drink, const std::vector<Judgement>& all) {
  model::TuneRequest request;
  request.drink = drink.facts.drink;
  request.max_changes = max_changes;
  for (const auto& it : all) {
    // What is within its range but for the tolerance may stay where it is.
    TuneTarget target = it.range;
    if (!it.outside()) target = {std::min(target.low, it.value), std::max(target.high, it.value)};
    request[it.property] = target;
  }
  auto tuned = model::tune(drink.house.specs, drink.house.units, drink.house.facts, request);
  if (tuned.amounts.empty() || !tuned.unmet.empty())
    return {
        "No change of one or two amounts the house can pour brings it in: look at the method, the ice and "
        "the glass.",
        std::nullopt};
  std::vector<std::string> words, figures;
  for (const auto& change : tuned.amounts)
    words.push_back(fmt::format("{:.4g} ml of `{}` in place of {:.4g} ml", change.new_ml,
                                drink.house.specs[change.stock].head.name, change.old_ml));
  for (const auto& it : all) {
    auto reached = model::figure_of(tuned.reached, it.property);
    if (it.outside() && reached)
      figures.push_back(fmt::format("{} to {:.3g}{}", model::name_of(it.property), *reached, it.unit));
  }
  return {fmt::format("The smallest change that brings it in: {}. That brings {}.",
                      base::join_with_and(words), base::join_with_and(figures)),
          edits_of(drink, tuned)};
}

}  // namespace

void out_of_family(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.family.valid() || drink.facts.entries.empty()) return;
  const auto& family = drink.house.specs[drink.drink.family];
  auto all = judgements(drink, family);
  std::optional<Change> change;
  for (const auto& it : all) {
    if (!it.outside()) continue;
    if (!change) change = smallest_change(drink, all);
    auto& finding =
        report.add(drink.name_span(),
                   fmt::format("{} for its family, `{}`: its {} is {:.3g}{}, and the family's is {}",
                               it.below() ? it.low_words : it.high_words, family.head.name,
                               model::name_of(it.property), it.value, it.unit, it.range_words()),
                   fmt::format("{}{} Or choose another family, or allow it with a reason.", cause(drink, it),
                               change->words));
    finding.fix = change->fix;
    if (it.far()) finding.severity = diagnostics::Severity::warning;
  }
}

}  // namespace gill::lint

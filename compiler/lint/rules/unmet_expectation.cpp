#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "lint/rules.h"
#include "model/allergen_words.h"
#include "model/figures_table.h"
#include "model/money.h"
#include "model/origin.h"

namespace gill::lint {

namespace {

using analysis::Expect;
using analysis::Property;

/// A value in the same base unit as the expectation's range, with how it is printed.
struct Value {
  std::optional<double> value;
  double print_scale = 1;
  std::string unit;
  /// Half the width within which labels, juices and loose units let it lie.
  double tolerance = 0;
};

std::string range_text(const Expect& expect, const Value& value) {
  double low = expect.range.low * value.print_scale, high = expect.range.high * value.print_scale;
  if (!std::isfinite(low)) return fmt::format("at most {:.4g}{}", high, value.unit);
  if (!std::isfinite(high)) return fmt::format("at least {:.4g}{}", low, value.unit);
  if (!expect.range.is_range) return fmt::format("{:.4g}{}", low, value.unit);
  return fmt::format("{:.4g} to {:.4g}{}", low, high, value.unit);
}

void judge_range(const Expect& expect, const Value& value, Reporter& report) {
  if (!value.value) {
    report.add(expect.span,
               fmt::format("the {} is not known, so the expectation cannot hold", name_of(expect.property)),
               "State what is missing, or delete the line.");
    return;
  }
  // A plain number is met within its printed half digit: it is a value, not a wall. What the labels cannot
  // promise is no fault of the recipe.
  double slack =
      expect.range.is_range ? 0 : expect.range.tolerance.value_or(std::abs(expect.range.low) * 0.005 + 1e-9);
  slack = std::max(slack, value.tolerance);
  double number = *value.value;
  if (number >= expect.range.low - slack - 1e-12 && number <= expect.range.high + slack + 1e-12) return;
  report.add(expect.span,
             fmt::format("the {} comes to {:.4g}{}, and {} is expected", name_of(expect.property),
                         number * value.print_scale, value.unit, range_text(expect, value)),
             "Change the spec, or what is expected of it.");
}

void judge_allergens(const Expect& expect, const model::Allergens& allergens, Reporter& report) {
  auto present = allergens.present();
  std::vector<std::string> more, missing;
  for (const auto& code : present)
    if (std::find(expect.allergens.begin(), expect.allergens.end(), code) == expect.allergens.end())
      more.push_back(code);
  for (const auto& code : expect.allergens)
    if (std::find(present.begin(), present.end(), code) == present.end()) missing.push_back(code);
  if (!more.empty() || !missing.empty()) {
    std::string message = "the allergens are not as expected:";
    if (!more.empty()) message += fmt::format(" {} more", base::join_with_and(model::allergen_words(more)));
    if (!missing.empty())
      message += fmt::format("{} {} not declared by any part", more.empty() ? "" : ";",
                             base::join_with_and(model::allergen_words(missing)));
    std::vector<std::string> line;
    for (const auto& code : present) line.push_back(model::allergen_as_written(code));
    report.add(expect.span, message,
               present.empty() ? std::string("Check the build, then the line: no allergen is declared, "
                                             "and an `expect` line lists exactly what is declared.")
                               : fmt::format("Check the build. If it is right, write `expect allergens {}`: "
                                             "exactly what its parts declare.",
                                             base::join(line, ", ")));
  }
}

/// Which foods `vegan` and `vegetarian` leave out.
bool is_left_out(Property diet, analysis::Origin origin) {
  return diet == Property::vegan ? model::is_of_animals(origin) : origin == analysis::Origin::animal;
}

/// The parts by which a drink holds, or may hold, what the diet leaves out: `duck fat`, `honey`.
std::vector<std::string> parts_left_out(Property diet, const House& house, const model::Origins& origins,
                                        bool may) {
  std::vector<std::string> names;
  for (const auto& route : origins.routes) {
    if (route.may != may || !is_left_out(diet, route.origin)) continue;
    for (auto id : route.via) {
      std::string name = fmt::format("`{}`", house.specs[id].head.name);
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
    }
  }
  return names;
}

std::vector<std::string> silent_parts(const House& house, const model::Origins& origins) {
  std::vector<std::string> names;
  for (auto id : origins.unknown) names.push_back(fmt::format("`{}`", house.specs[id].head.name));
  for (const auto& name : origins.undeclared) names.push_back(fmt::format("`{}`", name));
  return names;
}

std::string_view verb(const std::vector<std::string>& names) { return names.size() == 1 ? "comes" : "come"; }

void judge_diet(const Expect& expect, const House& house, const model::Origins& origins, Reporter& report) {
  auto diet = analysis::name_of(expect.property);
  auto answer = expect.property == Property::vegan ? model::vegan(origins) : model::vegetarian(origins);
  if (!expect.is_so) {
    if (answer == model::Answer::yes)
      report.add(expect.span,
                 fmt::format("every part of it says where it comes from, and none is left out by `{}`", diet),
                 fmt::format("Write `expect {} yes`, or check the build.", diet));
    return;
  }
  if (answer == model::Answer::yes) return;
  auto surely = parts_left_out(expect.property, house, origins, false);
  auto maybe = parts_left_out(expect.property, house, origins, true);
  auto silent = silent_parts(house, origins);
  if (answer == model::Answer::no)
    report.add(expect.span,
               fmt::format("{} {} from an animal, so `{} yes` cannot hold", base::join_with_and(surely),
                           verb(surely), diet),
               fmt::format("Swap it, or write `expect {} no`.", diet));
  else if (!maybe.empty())
    report.add(
        expect.span,
        fmt::format("{} may come from an animal, so `{} yes` cannot hold", base::join_with_and(maybe), diet),
        "Ask the maker (finings, colour, whey). A house that knows declares its own bottle with "
        "`like`, and gives it an `origin` line: `origin plant`.");
  else if (!silent.empty())
    report.add(
        expect.span,
        fmt::format("nothing says where {} {} from, so `{} yes` cannot hold", base::join_with_and(silent),
                    verb(silent), diet),
        "Ask the maker, and give it an `origin` line: `origin plant`, `origin milk` or `origin animal`.");
  else
    report.add(expect.span, fmt::format("a line of it could not be read, so `{} yes` cannot hold", diet),
               "Mend the other finding first.");
}

/// What a drink or a prep holds that somebody must not have, or will not.
template <class Facts>
void judge_declared(const Expect& expect, const House& house, const Facts& facts, Reporter& report) {
  if (expect.property == Property::allergens)
    judge_allergens(expect, facts.allergens, report);
  else
    judge_diet(expect, house, facts.origins, report);
}

/// A sum as a number of that currency; nothing where it is in another.
std::optional<double> number_in(const std::optional<units::Money>& money, const std::string& currency) {
  return money && money->currency == currency ? std::optional(base::to_double(money->amount)) : std::nullopt;
}

/// A figure against the line, in the line's own kind: a mass fraction needs the
/// density.
Value as_expected(const Expect& expect, const model::FigureRow& row, std::optional<double> figure,
                  double tolerance, double per_base_unit, double density) {
  Value value{figure, per_base_unit, unit_behind(row), tolerance / per_base_unit};
  if (value.value) *value.value /= per_base_unit;
  bool is_content = expect.property == Property::sugar || expect.property == Property::acid;
  if (is_content) value.unit = " % w/v";
  if (is_content && expect.range.kind == units::Kind::mass_fraction) {
    value.unit = " % w/w";
    value.value = value.value && density > 0 ? std::optional(*value.value / density) : std::nullopt;
    if (density > 0) value.tolerance /= density;
  }
  // What a message of the compiler says is plain ASCII.
  if (expect.property == Property::temperature) value.unit = " C";
  return value;
}

Value value_of(const Expect& expect, const model::DrinkFigure& figure, const model::DrinkFacts& facts) {
  return as_expected(expect, figure.row, model::value_of(figure, facts),
                     model::written_tolerance_of(figure, facts), figure.per_base_unit,
                     facts.served.density_g_per_ml);
}

Value value_of(const Expect& expect, const model::StockFigure& figure, const model::StockFacts& facts) {
  return as_expected(expect, figure.row, figure.value(facts), model::tolerance_of(figure, facts).value_or(0),
                     figure.per_base_unit, facts.density_g_per_ml);
}

}  // namespace

void unmet_expectation(const DrinkCase& drink, Reporter& report) {
  const auto& facts = drink.facts;
  for (const auto& expect : drink.drink.expects) {
    switch (expect.property) {
      case Property::strength:
      case Property::sugar:
      case Property::acid:
      case Property::balance:
      case Property::volume:
      case Property::dilution:
      case Property::temperature:
      case Property::energy:
        judge_range(expect, value_of(expect, *model::figure_of(expect.property), facts), report);
        break;
      case Property::cost: {
        judge_range(expect, {number_in(facts.cost, expect.range.currency), 1, " " + expect.range.currency},
                    report);
        break;
      }
      case Property::units: {
        auto found = facts.alcohol_units.find(drink.house.specs.house.alcohol_unit);
        judge_range(
            expect,
            {found == facts.alcohol_units.end() ? std::nullopt : std::optional(found->second), 1, " units"},
            report);
        break;
      }
      case Property::allergens:
      case Property::vegan:
      case Property::vegetarian:
        judge_declared(expect, drink.house, facts, report);
        break;
    }
  }
}

void unmet_expectation(const PrepCase& prep, Reporter& report) {
  const auto& facts = prep.facts;
  for (const auto& expect : prep.prep.expects) {
    switch (expect.property) {
      case Property::strength:
      case Property::sugar:
      case Property::acid:
      case Property::volume:
        judge_range(expect, value_of(expect, *model::stock_figure_of(expect.property), facts), report);
        break;
      case Property::balance:
        judge_range(
            expect,
            {facts.acid_g_per_100ml > 0 ? std::optional(facts.sugar_g_per_100ml / facts.acid_g_per_100ml)
                                        : std::nullopt,
             1, ""},
            report);
        break;
      case Property::allergens:
      case Property::vegan:
      case Property::vegetarian:
        judge_declared(expect, prep.house, facts, report);
        break;
      case Property::cost: {
        // A prep's cost is that of a litre.
        judge_range(expect,
                    {number_in(model::cost_per_l(facts), expect.range.currency), 1,
                     " " + expect.range.currency + " a litre"},
                    report);
        break;
      }
      case Property::dilution:
      case Property::temperature:
      case Property::energy:
      case Property::units:
        judge_range(expect, {std::nullopt, 1, ""}, report);
        break;
    }
  }
}

}  // namespace gill::lint

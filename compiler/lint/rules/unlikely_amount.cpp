#include <fmt/format.h>

#include "base/text.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

using analysis::StockKind;

// Lemon, lime and their like, g/100 ml of acid, and the most of them in a serve, ml: a lemonade has some 60.
constexpr double sour_juice_acid = 3;
constexpr double max_sour_juice_ml = 100;

/// The most of a kind that anybody puts into one serve, in ml of a liquid or g of what is weighed, well above
/// what stands in published lists. Common practice, no source.
double max_in_a_serve(StockKind kind, bool is_liquid) {
  switch (kind) {
    case StockKind::spirit:
      return 180;
    case StockKind::liqueur:
      return 150;
    case StockKind::fortified_wine:
      return 200;
    case StockKind::wine:
    case StockKind::sparkling:
      return 400;
    case StockKind::beer:
      return 700;
    case StockKind::bitters:
      return 50;
    case StockKind::juice:
      return 300;
    case StockKind::syrup:
      return 90;
    case StockKind::sweetener:
      return is_liquid ? 90 : 60;
    case StockKind::acid:
      return is_liquid ? 60 : 10;
    case StockKind::dairy:
      return 300;
    case StockKind::egg:
      return 130;
    case StockKind::fat:
      return 40;
    case StockKind::fruit:
      return 300;
    case StockKind::herb:
      return 60;
    case StockKind::spice:
      return 40;
    case StockKind::tea_coffee:
      return is_liquid ? 450 : 40;
    case StockKind::mixer:
    case StockKind::water:
      return 600;
    case StockKind::saline:
      return is_liquid ? 10 : 5;
    case StockKind::additive:
      return is_liquid ? 100 : 30;
    case StockKind::garnish:
      return 150;
    case StockKind::unstated:
      return 600;
  }
  return 600;
}

/// What it probably is: a volume of ten times another unit, or a slip of the hand.
std::string_view question(StockKind kind) {
  switch (kind) {
    case StockKind::bitters:
      return "Bitters go in by the dash: was `dashes` meant?";
    case StockKind::saline:
      return "Salt goes in by the pinch and saline by the drop: was another unit meant?";
    case StockKind::egg:
      return "A serve takes one egg, or one white: was the count meant?";
    default:
      return "If it is a bowl, add `serves`.";
  }
}

/// The slips that would explain it: a digit too many, millilitres written as ounces. Only those that come to
/// a usual amount.
std::string typos(const units::UnitTable& units, const units::Quantity& quantity, double measure,
                  double maximum) {
  if (!quantity.unit.valid()) return {};
  const auto& unit = units[quantity.unit];
  double number = quantity.number() / base::to_double(unit.factor);
  std::vector<std::string> meant;
  if (measure / 10 <= maximum)
    meant.push_back(
        fmt::format("`{}`", units::with_unit(fmt::format("{:.4g}", number / 10), unit, number == 10)));
  if (unit.kind == units::Kind::volume && unit.symbol != "ml" && number <= maximum)
    meant.push_back(fmt::format("`{:.4g} ml`", number));
  return meant.empty() ? std::string() : fmt::format(" Was {} meant?", base::join_with_or(meant));
}

}  // namespace

void unlikely_amount(const DrinkCase& drink, Reporter& report) {
  for (const auto& entry : drink.facts.entries) {
    if (entry.role == model::Role::garnish || entry.role == model::Role::side ||
        entry.role == model::Role::rim)
      continue;
    if (entry.solved) continue;
    const auto& stock = drink.house.specs[entry.use.stock];
    bool is_liquid = stock.effective_form() == analysis::Form::liquid;
    const auto& measure = is_liquid ? entry.volume_ml : entry.mass_g;
    double maximum = max_in_a_serve(stock.kind, is_liquid);
    bool is_sour = stock.kind == StockKind::juice &&
                   drink.house.facts[entry.use.stock].acid_g_per_100ml >= sour_juice_acid;
    if (is_sour) maximum = max_sour_juice_ml;
    if (!measure || *measure <= maximum) continue;
    bool is_line = entry.role == model::Role::amount;
    report.add(is_line ? drink.span_of_amount(entry.index) : drink.span_of_step(entry.index),
               fmt::format("{:.3g} {} of `{}` in a serve is more than anybody pours", *measure,
                           is_liquid ? "ml" : "g", entry.name),
               std::string(question(stock.kind)) +
                   (is_line ? typos(drink.house.units, drink.drink.recipe.amounts[entry.index].quantity,
                                    *measure, maximum)
                            : std::string()));
  }
}

}  // namespace gill::lint

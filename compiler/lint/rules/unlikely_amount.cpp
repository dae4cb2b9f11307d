#include <fmt/format.h>

#include <algorithm>

#include "base/percent.h"
#include "base/text.h"
#include "lint/hazards.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/entries.h"

namespace gill::lint {

namespace {

using analysis::StockKind;

// Lemon, lime and their like, g/100 ml of acid, and the most of them in a serve, ml: a lemonade has some 60.
constexpr double sour_juice_acid = 3;
constexpr double max_sour_juice_ml = 100;

/// The most of a kind that anybody puts into one serve, well above what stands in published lists. Common
/// practice, no source.
struct MostInAServe {
  StockKind kind;
  double liquid_ml, weighed_g;
};

// In the order of `StockKind`.
constexpr MostInAServe most_in_a_serve[] = {
    {StockKind::unstated, 600, 600},  {StockKind::spirit, 180, 180},
    {StockKind::liqueur, 150, 150},   {StockKind::fortified_wine, 200, 200},
    {StockKind::wine, 400, 400},      {StockKind::sparkling, 400, 400},
    {StockKind::beer, 700, 700},      {StockKind::bitters, 50, 50},
    {StockKind::juice, 300, 300},     {StockKind::syrup, 90, 90},
    {StockKind::sweetener, 90, 60},   {StockKind::acid, 60, 10},
    {StockKind::dairy, 300, 300},     {StockKind::egg, 130, 130},
    {StockKind::fat, 40, 40},         {StockKind::fruit, 300, 300},
    {StockKind::herb, 60, 60},        {StockKind::spice, 40, 40},
    {StockKind::tea_coffee, 450, 40}, {StockKind::mixer, 600, 600},
    {StockKind::water, 600, 600},     {StockKind::saline, 10, 5},
    {StockKind::additive, 100, 30},   {StockKind::garnish, 150, 150},
};
static_assert([] {
  for (std::size_t i = 0; i < std::size(most_in_a_serve); ++i)
    if (most_in_a_serve[i].kind != static_cast<StockKind>(i)) return false;
  return std::size(most_in_a_serve) == static_cast<std::size_t>(StockKind::garnish) + 1;
}());

double max_in_a_serve(StockKind kind, bool is_liquid) {
  const auto& most = most_in_a_serve[static_cast<std::size_t>(kind)];
  return is_liquid ? most.liquid_ml : most.weighed_g;
}

/// One line of usual_amounts.def.
struct Usual {
  std::string_view names;
  double max_in_serve;
  double max_share_of_prep;
  std::string_view help;
};

constexpr Usual usuals[] = {
#define USUAL(names, serve, share, help) {names, serve, share, help},
#include "lint/usual_amounts.def"
#undef USUAL
};

const Usual* usual_of(const analysis::Stock& stock) {
  // What a house makes of it is weaker than the thing itself, and has a name of its own.
  if (stock.is_prep || stock.kind == StockKind::liqueur || stock.kind == StockKind::syrup ||
      stock.kind == StockKind::bitters)
    return nullptr;
  std::string folded = base::fold_name(stock.head.name);
  for (const auto& usual : usuals)
    for (auto names = usual.names; !names.empty();) {
      auto bar = names.find('|');
      if (has_words(folded, names.substr(0, bar))) return &usual;
      names = bar == std::string_view::npos ? std::string_view() : names.substr(bar + 1);
    }
  return nullptr;
}

// Bitters beyond a dozen dashes, about 12 ml, are a base, and then they are most of what is strong. Common
// practice, no source.
constexpr double max_bitters_ml = 12;

bool are_bitters_the_base(const DrinkCase& drink) {
  double bitters_ml = 0, others_ml = 0;
  for (const auto& entry : drink.facts.entries) {
    auto kind = drink.house.specs[entry.use.stock].kind;
    if (kind == StockKind::bitters) bitters_ml = std::max(bitters_ml, entry.volume_ml.value_or(0));
    if (kind == StockKind::spirit || kind == StockKind::fortified_wine)
      others_ml += entry.volume_ml.value_or(0);
  }
  return bitters_ml >= others_ml;
}

// Leaves in a serve, and the least of a spirit that is all the strength a drink has, ml. Common practice, no
// source.
constexpr double max_leaves = 40;
constexpr double min_base_ml = 8;

bool is_strong_kind(StockKind kind) {
  return kind == StockKind::spirit || kind == StockKind::liqueur || kind == StockKind::fortified_wine ||
         kind == StockKind::wine || kind == StockKind::sparkling || kind == StockKind::beer ||
         kind == StockKind::bitters || kind == StockKind::unstated;
}

bool is_leaves(const units::UnitTable& units, const model::Entry& entry) {
  return entry.role == model::Role::amount && entry.count && entry.use.item.valid() &&
         units[entry.use.item].symbol == "leaf";
}

/// A spirit by the drop with nothing else strong in the drink: 2 ml of gin where 2 oz were meant.
void check_base(const DrinkCase& drink, Reporter& report) {
  const model::Entry* base = nullptr;
  for (const auto& entry : drink.facts.entries) {
    const auto& stock = drink.house.specs[entry.use.stock];
    double volume_ml = entry.volume_ml.value_or(0);
    if (is_strong_kind(stock.kind) && volume_ml >= min_base_ml) return;
    if (stock.is_prep && drink.house.facts[entry.use.stock].abv_percent > 1) return;
    if (entry.role == model::Role::amount && stock.kind == StockKind::spirit && !entry.solved &&
        (!base || volume_ml > base->volume_ml.value_or(0)))
      base = &entry;
  }
  if (!base || base->volume_ml.value_or(0) <= 0) return;
  const auto& quantity = drink.drink.recipe.amounts[base->index].quantity;
  // Drops and dashes are meant small; `50 mg` is a slip of `50 ml`.
  if (!quantity.unit.valid() ||
      (drink.house.units[quantity.unit].symbol != "ml" && quantity.kind != units::Kind::mass))
    return;
  report.add(drink.span_of_amount(base->index),
             fmt::format("{:.3g} ml of `{}` is all the spirit in the drink", *base->volume_ml, base->name),
             fmt::format("Was `{:.3g} oz` or `{:.3g} ml` meant?", *base->volume_ml, 10 * *base->volume_ml));
}

/// What it probably is: a volume of ten times another unit, or a slip of the hand.
std::string_view question(StockKind kind) {
  if (kind == StockKind::bitters) return "Bitters go in by the dash: was `dashes` meant?";
  if (kind == StockKind::saline)
    return "Salt goes in by the pinch and saline by the drop: was another unit meant?";
  if (kind == StockKind::egg) return "A serve takes one egg, or one white: was the count meant?";
  return "If it is a bowl, add `serves`.";
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
  check_base(drink, report);
  for (const auto& entry : drink.facts.entries) {
    if (model::is_laid_on(entry.role) || entry.solved) continue;
    const auto& stock = drink.house.specs[entry.use.stock];
    bool is_liquid = stock.effective_form() == analysis::Form::liquid;
    const auto& measure = is_liquid ? entry.volume_ml : entry.mass_g;
    double maximum = max_in_a_serve(stock.kind, is_liquid);
    bool is_sour = stock.kind == StockKind::juice &&
                   drink.house.facts[entry.use.stock].acid_g_per_100ml >= sour_juice_acid;
    if (is_sour) maximum = max_sour_juice_ml;
    const auto* usual = usual_of(stock);
    if (usual) maximum = usual->max_in_serve;
    if (stock.kind == StockKind::bitters && !are_bitters_the_base(drink)) maximum = max_bitters_ml;
    if (is_leaves(drink.house.units, entry) && *entry.count > max_leaves) {
      report.add(drink.span_of_amount(entry.index),
                 fmt::format("{:.3g} leaves of `{}` in a serve are far more than usual", *entry.count,
                             stock.head.name),
                 fmt::format("8 to 12 are usual: was `{:.3g}` meant?", *entry.count / 10));
      continue;
    }
    if (!measure || *measure <= maximum) continue;
    bool is_line = entry.role == model::Role::amount;
    report.add(is_line ? drink.span_of_amount(entry.index) : drink.span_of_step(entry.index),
               fmt::format("{:.3g} {} of `{}` in a serve is far more than usual", *measure,
                           is_liquid ? "ml" : "g", entry.name),
               std::string(usual ? usual->help : question(stock.kind)) +
                   (is_line ? typos(drink.house.units, drink.drink.recipe.amounts[entry.index].quantity,
                                    *measure, maximum)
                            : std::string()));
  }
}

namespace {

// Shares of a prep's mass beyond which a powder is a slip: a stock solution of acid holds a third at most,
// brine a fifth, and what is both sweet and salt a twentieth. Common practice, no source.
constexpr double max_acid_share = 0.35;
constexpr double max_salt_share = 0.05;
constexpr double max_spice_share = 0.25;
constexpr double brine_from_share = 0.9;

/// Salt and water alone: a saline.
bool is_brine(const PrepCase& prep, double all_g) {
  double brine_g = 0, salt_g = 0;
  for (const auto& entry : prep.facts.entries) {
    auto kind = prep.house.specs[entry.use.stock].kind;
    if (kind == StockKind::saline || kind == StockKind::water) brine_g += entry.mass_g.value_or(0);
    if (kind == StockKind::saline) salt_g += entry.mass_g.value_or(0);
  }
  return salt_g > 0 && brine_g >= brine_from_share * all_g;
}

double max_share_of_kind(StockKind kind) {
  if (kind == StockKind::acid) return max_acid_share;
  if (kind == StockKind::saline) return max_salt_share;
  if (kind == StockKind::spice) return max_spice_share;
  return 1;
}

}  // namespace

void unlikely_amount(const PrepCase& prep, Reporter& report) {
  double all_g = 0;
  for (const auto& entry : prep.facts.entries) all_g += entry.mass_g.value_or(0);
  bool has_liquid = std::any_of(prep.facts.entries.begin(), prep.facts.entries.end(), [&](const auto& entry) {
    return prep.house.specs[entry.use.stock].effective_form() == analysis::Form::liquid;
  });
  // A dry mix, a rim salt, has its own shares.
  if (!has_liquid || is_brine(prep, all_g)) return;
  for (const auto& entry : prep.facts.entries) {
    const auto& stock = prep.house.specs[entry.use.stock];
    bool is_liquid = stock.effective_form() == analysis::Form::liquid;
    if (entry.role != model::Role::amount || entry.solved || !entry.mass_g) continue;
    const auto* usual = usual_of(stock);
    double maximum = is_liquid ? 1 : max_share_of_kind(stock.kind);
    if (usual && usual->max_share_of_prep > 0) maximum = std::min(maximum, usual->max_share_of_prep);
    if (*entry.mass_g <= maximum * all_g) continue;
    report.add(prep.span_of_amount(entry.index),
               fmt::format("{:.3g} g of `{}` is {:.0f} % of what goes in: far more than usual", *entry.mass_g,
                           entry.name, base::percent_of_share(*entry.mass_g / all_g)),
               usual ? std::string(usual->help)
                     : fmt::format("{:.0f} % is a lot already: was `{:.3g} g` meant?",
                                   base::percent_of_share(maximum), *entry.mass_g / 10));
  }
}

}  // namespace gill::lint

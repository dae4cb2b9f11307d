#include "diff/figure.h"

#include <algorithm>
#include <cmath>

#include "diff/side.h"
#include "model/money.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::diff {
namespace {

constexpr std::array<FigureInfo, 25> figures = {{
    {"volume_ml", "volume", "ml", 0, false},
    {"mass_g", "weight", "g", 0, false},
    {"abv_percent", "strength", "% abv", 1, false},
    {"sugar_g_per_100ml", "sugar", "g/100 ml", 1, false},
    {"acid_g_per_100ml", "acid", "g/100 ml", 2, false},
    {"sugar_acid_ratio", "sugar to acid", "", 1, false},
    {"temperature_c", "temperature", "°C", 1, false},
    {"dilution_percent", "dilution", "%", 0, false},
    {"ethanol_g", "ethanol", "g", 1, false},
    {"energy_kcal", "energy", "kcal", 0, false},
    {"energy_kj", "energy", "kJ", 0, false},
    {"glass_fill_percent", "fill of the glass", "%", 0, false},
    {"brix", "dissolved solids", "brix", 1, false},
    {"density_g_per_ml", "density", "g/ml", 3, false},
    {"fat_g_per_100ml", "fat", "g/100 ml", 1, false},
    {"yield_ml", "yield", "ml", 0, false},
    {"yield_g", "yield by weight", "g", 0, false},
    {"yield_count", "yield in pieces", "", 0, false},
    {"loss_percent", "loss", "%", 1, false},
    {"keeps_days", "keeps", "days", 1, false},
    {"cost", "cost", "", 0, true},
    {"cost_per_l", "cost a litre", "", 0, true},
    {"cost_per_kg", "cost a kilo", "", 0, true},
    {"price", "price", "", 0, true},
    {"pour_cost_percent", "pour cost", "%", 1, false},
}};
static_assert(static_cast<std::size_t>(Figure::pour_cost_percent) + 1 == figures.size());

}  // namespace

const FigureInfo& info(Figure figure) { return figures[static_cast<std::size_t>(figure)]; }

std::string text_of(const FigureValue& value) {
  if (!value.value) return "not known";
  const FigureInfo& about = info(value.figure);
  if (about.is_money) {
    units::Money money{model::decimal_of(*value.value), value.currency};
    return value.figure == Figure::price ? units::price_text(money) : units::money_text(money);
  }
  std::string text = render::wording::fixed(*value.value, about.places);
  return about.unit.empty() ? text : text + " " + std::string(about.unit);
}

int places_of(const FigureValue& value) {
  const FigureInfo& about = info(value.figure);
  return about.is_money ? static_cast<int>(units::decimals_of(value.currency)) : about.places;
}

bool nearly_equal(double a, double b) {
  constexpr double share = 1e-9;
  if (a == b) return true;
  return std::abs(a - b) <= share * std::max({1.0, std::abs(a), std::abs(b)});
}

}  // namespace gill::diff

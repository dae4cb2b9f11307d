#include "diff/figure.h"

#include <algorithm>
#include <cmath>

#include "diff/snapshot.h"
#include "model/money.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::diff {

namespace figures {

const model::FigureRow keeps_days{.key = "keeps_days", .words = "keeps", .unit = "days", .places = 1};
const model::FigureRow cost{.key = "cost", .words = "cost", .unit = "", .is_money = true};
const model::FigureRow cost_per_l{.key = "cost_per_l", .words = "cost a litre", .unit = "", .is_money = true};
const model::FigureRow cost_per_kg{
    .key = "cost_per_kg", .words = "cost a kilo", .unit = "", .is_money = true};
const model::FigureRow price{.key = "price", .words = "price", .unit = "", .is_money = true};
const model::FigureRow pour_cost_percent{
    .key = "pour_cost_percent", .words = "pour cost", .unit = "%", .places = 1};

}  // namespace figures

std::string text_of(const FigureValue& value) {
  if (!value.value) return "not known";
  const auto& about = *value.figure;
  if (about.is_money) {
    units::Money money{model::decimal_of(*value.value), value.currency};
    return (value.figure == &figures::price ? units::price_text(money) : units::money_text(money)) +
           (value.of.empty() ? "" : " " + value.of);
  }
  return render::wording::fixed(*value.value, about.places) + model::unit_behind(about);
}

bool is_same_money(const FigureValue& a, const FigureValue& b) {
  return a.currency == b.currency && a.of == b.of;
}

bool is_cost(Figure figure) {
  return figure == &figures::cost || figure == &figures::cost_per_l || figure == &figures::cost_per_kg ||
         figure == &figures::pour_cost_percent;
}

int places_of(const FigureValue& value) {
  const auto& about = *value.figure;
  return about.is_money ? static_cast<int>(units::decimals_of(value.currency)) : about.places;
}

bool nearly_equal(double a, double b) {
  constexpr double share = 1e-9;
  if (a == b) return true;
  return std::abs(a - b) <= share * std::max({1.0, std::abs(a), std::abs(b)});
}

}  // namespace gill::diff

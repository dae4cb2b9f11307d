#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// FDA Food Code 2022, 3-401.11: raw eggs broken for service are cooked to 63 °C for 15 s.
constexpr double cooked_from_c = 63;

bool is_raw_egg(const spec::Stock& stock) {
  return stock.kind == spec::StockKind::egg && stock.treated.find("pasteurised") == std::string::npos &&
         stock.treated.find("pasteurized") == std::string::npos;
}

bool holds_egg(const model::Allergens& allergens) {
  for (const auto& route : allergens.routes)
    if (route.code == "egg") return true;
  return false;
}

std::string_view caution(const spec::Specs& specs) {
  return specs.house.place == "GB"
             ? "Raw egg can carry salmonella. UK advice (Food Standards Agency, 2017) names only eggs under the national "
               "quality code for raw use by vulnerable guests. Tell guests on the menu; your local code and a trained person decide."
             : "Raw egg can carry salmonella. Many codes (FDA Food Code 3-603.11 among them) want a notice and a reminder on the "
               "menu. Say so there, or use pasteurised egg (`treated pasteurised`); your local code decides.";
}

}  // namespace

void raw_egg(const DrinkCase& drink, Reporter& report) {
  bool cooked = false;
  for (const auto& trace : drink.facts.trace) cooked = cooked || trace.after.temperature_c >= cooked_from_c;
  if (cooked) return;
  for (const auto& entry : drink.facts.entries) {
    const auto& stock = drink.house.specs[entry.use.stock];
    if (!holds_egg(drink.house.facts[entry.use.stock].allergens) || !(is_raw_egg(stock) || stock.is_prep)) continue;
    bool is_line = entry.role == model::Role::amount;
    report.add(is_line ? drink.span_of_amount(entry.index) : drink.span_of_step(entry.index),
               fmt::format("`{}` is raw egg", entry.name), std::string(caution(drink.house.specs)));
    return;
  }
}

void raw_egg_in_prep(const PrepCase& prep, Reporter& report) {
  bool cooked = false;
  for (const auto& trace : prep.facts.trace) cooked = cooked || trace.after.temperature_c >= cooked_from_c;
  if (cooked) return;
  for (const auto& entry : prep.facts.entries) {
    if (!is_raw_egg(prep.house.specs[entry.use.stock]) || !holds_egg(prep.house.facts[entry.use.stock].allergens)) continue;
    report.add(prep.prep.head.name_span, fmt::format("`{}` goes in raw, and the prep is kept", entry.name),
               std::string(caution(prep.house.specs)));
    return;
  }
}

}  // namespace gill::lint

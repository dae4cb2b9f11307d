#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "lint/rules.h"

namespace gill::lint {

namespace {

enum class System { metric, ounces, neither };

/// Dashes, spoons and pieces belong to both; so do a house's own units.
System system_of(const units::Unit& unit) {
  static constexpr std::array<std::string_view, 7> metric = {"ml", "cl", "dl", "l", "mg", "g", "kg"};
  static constexpr std::array<std::string_view, 4> ounces = {"oz", "oz wt", "lb", "fl oz"};
  auto is_one_of = [&](const auto& names) {
    return std::find(names.begin(), names.end(), unit.symbol) != names.end();
  };
  if (is_one_of(metric)) return System::metric;
  if (is_one_of(ounces) || unit.symbol.starts_with("us ") || unit.symbol.starts_with("imp "))
    return System::ounces;
  return System::neither;
}

std::string_view words(System system) {
  return system == System::metric ? "millilitres and grams" : "ounces";
}

template <typename Case>
void check_mixed_systems(const Case& build, const analysis::Recipe& recipe, Reporter& report) {
  std::size_t counts[2] = {0, 0};
  auto system_of_line = [&](const analysis::Amount& amount) {
    // Two measures on one line say both on purpose.
    bool plain =
        amount.form == analysis::Amount::Form::measured && !amount.second && amount.quantity.unit.valid();
    return plain ? system_of(build.house.units[amount.quantity.unit]) : System::neither;
  };
  for (const auto& amount : recipe.amounts)
    if (auto system = system_of_line(amount); system != System::neither) ++counts[static_cast<int>(system)];
  if (counts[0] == 0 || counts[1] == 0) return;
  System odd = counts[0] < counts[1] ? System::metric : System::ounces;
  System usual = odd == System::metric ? System::ounces : System::metric;
  for (const auto& line : recipe.order) {
    if (!line.is_amount) continue;
    const auto& amount = recipe.amounts[line.index];
    if (system_of_line(amount) != odd) continue;
    report.add(line.inherited ? build.name_span() : amount.quantity.span,
               fmt::format("`{}` is in {} in a build that is otherwise in {}", amount.as_written, words(odd),
                           words(usual)),
               "Write the whole build in one of them; the card prints both. Two kinds of jigger in one round "
               "make slips.");
    return;
  }
}

}  // namespace

void mixed_systems(const DrinkCase& drink, Reporter& report) {
  check_mixed_systems(drink, drink.drink.recipe, report);
}
void mixed_systems(const PrepCase& prep, Reporter& report) {
  check_mixed_systems(prep, prep.prep.recipe, report);
}

}  // namespace gill::lint

#include "costing/priced_twice.h"

#include <fmt/format.h>

#include "model/money.h"
#include "units/money.h"

namespace gill::costing {
namespace {

bool run_together(const analysis::Menu& a, const analysis::Menu& b) {
  auto begins_before_end = [](const analysis::Menu& one, const analysis::Menu& other) {
    return one.runs_from.empty() || other.runs_to.empty() || one.runs_from <= other.runs_to;
  };
  return begins_before_end(a, b) && begins_before_end(b, a);
}

}  // namespace

std::vector<std::string> priced_twice(const std::vector<DrinkId>& drinks, const House& house) {
  std::vector<std::string> told;
  const auto& menus = house.specs.menus;
  for (auto drink : drinks) {
    auto counted = model::price_of(drink, {}, house.specs, house.facts.currency);
    if (!counted) continue;
    for (std::size_t i = 0; i < menus.size(); ++i) {
      auto other = model::price_of(drink, analysis::MenuId::at(i), house.specs, house.facts.currency);
      if (!other || other->without_tax.amount == counted->without_tax.amount ||
          !run_together(menus[i], menus[counted->menu.index()]))
        continue;
      told.push_back(fmt::format("`{}` at {} (`{}` has it at {})", house.specs[drink].head.name,
                                 units::price_text(*counted->entry->price), menus[i].head.name,
                                 units::price_text(*other->entry->price)));
      break;
    }
  }
  return told;
}

}  // namespace gill::costing

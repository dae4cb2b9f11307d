#include "costing/garnish_notes.h"

#include <fmt/format.h>

#include "base/text.h"

namespace gill::costing {

std::set<std::string> undeclared_garnishes(const House& house, const std::vector<DrinkId>& drinks) {
  std::set<std::string> garnishes;
  for (auto id : drinks)
    for (const auto& step : house.specs[id].recipe.steps)
      if (step.unknown_garnish)
        garnishes.insert(fmt::format("`{}` ({})", step.words, house.specs[id].head.name));
  return garnishes;
}

std::string note_on_undeclared(const std::set<std::string>& garnishes, std::string_view what) {
  if (garnishes.empty()) return {};
  return fmt::format("Nothing declares these garnishes, so {} without them: {}.", what,
                     base::join_with_and({garnishes.begin(), garnishes.end()}));
}

std::string note_on_unweighed(const std::set<std::string>& goods, std::string_view what) {
  if (goods.empty()) return {};
  return fmt::format(
      "Nobody says what a garnish of {} weighs, so {} without it. Write `each 2 g` to it, or an amount to "
      "the "
      "garnish.",
      base::join_with_and({goods.begin(), goods.end()}), what);
}

}  // namespace gill::costing

#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

/// The latest day that any menu runs to; empty where one has no end.
std::string last_day(const analysis::Specs& specs) {
  std::string last;
  for (const auto& menu : specs.menus) {
    if (menu.runs_to.empty()) return {};
    last = std::max(last, menu.runs_to);
  }
  return last;
}

}  // namespace

void retired_on_menu(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  std::string last = last_day(specs);
  for (const auto& menu : specs.menus) {
    // Old menus may show what was sold then: only one that runs as long as any counts.
    if (!menu.runs_to.empty() && menu.runs_to < last) continue;
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries) {
        if (!entry.drink.valid() || specs[entry.drink].status != analysis::Status::retired) continue;
        judged.about(menu).add(
            entry.span, fmt::format("the menu sells `{}`, which is retired", specs[entry.drink].head.name),
            "Take it off the menu, or bring the drink back (`status approved DATE`).");
      }
  }
}

}  // namespace gill::lint

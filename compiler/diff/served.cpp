#include "diff/served.h"

#include <algorithm>

#include "model/money.h"

namespace gill::diff {
namespace {

/// The drinks on the menus that run when the last one begins; empty where no menu says what is on.
std::vector<bool> drinks_on_menus(const analysis::Specs& specs) {
  const auto* last = last_menu(specs);
  if (!last) return {};
  std::vector<bool> is_on(specs.drinks.size());
  for (const auto& menu : specs.menus) {
    const bool is_over = !menu.runs_to.empty() && !last->runs_from.empty() && menu.runs_to < last->runs_from;
    if (is_over) continue;
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries)
        if (entry.drink.valid()) is_on[entry.drink.index()] = true;
  }
  return is_on;
}

std::vector<bool> approved_drinks(const analysis::Specs& specs) {
  std::vector<bool> approved;
  for (const auto& drink : specs.drinks) approved.push_back(is_approved(drink));
  return approved;
}

}  // namespace

const analysis::Menu* last_menu(const analysis::Specs& specs) {
  const analysis::Menu* last = nullptr;
  for (const auto& menu : specs.menus)
    if (!last || model::runs_before(*last, menu)) last = &menu;
  return last;
}

Served served_drinks(const Snapshot& before, const Snapshot& after, const std::vector<Match>& drinks) {
  Served served{approved_drinks(before.specs), approved_drinks(after.specs)};
  auto on_before = drinks_on_menus(before.specs), on_after = drinks_on_menus(after.specs);
  if (on_before.empty() || on_after.empty()) return served;
  for (const auto& match : drinks) {
    if (!match.before || !match.after || on_before[*match.before] == on_after[*match.after]) continue;
    auto& rests = on_before[*match.before] ? served.after : served.before;
    rests[on_before[*match.before] ? *match.after : *match.before] = false;
  }
  return served;
}

}  // namespace gill::diff

#include "diff/served.h"

#include <algorithm>

#include "base/text.h"
#include "model/money.h"

namespace gill::diff {
namespace {

/// The drinks on the menus that run when the last one begins; empty where no menu says what is on.
std::vector<bool> drinks_on_menus(const analysis::Specs& specs, const std::vector<bool>& is_of_season) {
  const auto* last = last_menu(specs, is_of_season);
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

namespace {

std::vector<bool> menus_that_change(const analysis::Specs& specs, const analysis::Specs& other) {
  std::vector<bool> change;
  for (const auto& menu : specs.menus)
    change.push_back(std::none_of(other.menus.begin(), other.menus.end(), [&](const analysis::Menu& there) {
      return base::fold_name(there.head.name) == base::fold_name(menu.head.name) &&
             there.runs_from == menu.runs_from && there.runs_to == menu.runs_to;
    }));
  return change;
}

std::set<Identity> priced_on(const analysis::Specs& specs, const std::vector<bool>& menus,
                             const Identities& same) {
  std::set<Identity> priced;
  for (std::size_t i = 0; i < specs.menus.size(); ++i)
    for (const auto& section : specs.menus[i].sections)
      for (const auto& entry : section.entries)
        if (menus[i] && entry.drink.valid() && entry.price) priced.insert(same.drinks[entry.drink.index()]);
  return priced;
}

}  // namespace

SeasonMenus season_menus(const analysis::Specs& before, const analysis::Specs& after) {
  return {menus_that_change(before, after), menus_that_change(after, before)};
}

std::set<Identity> drinks_on_season(const Snapshot& before, const Snapshot& after, const Matching& matching,
                                    const SeasonMenus& season) {
  auto old = priced_on(before.specs, season.before, matching.before),
       now = priced_on(after.specs, season.after, matching.after);
  std::erase_if(old, [&](Identity drink) { return !now.contains(drink); });
  return old;
}

const analysis::Menu* last_menu(const analysis::Specs& specs, const std::vector<bool>& is_of_season) {
  const bool any = std::find(is_of_season.begin(), is_of_season.end(), true) != is_of_season.end();
  const analysis::Menu* last = nullptr;
  for (std::size_t i = 0; i < specs.menus.size(); ++i) {
    if (any && !is_of_season[i]) continue;
    if (!last || model::runs_before(*last, specs.menus[i])) last = &specs.menus[i];
  }
  return last;
}

Served served_drinks(const Snapshot& before, const Snapshot& after, const std::vector<Match>& drinks,
                     const SeasonMenus& season) {
  Served served{approved_drinks(before.specs), approved_drinks(after.specs)};
  auto on_before = drinks_on_menus(before.specs, season.before),
       on_after = drinks_on_menus(after.specs, season.after);
  if (on_before.empty() || on_after.empty()) return served;
  for (const auto& match : drinks) {
    if (!match.before || !match.after || on_before[*match.before] == on_after[*match.after]) continue;
    auto& rests = on_before[*match.before] ? served.after : served.before;
    rests[on_before[*match.before] ? *match.after : *match.before] = false;
  }
  return served;
}

}  // namespace gill::diff

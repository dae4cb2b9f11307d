#include <fmt/format.h>

#include <set>

#include "base/text.h"
#include "lint/rules.h"
#include "model/entries.h"

namespace gill::lint {
namespace {

/// What is drunk of a drink: what lies on it or beside it moves no guest line.
std::set<analysis::StockId> poured_into(const model::DrinkFacts& facts) {
  std::set<analysis::StockId> poured;
  for (const auto& entry : facts.entries)
    if (!entry.optional && !model::is_laid_on(entry.role)) poured.insert(entry.use.stock);
  return poured;
}

/// What is in the one and not in the other, by name.
std::vector<std::string> names_without(const std::set<analysis::StockId>& all,
                                       const std::set<analysis::StockId>& without, const House& house) {
  std::vector<std::string> names;
  for (auto stock : all)
    if (!without.contains(stock)) names.push_back(house.specs[stock].head.name);
  return names;
}

}  // namespace

void borrowed_guest_line(const DrinkCase& drink, Reporter& report) {
  const auto base = drink.drink.like;
  if (drink.drink.guest.empty() || !base.valid()) return;
  // A line of its own is its own.
  if (drink.house.specs[base].guest != drink.drink.guest) return;
  const auto mine = poured_into(drink.facts), theirs = poured_into(drink.house.facts[base]);
  auto gone = names_without(theirs, mine, drink.house), added = names_without(mine, theirs, drink.house);
  if (gone.empty() && added.empty()) return;
  const std::string what = gone.empty()    ? fmt::format("{} came in", base::join_with_and(added))
                           : added.empty() ? fmt::format("{} left out", base::join_with_and(gone))
                                           : fmt::format("{} in place of {}", base::join_with_and(added),
                                                         base::join_with_and(gone));
  report.add(drink.drink.head.name_span,
             fmt::format("guests are told of `{}` what they are told of `{}` (\"{}\"), with {}",
                         drink.drink.head.name, drink.house.specs[base].head.name,
                         base::collapse_space(drink.drink.guest), what),
             "Write its own line: `guest \"…\"`.");
}

}  // namespace gill::lint

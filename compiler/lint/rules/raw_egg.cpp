#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/raw_egg.h"

namespace gill::lint {

namespace {

std::string caution(const analysis::Specs& specs) {
  return specs.house.place == "GB"
             ? fmt::format(
                   "Raw egg can carry salmonella. UK advice (Food Standards Agency, October 2017) names only "
                   "eggs under the national quality "
                   "code for raw use by vulnerable guests; tell guests on the menu all the same. {}",
                   who_decides)
             : fmt::format(
                   "Raw egg can carry salmonella. Many codes (FDA Food Code 3-603.11 among them) want a "
                   "notice and a reminder on the "
                   "menu. Say so there, or use pasteurised egg (`treated pasteurised`). {}",
                   who_decides);
}

}  // namespace

void raw_egg(const DrinkCase& drink, Reporter& report) {
  const auto* entry = model::raw_egg_in(drink.house.specs, drink.house.facts, drink.facts.entries,
                                        drink.facts.trace, drink.drink.recipe);
  if (!entry) return;
  bool is_line = entry->role == model::Role::amount;
  report.add(is_line ? drink.span_of_amount(entry->index) : drink.span_of_step(entry->index),
             drink.house.specs[entry->use.stock].is_prep ? fmt::format("`{}` holds raw egg", entry->name)
                                                         : fmt::format("`{}` is raw egg", entry->name),
             caution(drink.house.specs));
}

void raw_egg(const PrepCase& prep, Reporter& report) {
  const auto* entry = model::raw_egg_in(prep.house.specs, prep.house.facts, prep.facts.entries,
                                        prep.facts.trace, prep.prep.recipe);
  if (!entry) return;
  report.add(entry->role == model::Role::amount ? prep.span_of_amount(entry->index) : prep.name_span(),
             fmt::format("`{}` goes in raw, and the prep is kept", entry->name),
             fmt::format("{} Keep it at {}, and date it: a day or two is usual.", caution(prep.house.specs),
                         cold_limit(prep.house.specs)));
}

}  // namespace gill::lint

#include <fmt/format.h>

#include <algorithm>

#include "analysis/groups.h"
#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// FDA Food Code 2022, 3-401.11 (from memory): raw eggs broken for service are cooked to 63 °C for 15 s.
constexpr double cooked_from_c = 63;
constexpr double cooked_for_s = 15;

/// A line that heats the egg through: what the spec orders, never what the simulation reckons.
bool is_cooked(const std::vector<model::TraceStep>& trace, const analysis::Recipe& recipe,
               analysis::StockId egg) {
  return std::any_of(trace.begin(), trace.end(), [&](const model::TraceStep& step) {
    if (step.is_amount || !holds(step, egg)) return false;
    const auto& line = recipe.steps[step.index];
    if (line.verb == analysis::Verb::simmer) return true;
    return line.verb == analysis::Verb::heat && line.temperature &&
           line.temperature->number() >= cooked_from_c && line.time && line.time->number() >= cooked_for_s;
  });
}

/// True when the part is raw egg, or a prep (to any depth) into which raw egg goes and is not cooked.
bool brings_raw_egg(const House& house, analysis::StockId id) {
  const auto& stock = house.specs[id];
  if (analysis::is_raw_egg(stock)) return true;
  if (!stock.is_prep) return false;
  const auto& facts = house.facts[id];
  return std::any_of(facts.uses.begin(), facts.uses.end(), [&](analysis::StockId used) {
    return analysis::is_raw_egg(house.specs[used]) && !is_cooked(facts.trace, stock.recipe, used);
  });
}

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
  for (const auto& entry : drink.facts.entries) {
    if (!brings_raw_egg(drink.house, entry.use.stock) ||
        is_cooked(drink.facts.trace, drink.drink.recipe, entry.use.stock))
      continue;
    bool is_line = entry.role == model::Role::amount;
    report.add(is_line ? drink.span_of_amount(entry.index) : drink.span_of_step(entry.index),
               drink.house.specs[entry.use.stock].is_prep ? fmt::format("`{}` holds raw egg", entry.name)
                                                          : fmt::format("`{}` is raw egg", entry.name),
               caution(drink.house.specs));
    return;
  }
}

void raw_egg(const PrepCase& prep, Reporter& report) {
  for (const auto& entry : prep.facts.entries) {
    if (!brings_raw_egg(prep.house, entry.use.stock) ||
        is_cooked(prep.facts.trace, prep.prep.recipe, entry.use.stock))
      continue;
    report.add(entry.role == model::Role::amount ? prep.span_of_amount(entry.index) : prep.name_span(),
               fmt::format("`{}` goes in raw, and the prep is kept", entry.name),
               fmt::format("{} Keep it at {}, and date it: a day or two is usual.", caution(prep.house.specs),
                           cold_limit(prep.house.specs)));
    return;
  }
}

}  // namespace gill::lint

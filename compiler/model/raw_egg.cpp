#include "model/raw_egg.h"

#include <algorithm>

#include "analysis/groups.h"

namespace gill::model {
namespace {

// FDA Food Code 2022, 3-401.11 (from memory): raw eggs broken for service are cooked to 63 °C for 15 s.
constexpr double cooked_from_c = 63;
constexpr double cooked_for_s = 15;

}  // namespace

bool holds(const TraceStep& step, analysis::StockId stock) {
  return std::find(step.contents.begin(), step.contents.end(), stock) != step.contents.end();
}

bool is_egg_cooked(const std::vector<TraceStep>& trace, const analysis::Recipe& recipe,
                   analysis::StockId egg) {
  return std::any_of(trace.begin(), trace.end(), [&](const TraceStep& step) {
    if (step.is_amount || !holds(step, egg)) return false;
    const auto& line = recipe.steps[step.index];
    if (line.verb == analysis::Verb::simmer) return true;
    return line.verb == analysis::Verb::heat && line.temperature &&
           line.temperature->number() >= cooked_from_c && line.time && line.time->number() >= cooked_for_s;
  });
}

bool brings_raw_egg(const analysis::Specs& specs, const HouseFacts& facts, analysis::StockId part) {
  const auto& stock = specs[part];
  if (analysis::is_raw_egg(stock)) return true;
  if (!stock.is_prep) return false;
  const auto& of_prep = facts[part];
  return std::any_of(of_prep.uses.begin(), of_prep.uses.end(), [&](analysis::StockId used) {
    return analysis::is_raw_egg(specs[used]) && !is_egg_cooked(of_prep.trace, stock.recipe, used);
  });
}

const Entry* raw_egg_in(const analysis::Specs& specs, const HouseFacts& facts,
                        const std::vector<Entry>& entries, const std::vector<TraceStep>& trace,
                        const analysis::Recipe& recipe) {
  auto found = std::find_if(entries.begin(), entries.end(), [&](const Entry& entry) {
    return brings_raw_egg(specs, facts, entry.use.stock) && !is_egg_cooked(trace, recipe, entry.use.stock);
  });
  return found == entries.end() ? nullptr : &*found;
}

}  // namespace gill::model

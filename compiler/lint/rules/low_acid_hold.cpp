#include <fmt/format.h>

#include <algorithm>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// FDA Food Code 2022, 1-201.10, table B: above 0.92 aw a measured pH below this asks for no control of time
// and temperature.
constexpr double acid_below_ph = 4.2;
// FDA Food Code 2022, 3-502.12: what is packed without air and holds more water activity than this wants cold
// and a plan.
constexpr double dense_to_activity = 0.91;
// FDA Food Code 2022, 3-501.17: seven days in the cold; 3-502.12(F): 48 hours without air.
constexpr double cold_days = 7;
constexpr double airless_days = 2;

bool is_packed_airless(const analysis::Recipe& recipe) {
  if (std::any_of(recipe.amounts.begin(), recipe.amounts.end(),
                  [](const analysis::Amount& amount) { return amount.sealed; }))
    return true;
  return std::any_of(recipe.steps.begin(), recipe.steps.end(), [](const analysis::Step& step) {
    return step.verb == analysis::Verb::bottle &&
           std::any_of(step.notes.begin(), step.notes.end(),
                       [](const std::string& note) { return note == "pouch" || note == "can"; });
  });
}

/// Egg or dairy that is still in it; curd and fat that were taken out aside.
bool holds_animal_food(const PrepCase& prep) {
  if (prep.facts.trace.empty()) return false;
  for (const auto& step : prep.prep.recipe.steps)
    if (step.verb == analysis::Verb::clarify) return false;
  const auto& contents = prep.facts.trace.back().contents;
  return std::any_of(contents.begin(), contents.end(), [&](analysis::StockId id) {
    auto kind = prep.house.specs[id].kind;
    return kind == analysis::StockKind::egg || kind == analysis::StockKind::dairy;
  });
}

}  // namespace

void low_acid_hold(const PrepCase& prep, Reporter& report) {
  const auto& masses = prep.facts.composition.per_gram;
  if (!prep.prep.keeps || !prep.facts.keeps_days || masses[model::Component::water] < dry_below_water) return;
  if (prep.facts.storage == analysis::Storage::frozen) return;
  bool animal = holds_animal_food(prep), airless = is_packed_airless(prep.prep.recipe);
  bool warm = prep.facts.storage == analysis::Storage::ambient;
  if (!warm && *prep.facts.keeps_days <= (airless ? airless_days : cold_days)) return;
  if (prep.prep.ph && *prep.prep.ph < acid_below_ph) return;
  // What is strong or dense is another hazard, if one; what held an animal is of this one whatever its
  // strength.
  if (!animal && (reaches_strength(model::strength(masses), self_keeping_strength) ||
                  water_activity(masses) <= dense_to_activity))
    return;
  auto found = prep.prep.property_spans.find("keeps");
  std::string kept =
      fmt::format("`{}` is kept {} {}{}", prep.prep.head.name, duration_words(*prep.facts.keeps_days),
                  analysis::name_of(*prep.facts.storage), airless ? ", without air" : "");
  report.add(found == prep.prep.property_spans.end() ? prep.name_span() : found->second,
             prep.prep.ph ? fmt::format("{}, at a measured pH of {:.2g}", kept, *prep.prep.ph)
                          : fmt::format("{}, and its pH has not been measured", kept),
             fmt::format("Low-acid food grows bacteria, botulism among them where no air gets in. Keep it at "
                         "{}, seven days at most (FDA Food "
                         "Code 2022, 3-501.17), or freeze it.{} {}",
                         cold_limit(prep.house.specs),
                         prep.prep.ph ? ""
                                      : " Read a meter on every batch and write `pH 3.2`, say: what could be "
                                        "reckoned from the recipe does not count.",
                         who_decides));
}

}  // namespace gill::lint

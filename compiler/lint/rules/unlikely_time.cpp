#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

namespace {

/// What hands do behind a bar, in seconds. Common practice, no source.
struct UsualTime {
  spec::Verb verb;
  double shortest, longest;
  std::string_view usual;
};
constexpr UsualTime usual_times[] = {
    {spec::Verb::dry_shake, 3, 60, "10 to 20 s"}, {spec::Verb::shake, 3, 60, "8 to 15 s"},
    {spec::Verb::whip, 2, 60, "5 to 10 s"},       {spec::Verb::stir, 3, 180, "20 to 45 s"},
    {spec::Verb::swizzle, 3, 90, "15 to 25 s"},   {spec::Verb::churn, 3, 90, "10 to 20 s"},
    {spec::Verb::blend, 2, 120, "15 to 25 s"},
};

}  // namespace

void unlikely_time(const DrinkCase& drink, Reporter& report) {
  // A bowl takes longer than a glass.
  if (drink.drink.serves > 1) return;
  for (const auto& line : drink.drink.recipe.order) {
    if (line.is_amount || line.inherited) continue;
    const auto& step = drink.drink.recipe.steps[line.index];
    if (!step.time) continue;
    for (const auto& usual : usual_times) {
      double seconds = step.time->number();
      if (usual.verb != step.verb || (seconds >= usual.shortest && seconds <= usual.longest)) continue;
      auto name = spec::info(step.verb).name;
      report.add(step.time->span, fmt::format("nobody gives a {} {:.3g} s", name, seconds),
                 fmt::format("A usual one takes {}. Was another unit meant?", usual.usual));
    }
  }
}

}  // namespace gill::lint

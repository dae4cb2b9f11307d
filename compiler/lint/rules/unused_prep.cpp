#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void unused_prep(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  // Of a drink that could not be read whole it is not known what it uses.
  for (const auto& drink : specs.drinks)
    if (!drink.head.from_library && drink.head.has_errors) return;
  for (std::size_t i = 0; i < specs.stock.size(); ++i) {
    const auto& prep = specs.stock[i];
    if (!prep.is_prep || prep.head.from_library || judged.house.uses[i] > 0) continue;
    judged.about(prep).add(
        prep.head.name_span, fmt::format("no drink and no prep uses `{}`", prep.head.name),
        "Pour it, or take it out of the house: the plan leaves it out, and nobody makes it.");
  }
}

}  // namespace gill::lint

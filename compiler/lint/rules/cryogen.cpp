#include <fmt/format.h>

#include "lint/hazards.h"
#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

void cryogen(const DrinkCase& drink, Reporter& report) {
  report_hazards(diagnostics::Rule::cryogen, drink, report);
  auto judge_ice = [&](const analysis::IceUse& use, source::Span span) {
    if (!use.ice.valid()) return;
    const auto& name = drink.house.specs[use.ice].head.name;
    if (const auto* hazard = find_hazard(diagnostics::Rule::cryogen, name))
      report.add(span, fmt::format("`{}` {}", name, hazard->what),
                 fmt::format("Serve on ice made of water. {} (Source: {}.)", who_decides, hazard->source));
  };
  if (drink.drink.ice.kind == analysis::GlassIce::Kind::given)
    judge_ice(drink.drink.ice.use, drink.drink.ice.use.span.file_id.valid() && !drink.drink.like.valid()
                                       ? drink.drink.ice.use.span
                                       : drink.name_span());
  for (std::size_t i = 0; i < drink.drink.recipe.steps.size(); ++i)
    if (drink.drink.recipe.steps[i].ice) judge_ice(*drink.drink.recipe.steps[i].ice, drink.span_of_step(i));
}

void cryogen(const PrepCase& prep, Reporter& report) {
  report_hazards(diagnostics::Rule::cryogen, prep, report);
}

}  // namespace gill::lint

// Any bytes are a house: it is evaluated, judged and told in every form, the forms hold what they promise,
// and no drink holds less of anything than nothing.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "diagnostics/render.h"
#include "fuzz/pantry.h"
#include "lint/lint.h"
#include "render/facts/facts_json.h"

namespace {

void require_possible(const gill::model::Figures& figures) {
  for (double value : {figures.volume_ml, figures.mass_g, figures.abv_percent, figures.sugar_g_per_100ml,
                       figures.acid_g_per_100ml})
    if (!std::isfinite(value) || value < 0) std::abort();
  if (figures.abv_percent > 100 + 1e-6) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace gill;
  auto house = fuzzing::pantry();
  house.parse_files({{"fuzz.gill", fuzzing::text_of(data, size)}}, false);
  house.run();
  auto facts = model::evaluate(house.specs, house.units, house.sink);
  for (const auto& drink : facts.drinks)
    if (drink.valid) require_possible(drink.served);
  auto result = lint::judge({house.specs, facts, house.units}, house.sink.all());
  fuzzing::require_utf8(diagnostics::render_text(result.shown, house.sources, true));
  render::FactsInput input{house.specs, facts, house.units, house.names, house.sources, {}};
  fuzzing::require_utf8(render::facts_text(input));
  fuzzing::require_utf8(render::facts_csv(input));
  (void)nlohmann::json::parse(render::facts_json(input));
  return 0;
}

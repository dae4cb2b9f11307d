// Any bytes are a till's or a supplier's table: what is understood is told with a line of the file, and the
// price list that is written of it is text.
#include <cmath>
#include <cstdint>
#include <cstdlib>

#include "fuzz/pantry.h"
#include "render/facts/calibration_json.h"
#include "stock/counts.h"
#include "stock/measurements.h"
#include "stock/price_list.h"

namespace {

void require_lines(const std::vector<gill::base::RowProblem>& problems) {
  for (const auto& problem : problems)
    if (problem.message.empty()) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace gill;
  const auto& house = fuzzing::evaluated_pantry();
  auto bytes = fuzzing::text_of(data, size);
  require_lines(stock::read_counts(bytes, house).problems);
  require_lines(stock::read_sales(bytes, house).problems);
  auto measured = stock::read_measurements(bytes, house);
  require_lines(measured.problems);
  if (!measured.measured.empty()) {
    auto calibration = model::calibrate(house.specs, house.units, house.facts, std::move(measured.measured));
    for (const auto& finding : calibration.findings)
      if (!std::isfinite(finding.value) || !std::isfinite(finding.error) || !(finding.width >= 0))
        std::abort();
    fuzzing::require_utf8(render::calibration_json(calibration, house, "table.csv"));
  }
  auto list = stock::read_price_list(bytes, house, "EUR");
  require_lines(list.unused());
  fuzzing::require_utf8(stock::price_list_text(list, house, "A supplier", {}));
  return 0;
}

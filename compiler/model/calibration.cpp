#include "model/calibration.h"

#include <fmt/format.h>

#include "model/calibration_fit.h"
#include "model/measured_runs.h"
#include "model/next_measurements.h"

namespace gill::model {

std::vector<MeasuredOf> measurements_of(const analysis::Specs& specs) {
  std::vector<MeasuredOf> all;
  for (std::size_t i = 0; i < specs.drinks.size(); ++i)
    for (const auto& measurement : specs.drinks[i].measured)
      all.push_back({analysis::DrinkId::at(i), {}, measurement});
  for (std::size_t i = 0; i < specs.stock.size(); ++i)
    for (const auto& measurement : specs.stock[i].measured)
      all.push_back({{}, analysis::StockId::at(i), measurement});
  return all;
}

Calibration calibrate(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
                      std::vector<MeasuredOf> measured) {
  Calibration result;
  result.measured = std::move(measured);
  MeasuredRuns runs(specs, units, facts);
  for (std::size_t i = 0; i < result.measured.size(); ++i) runs.add(i, result);
  fit_calibration(runs, specs.house.ice_c, result);
  result.next = next_measurements(specs, units, facts, result.findings);
  return result;
}

std::vector<std::string> house_lines(const Calibration& calibration) {
  std::vector<std::string> lines;
  for (const auto& finding : calibration.findings) {
    switch (finding.what) {
      case CalibrationFinding::What::melt:
        lines.push_back(fmt::format("hands {} melt {:.2f} ± {:.2f}",
                                    analysis::info(verb_of(finding.method)).name, finding.value,
                                    finding.width));
        break;
      case CalibrationFinding::What::hold:
        lines.push_back(fmt::format("hands strain hold {:.2f} ± {:.2f}", finding.value, finding.width));
        break;
      case CalibrationFinding::What::ice_temperature:
        lines.push_back(fmt::format("ice {:.1f} C", finding.value));
        break;
    }
  }
  return lines;
}

}  // namespace gill::model

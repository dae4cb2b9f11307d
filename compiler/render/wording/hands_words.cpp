#include "render/wording/hands_words.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/wording/numbers.h"

namespace gill::render::wording {

using model::CalibrationFinding;
using model::CalibrationPoint;

std::string name_of(const CalibrationFinding& finding) {
  switch (finding.what) {
    case CalibrationFinding::What::melt:
      return std::string(analysis::info(model::verb_of(finding.method)).name);
    case CalibrationFinding::What::hold:
      return "solids in a strain";
    case CalibrationFinding::What::ice_temperature:
      return "ice";
  }
  return {};
}

std::string value_of(const CalibrationFinding& finding) {
  if (finding.what == CalibrationFinding::What::ice_temperature)
    return fmt::format("{:.1f} ± {:.1f} C", finding.value, finding.width);
  return fmt::format("{:.2f} ± {:.2f}", finding.value, finding.width);
}

std::string sentence_of(const CalibrationFinding& finding) {
  std::string by =
      fmt::format("by {} {}", finding.points, finding.points == 1 ? "measurement" : "measurements");
  switch (finding.what) {
    case CalibrationFinding::What::melt:
      return fmt::format(
          "A {} here melts {:.2f} times the usual, known to ± {:.2f} {}; the next one lies within ± {:.2f}.",
          name_of(finding), finding.value, finding.error, by, finding.width);
    case CalibrationFinding::What::hold:
      return fmt::format("Strained solids here hold {:.2f} times the usual, known to ± {:.2f} {}.",
                         finding.value, finding.error, by);
    case CalibrationFinding::What::ice_temperature:
      return fmt::format("The ice is at {:.1f} C, known to ± {:.1f} {}.", finding.value, finding.error, by);
  }
  return {};
}

std::string name_of(const model::MeasuredOf& measured, const analysis::Specs& specs) {
  const auto& head = measured.drink.valid() ? specs[measured.drink].head : specs[measured.prep].head;
  return head.name + ", " + measured.measurement.date;
}

std::string place_of(const model::MeasuredOf& measured, const source::SourceSet& sources,
                     const std::string& table) {
  const auto& measurement = measured.measurement;
  if (measurement.row > 0) return fmt::format("{}:{}", table, measurement.row);
  if (!measurement.span.file_id.valid()) return {};
  const auto& file = sources[measurement.span.file_id];
  return fmt::format("{}:{}", file.path, file.place_of(measurement.span).line);
}

std::string amount_of(const CalibrationPoint& point, double value) {
  switch (point.of) {
    case CalibrationPoint::Of::amount:
      return fmt::format("{:.0f} {}", value, point.unit);
    case CalibrationPoint::Of::temperature:
    case CalibrationPoint::Of::brix:
      return fmt::format("{:.1f} {}", value, point.unit);
  }
  return {};
}

std::string sentence_of(const model::NextMeasurement& next, const analysis::Specs& specs) {
  return fmt::format(
      "Weigh one {} before its ice and after it ({}): what hands leave open of the strengths of these drinks "
      "goes from "
      "± {:.2f} to ± {:.2f} % abv.",
      specs[next.drink].head.name, analysis::info(model::verb_of(next.method)).name, next.doubt_before,
      next.doubt_after);
}

}  // namespace gill::render::wording

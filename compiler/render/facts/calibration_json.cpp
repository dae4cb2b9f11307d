#include "render/facts/calibration_json.h"

#include "base/json.h"
#include "render/wording/hands_words.h"

namespace gill::render {

using base::Json;
using model::CalibrationFinding;
using model::CalibrationPoint;

namespace {

std::string_view code_of(CalibrationFinding::What what) {
  switch (what) {
    case CalibrationFinding::What::melt:
      return "melt";
    case CalibrationFinding::What::hold:
      return "hold";
    case CalibrationFinding::What::ice_temperature:
      return "ice_temperature_c";
  }
  return {};
}

std::string_view code_of(CalibrationPoint::Of of) {
  switch (of) {
    case CalibrationPoint::Of::amount:
      return "amount";
    case CalibrationPoint::Of::temperature:
      return "temperature";
    case CalibrationPoint::Of::brix:
      return "brix";
  }
  return {};
}

const analysis::Head& head_of(const model::MeasuredOf& measured, const BookInput& input) {
  return measured.drink.valid() ? input.specs[measured.drink].head : input.specs[measured.prep].head;
}

Json json_of(const CalibrationPoint& point, const model::MeasuredOf& measured, const BookInput& input,
             const std::string& table) {
  return {{"name", head_of(measured, input).name},
          {"date", measured.measurement.date},
          {"place", wording::place_of(measured, input.sources, table)},
          {"of", code_of(point.of)},
          {"unit", point.unit},
          {"measured", point.value},
          {"error", point.error},
          {"usual", point.usual},
          {"found", point.found},
          {"factor", point.finding ? Json(point.factor) : Json(nullptr)},
          {"factor_error", point.finding ? Json(point.factor_error) : Json(nullptr)},
          {"left_out", point.is_outlier}};
}

}  // namespace

std::string calibration_json(const model::Calibration& calibration, const BookInput& input,
                             const std::string& table) {
  Json root = {{"format", "gill-calibration"}, {"version", 1}, {"house", input.specs.house.head.name}};
  root["findings"] = Json::array();
  for (const auto& finding : calibration.findings)
    root["findings"].push_back({{"of", wording::name_of(finding)},
                                {"what", code_of(finding.what)},
                                {"value", finding.value},
                                {"known_to", finding.error},
                                {"next_within", finding.width},
                                {"measurements", finding.points}});
  root["lines"] = model::house_lines(calibration);
  root["measurements"] = Json::array();
  for (const auto& point : calibration.points)
    root["measurements"].push_back(json_of(point, calibration.measured[point.measured], input, table));
  root["unused"] = Json::array();
  for (const auto& unused : calibration.unused) {
    const auto& measured = calibration.measured[unused.measured];
    root["unused"].push_back({{"name", head_of(measured, input).name},
                              {"place", wording::place_of(measured, input.sources, table)},
                              {"why", unused.reason}});
  }
  root["next"] = Json::array();
  for (const auto& next : calibration.next)
    root["next"].push_back({{"drink", input.specs[next.drink].head.name},
                            {"step", analysis::info(model::verb_of(next.method)).name},
                            {"doubt_before_abv_percent", next.doubt_before},
                            {"doubt_after_abv_percent", next.doubt_after}});
  return base::json_text(std::move(root));
}

}  // namespace gill::render

#pragma once
#include <optional>
#include <string>
#include <vector>

#include "model/facts.h"
#include "model/hands.h"

/// What a house measured, held against what the model says: how its hands and its ice differ from the usual.
namespace gill::model {

/// One thing measured, of a drink or of a prep.
struct MeasuredOf {
  analysis::DrinkId drink;
  analysis::StockId prep;
  analysis::Measurement measurement;
};

/// One number of a measurement beside what the model says.
struct CalibrationPoint {
  enum class Of : std::uint8_t { amount, temperature, brix };
  std::size_t measured = 0;  ///< index in `Calibration::measured`
  Of of = Of::amount;
  /// Amounts in g or ml, as they were measured.
  std::string_view unit;
  double value = 0;
  /// How far the instrument, and what went in, leave it open.
  double error = 0;
  /// With the usual hands and the house's ice, and with what was found.
  double usual = 0, found = 0;
  /// Which factor it speaks for, and what that factor would be by it alone, ±; nothing for a temperature.
  std::optional<std::size_t> finding;
  double factor = 1, factor_error = 0;
  /// So far from all the others that it was left out.
  bool is_outlier = false;
};

/// What was found of one factor, or of the ice.
struct CalibrationFinding {
  enum class What : std::uint8_t { melt, hold, ice_temperature };
  What what = What::melt;
  ChillMethod method = ChillMethod::shake;
  /// A factor on the usual, or °C; what it is known to; and how far the next drink may lie from it.
  double value = 1, error = 0, width = 0;
  std::size_t points = 0;
};

/// A measurement that cannot be used, and why: what to do about it, as a sentence.
struct UnusedMeasurement {
  std::size_t measured = 0;
  std::string reason;
};

/// What to measure next: weigh or measure this drink before its ice and after it.
struct NextMeasurement {
  analysis::DrinkId drink;
  ChillMethod method = ChillMethod::shake;
  /// The doubt of the strength of the house's drinks, all together (root of the mean square, % abv), that
  /// hands make now and once it is done.
  double doubt_before = 0, doubt_after = 0;
};

struct Calibration {
  std::vector<MeasuredOf> measured;
  std::vector<CalibrationFinding> findings;
  std::vector<CalibrationPoint> points;
  std::vector<UnusedMeasurement> unused;
  /// The best two, the better first; fewer where the house has fewer drinks that melt ice.
  std::vector<NextMeasurement> next;
};

/// All that the house's own lines say was measured.
std::vector<MeasuredOf> measurements_of(const analysis::Specs& specs);

/// Weighted least squares over all measurements at once, each number by what it is good for; what lies more
/// than four of its own errors from a fit of the others is left out, one at a time. Always beside the usual
/// hands, whatever the house's `hands` lines say now.
Calibration calibrate(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
                      std::vector<MeasuredOf> measured);

/// The lines that make every drink follow: `hands shake melt 1.08 ± 0.06`, `ice -2.5 C`.
std::vector<std::string> house_lines(const Calibration& calibration);

}  // namespace gill::model

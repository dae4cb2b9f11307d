#pragma once
#include "diagnostics/diagnostic.h"
#include "model/calibration.h"
#include "model/program.h"
#include "model/program_builder.h"

namespace gill::model {

/// A measurement made ready to be run again as it was made: its amounts, time and ice.
struct MeasuredRun {
  std::size_t measured = 0;  ///< index in `Calibration::measured`
  BuiltProgram built;
  Perturbation scaled;
  /// The chilling that hands decide, and after which operation the drink was measured; neither for a prep.
  std::size_t chill = 0, end = 0;
  std::optional<ChillMethod> method;
  /// What a share of all that went in is unknown by.
  double before_share = 0;
};

/// The measurements that can be run again, and what the model says of each of their numbers.
class MeasuredRuns {
 public:
  MeasuredRuns(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts)
      : specs_(specs), facts_(facts), builder_(specs, units, facts.stock, unheard_) {}
  MeasuredRuns(const MeasuredRuns&) = delete;
  MeasuredRuns& operator=(const MeasuredRuns&) = delete;

  /// Makes a measurement of `result` ready and adds its numbers to the points there; what cannot be used goes
  /// to `unused` with the reason.
  void add(std::size_t measured, Calibration& result);

  /// What the model says of a point of the calibration, by its place there.
  double said(std::size_t index, const CalibrationPoint& point, const Hands& hands, double ice_c) const;

  /// The chilling that a point's drink is measured after; nothing for a prep.
  std::optional<ChillMethod> method_of(std::size_t point) const { return runs_[run_of_[point]].method; }

 private:
  std::optional<std::string> aim_at_drink(MeasuredRun& made, const analysis::Measurement& measurement) const;
  void scale_to_before(MeasuredRun& made, const analysis::Measurement& measurement) const;
  void add_points(Calibration& result);

  const analysis::Specs& specs_;
  const HouseFacts& facts_;
  diagnostics::DiagnosticSink unheard_;
  ProgramBuilder builder_;
  std::vector<MeasuredRun> runs_;
  /// By point.
  std::vector<std::size_t> run_of_;
};

}  // namespace gill::model

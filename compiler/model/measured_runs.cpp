#include "model/measured_runs.h"

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/constants.h"
#include "model/physics/readings.h"
#include "model/physics/volume.h"
#include "model/serving_ice.h"

namespace gill::model {

using analysis::Measurement;
using units::Kind;

namespace {

// How well the energy balance knows an end temperature, K: the reference's own comparison.
constexpr double balance_error_k = 1;

/// What a run comes to where it was measured.
struct RunState {
  Masses masses;
  double temperature_c = 20;
};

double amount_of(const Masses& masses, Kind kind, double celsius) {
  return kind == Kind::mass ? masses.liquid() : volume_ml(masses, celsius);
}

double amount_error(const units::Quantity& quantity) {
  if (quantity.tolerance && *quantity.tolerance > 0) return *quantity.tolerance;
  return quantity.kind == Kind::mass ? scale_error_g
                                     : std::max(jug_error_ml, jug_error_share * quantity.number());
}

/// The operation after which a drink was measured: the first that takes it off its ice, else the chilling
/// itself.
std::size_t measured_after(const Program& program, std::size_t chill) {
  for (std::size_t i = chill + 1; i < program.operations.size(); ++i) {
    const auto& operation = program.operations[i];
    if (operation.as<operation::StrainToGlass>() || operation.as<operation::StrainToTin>() ||
        operation.as<operation::Dump>())
      return i;
  }
  return chill;
}

RunState run_again(const MeasuredRun& of, const Hands& hands, double ice_c) {
  Program program = of.built.program;
  program.hands = hands;
  for (auto& operation : program.operations)
    if (auto* chill = std::get_if<operation::Chill>(&operation.act))
      chill->ice_temperature = units::Celsius(ice_c);
  Simulator simulator(program);
  if (!of.method) {
    const Outcome& outcome = simulator.run(of.scaled);
    return {outcome.liquid, outcome.temperature_c};
  }
  std::vector<TraceStep> trace;
  simulator.run(of.scaled, &trace);
  return {trace[of.end].after.masses, trace[of.chill].after.temperature_c};
}

}  // namespace

void MeasuredRuns::add(std::size_t measured, Calibration& result) {
  const auto& of = result.measured[measured];
  auto unused = [&](std::string reason) { result.unused.push_back({measured, std::move(reason)}); };
  bool is_drink = of.drink.valid();
  if (is_drink ? !facts_[of.drink].valid : !facts_[of.prep].valid)
    return unused("There is an error in it; mend that first.");
  MeasuredRun made;
  made.measured = measured;
  made.built = is_drink ? builder_.build(specs_[of.drink]) : builder_.build(specs_[of.prep]);
  if (is_drink) {
    if (auto reason = aim_at_drink(made, of.measurement)) return unused(std::move(*reason));
  } else {
    // What solids hold is what is asked: the yield that the prep states must not answer.
    made.built.program.yield_measured = false;
  }
  scale_to_before(made, of.measurement);
  runs_.push_back(std::move(made));
  add_points(result);
}

/// Sets the step that was measured as it was done; the reason where there is none such.
std::optional<std::string> MeasuredRuns::aim_at_drink(MeasuredRun& made,
                                                      const Measurement& measurement) const {
  Program& program = made.built.program;
  std::optional<ChillMethod> wanted;
  if (measurement.verb) {
    wanted = chill_method_of(*measurement.verb);
    if (!wanted) return "It names a step in which hands melt no ice.";
  }
  auto chill_at = first_melt(program, wanted);
  if (!chill_at)
    return wanted ? "The drink has no such step." : "The drink has no step in which hands melt ice.";
  made.chill = *chill_at;
  auto& chill = std::get<operation::Chill>(program.operations[made.chill].act);
  made.method = chill.method;
  if (measurement.time) {
    bool passes = measurement.time->kind == Kind::count;
    if (passes != counts_passes(chill.method))
      return passes ? "This step takes a time, not a count." : "This step takes a count, not a time.";
    if (!(measurement.time->number() > 0) || measurement.time->number() > longest_by_hand)
      return "Nobody does that for so long.";
    chill.time = measurement.time->number();
  }
  if (measurement.ice) {
    chill.melt_rate = specs_[measurement.ice->ice].melt;
    if (is_ice_measured(*measurement.ice, specs_))
      chill.ice = ice_mass(*measurement.ice, specs_, units::Millilitres(unnamed_glass_ml));
  }
  made.end = measured_after(program, made.chill);
  return std::nullopt;
}

/// Pours as much as was measured before; else the recipe's, as exactly as jiggers pour.
void MeasuredRuns::scale_to_before(MeasuredRun& made, const Measurement& measurement) const {
  made.before_share = jigger_share;
  if (!measurement.before) return;
  std::vector<TraceStep> trace;
  Simulator simulator(made.built.program);
  Outcome outcome = simulator.run({}, &trace);
  const Masses& before = made.method ? trace[made.chill].before.masses : outcome.mixed;
  double predicted = amount_of(before, measurement.before->kind, specs_.house.room_c);
  if (!(predicted > 0)) return;
  double factor = measurement.before->number() / predicted;
  made.scaled.amounts.assign(made.built.program.operations.size(), 1.0);
  for (std::size_t i = 0; i < made.built.program.operations.size(); ++i)
    if (!made.built.program.operations[i].as<operation::Until>()) made.scaled.amounts[i] = factor;
  made.before_share = amount_error(*measurement.before) / measurement.before->number();
}

/// The numbers of the run that was made ready last.
void MeasuredRuns::add_points(Calibration& result) {
  const MeasuredRun& of = runs_.back();
  const auto& measurement = result.measured[of.measured].measurement;
  auto add = [&](CalibrationPoint::Of what, std::string_view unit, double value, double error) {
    CalibrationPoint point;
    point.measured = of.measured;
    point.of = what;
    point.unit = unit;
    point.value = value;
    point.error = error;
    result.points.push_back(point);
    run_of_.push_back(runs_.size() - 1);
  };
  if (measurement.after)
    add(CalibrationPoint::Of::amount, measurement.after->kind == Kind::mass ? "g" : "ml",
        measurement.after->number(),
        std::hypot(amount_error(*measurement.after), of.before_share * measurement.after->number()));
  if (measurement.temperature && of.method)
    add(CalibrationPoint::Of::temperature, "C", measurement.temperature->number(),
        std::hypot(measurement.temperature->tolerance.value_or(thermometer_error_k), balance_error_k));
  if (measurement.brix) {
    double own = measurement.brix->tolerance ? base::percent_of_share(*measurement.brix->tolerance)
                                             : refractometer_error_brix;
    RunState usual = run_again(of, Hands(), specs_.house.ice_c);
    add(CalibrationPoint::Of::brix, "brix", base::percent_of_share(measurement.brix->number()),
        std::hypot(own, refractometer_doubt_brix(usual.masses)));
  }
}

double MeasuredRuns::said(std::size_t index, const CalibrationPoint& point, const Hands& hands,
                          double ice_c) const {
  const MeasuredRun& run = runs_[run_of_[index]];
  const RunState state = run_again(run, hands, ice_c);
  switch (point.of) {
    case CalibrationPoint::Of::amount: {
      auto kind = point.unit == "g" ? Kind::mass : Kind::volume;
      return amount_of(state.masses, kind, run.method ? state.temperature_c : specs_.house.room_c);
    }
    case CalibrationPoint::Of::temperature:
      return state.temperature_c;
    case CalibrationPoint::Of::brix:
      return refractometer_brix(state.masses).value_or(0);
  }
  return 0;
}

}  // namespace gill::model

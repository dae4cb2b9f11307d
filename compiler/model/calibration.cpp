#include "model/calibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/least_squares.h"
#include "base/percent.h"
#include "model/constants.h"
#include "model/physics/readings.h"
#include "model/physics/volume.h"
#include "model/program_builder.h"
#include "model/serving_ice.h"

namespace gill::model {

namespace {

using analysis::Measurement;
using units::Kind;

// How well the energy balance knows an end temperature, K: the reference's own comparison.
constexpr double balance_error_k = 1;
// One drink beside the next of the same hands, as a share of the melt: what one more measurement is good for.
// Common practice, no source.
constexpr double one_bar_scatter = 0.05;

// A number so many of its own errors from a fit of the others, and so many instrument errors, is an outlier.
constexpr double outlier_studentized = 4, outlier_errors = 3;
// From so many on, their own scatter says how far the next one lies.
constexpr std::size_t enough_for_scatter = 3;
constexpr double least_width = 0.01;
constexpr double least_factor = 0.05, most_factor = 5, coldest_ice_c = -40;
constexpr std::size_t enough_temperatures = 2;

/// What a run comes to where it was measured.
struct State {
  Masses masses;
  double temperature_c = 20;
};

/// One measurement made ready to be run again.
struct Case {
  std::size_t measured = 0;
  BuiltProgram built;
  Perturbation scaled;
  /// The chilling that hands decide, and after which operation the drink was measured; neither for a prep.
  std::size_t chill = 0, end = 0;
  std::optional<ChillMethod> method;
  /// What a share of all that went in is unknown by.
  double before_share = 0;
};

double amount_of(const Masses& masses, Kind kind, double celsius) {
  return kind == Kind::mass ? masses.liquid() : volume_ml(masses, celsius);
}

double amount_error(const units::Quantity& quantity) {
  if (quantity.tolerance && *quantity.tolerance > 0) return *quantity.tolerance;
  return quantity.kind == Kind::mass ? scale_error_g
                                     : std::max(jug_error_ml, jug_error_share * quantity.number());
}

class Calibrator {
 public:
  Calibrator(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
             std::vector<MeasuredOf> measured)
      : specs_(specs), facts_(facts), builder_(specs, units, facts.stock, unheard_) {
    result_.measured = std::move(measured);
  }

  Calibration run() {
    for (std::size_t i = 0; i < result_.measured.size(); ++i) make_ready(i);
    choose_findings();
    fit();
    finish();
    suggest();
    return std::move(result_);
  }

 private:
  void unused(std::size_t index, std::string reason) { result_.unused.push_back({index, std::move(reason)}); }

  // ---- measurements made ready

  void make_ready(std::size_t index) {
    const auto& of = result_.measured[index];
    bool is_drink = of.drink.valid();
    if (is_drink ? !facts_[of.drink].valid : !facts_[of.prep].valid)
      return unused(index, "There is an error in it; mend that first.");
    Case made;
    made.measured = index;
    made.built = is_drink ? builder_.build(specs_[of.drink]) : builder_.build(specs_[of.prep]);
    if (is_drink ? !aim_at_drink(made, of.measurement) : !aim_at_prep(made)) return;
    scale_to_before(made, of.measurement);
    cases_.push_back(std::move(made));
    add_points(cases_.size() - 1);
  }

  bool aim_at_drink(Case& made, const Measurement& measurement) {
    Program& program = made.built.program;
    auto fail = [&](std::string reason) { return unused(made.measured, std::move(reason)), false; };
    std::optional<ChillMethod> wanted;
    if (measurement.verb) {
      wanted = chill_method_of(*measurement.verb);
      if (!wanted) return fail("It names a step in which hands melt no ice.");
    }
    auto chill_at = first_melt(program, wanted);
    if (!chill_at)
      return fail(wanted ? "The drink has no such step." : "The drink has no step in which hands melt ice.");
    made.chill = *chill_at;
    auto& chill = std::get<operation::Chill>(program.operations[made.chill].act);
    made.method = chill.method;
    if (measurement.time) {
      bool passes = measurement.time->kind == Kind::count;
      if (passes != counts_passes(chill.method))
        return fail(passes ? "This step takes a time, not a count." : "This step takes a count, not a time.");
      if (!(measurement.time->number() > 0) || measurement.time->number() > longest_by_hand)
        return fail("Nobody does that for so long.");
      chill.time = measurement.time->number();
    }
    if (measurement.ice) {
      chill.melt_rate = specs_[measurement.ice->ice].melt;
      if (is_ice_measured(*measurement.ice, specs_))
        chill.ice = ice_mass(*measurement.ice, specs_, units::Millilitres(unnamed_glass_ml));
    }
    made.end = made.chill;
    for (std::size_t i = made.chill + 1; i < program.operations.size(); ++i) {
      const auto& operation = program.operations[i];
      if (operation.as<operation::StrainToGlass>() || operation.as<operation::StrainToTin>() ||
          operation.as<operation::Dump>()) {
        made.end = i;
        break;
      }
    }
    return true;
  }

  bool aim_at_prep(Case& made) {
    // What solids hold is what is asked: the yield that the prep states must not answer.
    made.built.program.yield_measured = false;
    return true;
  }

  /// Pours as much as was measured before; else the recipe's, as exactly as jiggers pour.
  void scale_to_before(Case& made, const Measurement& measurement) {
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

  void add_points(std::size_t index) {
    const Case& of = cases_[index];
    const auto& measurement = result_.measured[of.measured].measurement;
    auto add = [&](CalibrationPoint::Of what, std::string_view unit, double value, double error) {
      CalibrationPoint point;
      point.measured = of.measured;
      point.of = what;
      point.unit = unit;
      point.value = value;
      point.error = error;
      result_.points.push_back(point);
      case_of_.push_back(index);
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
      State usual = run(of, Hands(), specs_.house.ice_c);
      add(CalibrationPoint::Of::brix, "brix", base::percent_of_share(measurement.brix->number()),
          std::hypot(own, refractometer_doubt_brix(usual.masses)));
    }
  }

  // ---- what the model says

  static State run(const Case& of, const Hands& hands, double ice_c) {
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

  double said(std::size_t point, const Hands& hands, double ice_c) const {
    const auto& of = result_.points[point];
    const Case& run_again = cases_[case_of_[point]];
    State state = run(run_again, hands, ice_c);
    switch (of.of) {
      case CalibrationPoint::Of::amount: {
        auto kind = of.unit == "g" ? Kind::mass : Kind::volume;
        return amount_of(state.masses, kind, run_again.method ? state.temperature_c : specs_.house.room_c);
      }
      case CalibrationPoint::Of::temperature:
        return state.temperature_c;
      case CalibrationPoint::Of::brix:
        return refractometer_brix(state.masses).value_or(0);
    }
    return 0;
  }

  // ---- least squares

  /// Which factors the points speak for.
  void choose_findings() {
    std::size_t temperatures = 0;
    for (std::size_t i = 0; i < result_.points.size(); ++i) {
      auto& point = result_.points[i];
      const auto& method = cases_[case_of_[i]].method;
      if (point.of == CalibrationPoint::Of::temperature) {
        ++temperatures;
        continue;
      }
      CalibrationFinding wanted;
      wanted.what = method ? CalibrationFinding::What::melt : CalibrationFinding::What::hold;
      wanted.method = method.value_or(ChillMethod::shake);
      if (!moves(i, wanted)) continue;
      auto same = std::find_if(result_.findings.begin(), result_.findings.end(), [&](const auto& known) {
        return known.what == wanted.what && known.method == wanted.method;
      });
      point.finding = static_cast<std::size_t>(same - result_.findings.begin());
      if (same == result_.findings.end()) result_.findings.push_back(wanted);
    }
    if (temperatures < enough_temperatures) return;
    CalibrationFinding ice;
    ice.what = CalibrationFinding::What::ice_temperature;
    ice.value = std::clamp(specs_.house.ice_c, coldest_ice_c, 0.0);
    result_.findings.push_back(ice);
  }

  /// False where the factor changes nothing that was measured there: no solids to strain, no ice to melt.
  bool moves(std::size_t point, const CalibrationFinding& finding) const {
    constexpr double something = 1e-6, step = 0.1;
    Hands more;
    if (finding.what == CalibrationFinding::What::hold)
      more.hold += step;
    else
      more.melt[index_of(finding.method)] += step;
    return std::abs(said(point, more, specs_.house.ice_c) - said(point, Hands(), specs_.house.ice_c)) >
           something;
  }

  Hands hands_now() const {
    Hands hands;
    for (const auto& finding : result_.findings) {
      if (finding.what == CalibrationFinding::What::melt)
        hands.melt[index_of(finding.method)] = finding.value;
      if (finding.what == CalibrationFinding::What::hold) hands.hold = finding.value;
    }
    return hands;
  }

  double ice_now() const {
    for (const auto& finding : result_.findings)
      if (finding.what == CalibrationFinding::What::ice_temperature) return finding.value;
    return specs_.house.ice_c;
  }

  bool counts(std::size_t point) const {
    const auto& of = result_.points[point];
    if (of.is_outlier) return false;
    return of.of == CalibrationPoint::Of::temperature ? finds_ice() : of.finding.has_value();
  }

  bool finds_ice() const {
    return !result_.findings.empty() &&
           result_.findings.back().what == CalibrationFinding::What::ice_temperature;
  }

  /// How a point moves with a finding, by a small step to either side.
  double slope(std::size_t point, std::size_t finding) {
    auto& of = result_.findings[finding];
    bool is_ice = of.what == CalibrationFinding::What::ice_temperature;
    // An amount moves with its own factor only; every point with the ice.
    if (!is_ice && result_.points[point].finding != finding) return 0;
    const double kept = of.value;
    double high = kept + (is_ice ? 0.1 : 0.01), low = kept - (is_ice ? 0.1 : 0.01);
    if (is_ice) high = std::min(high, 0.0);
    of.value = high;
    double above = said(point, hands_now(), ice_now());
    of.value = low;
    double below = said(point, hands_now(), ice_now());
    of.value = kept;
    return (above - below) / (high - low);
  }

  struct Rows {
    std::vector<std::size_t> points;
    std::vector<std::vector<double>> matrix;
    std::vector<double> values;
  };

  Rows rows() {
    Rows rows;
    const Hands hands = hands_now();
    const double ice = ice_now();
    for (std::size_t i = 0; i < result_.points.size(); ++i) {
      if (!counts(i)) continue;
      const auto& point = result_.points[i];
      rows.points.push_back(i);
      rows.values.push_back((point.value - said(i, hands, ice)) / point.error);
      auto& row = rows.matrix.emplace_back();
      for (std::size_t f = 0; f < result_.findings.size(); ++f) row.push_back(slope(i, f) / point.error);
    }
    return rows;
  }

  void hold_inside(CalibrationFinding& finding) {
    if (finding.what == CalibrationFinding::What::ice_temperature)
      finding.value = std::clamp(finding.value, coldest_ice_c, 0.0);
    else
      finding.value = std::clamp(finding.value, least_factor, most_factor);
  }

  /// Gauss and Newton's steps from the usual; nothing where the measurements do not decide.
  std::optional<base::LeastSquares> converge(Rows& last) {
    constexpr int most_steps = 25;
    constexpr double small = 1e-7;
    std::optional<base::LeastSquares> solved;
    for (int step = 0; step < most_steps; ++step) {
      last = rows();
      solved = base::least_squares(last.matrix, last.values);
      if (!solved) return std::nullopt;
      double moved = 0;
      for (std::size_t f = 0; f < result_.findings.size(); ++f) {
        double before = result_.findings[f].value;
        result_.findings[f].value += solved->unknowns[f];
        hold_inside(result_.findings[f]);
        moved = std::max(moved, std::abs(result_.findings[f].value - before));
      }
      if (moved < small) break;
    }
    last = rows();
    return base::least_squares(last.matrix, last.values);
  }

  void fit() {
    if (result_.findings.empty()) return;
    for (;;) {
      Rows last;
      auto solved = converge(last);
      if (!solved) return give_up();
      if (finds_ice() && !decides_ice(last, *solved)) {
        // What stands at its limit, or anywhere, is not decided: the ice stays what the house says.
        result_.findings.pop_back();
        if (result_.findings.empty()) return;
        for (auto& finding : result_.findings) finding.value = 1;
        continue;
      }
      if (auto worst = worst_of(last, *solved)) {
        result_.points[*worst].is_outlier = true;
        continue;
      }
      const double variance = variance_of(last);
      for (std::size_t f = 0; f < result_.findings.size(); ++f)
        result_.findings[f].error = std::sqrt(variance * solved->inverse[f][f]);
      return;
    }
  }

  bool decides_ice(const Rows& rows, const base::LeastSquares& solved) const {
    constexpr double widest_k = 5, inside_k = 1e-3;
    const double value = result_.findings.back().value;
    return value < -inside_k && value > coldest_ice_c + inside_k &&
           std::sqrt(variance_of(rows) * solved.inverse.back().back()) < widest_k;
  }

  /// How many numbers are left over once the findings have theirs.
  double freedom_of(const Rows& rows) const {
    return static_cast<double>(rows.points.size()) - static_cast<double>(result_.findings.size());
  }

  /// Of a number beside its instrument's own: where they scatter more than their instruments, it is the hands
  /// that scatter.
  double variance_of(const Rows& rows) const {
    const double freedom = freedom_of(rows);
    return freedom > 0 ? std::max(1.0, square_of(rows.values) / freedom) : 1.0;
  }

  static double square_of(const std::vector<double>& values) {
    double sum = 0;
    for (double value : values) sum += value * value;
    return sum;
  }

  /// The point that lies farthest from a fit of the others, if it is too far.
  std::optional<std::size_t> worst_of(const Rows& rows, const base::LeastSquares& solved) const {
    const double freedom = freedom_of(rows);
    if (freedom < 2) return std::nullopt;
    const double sum = square_of(rows.values);
    double farthest = outlier_studentized;
    std::optional<std::size_t> worst;
    for (std::size_t i = 0; i < rows.points.size(); ++i) {
      const double residual = rows.values[i], left = 1 - solved.leverages[i];
      if (std::abs(residual) < outlier_errors || !(left > 1e-9)) continue;
      const double others = std::max(sum - residual * residual / left, 1e-12) / (freedom - 1);
      const double studentized = std::abs(residual) / std::sqrt(others * left);
      if (studentized > farthest) farthest = studentized, worst = rows.points[i];
    }
    return worst;
  }

  /// What is measured does not decide: nothing changes.
  void give_up() {
    for (auto& point : result_.points) point.finding.reset();
    result_.findings.clear();
  }

  void finish() {
    const Hands hands = hands_now();
    const double ice = ice_now();
    for (std::size_t i = 0; i < result_.points.size(); ++i) {
      auto& point = result_.points[i];
      point.usual = said(i, Hands(), specs_.house.ice_c);
      point.found = said(i, hands, ice);
      if (!point.finding) continue;
      const auto& finding = result_.findings[*point.finding];
      const double by_factor = slope(i, *point.finding);
      if (std::abs(by_factor) < 1e-9) continue;
      point.factor = finding.value + (point.value - point.found) / by_factor;
      point.factor_error = point.error / std::abs(by_factor);
    }
    for (std::size_t f = 0; f < result_.findings.size(); ++f) set_width(f);
  }

  void set_width(std::size_t index) {
    auto& finding = result_.findings[index];
    double square = 0;
    for (std::size_t i = 0; i < result_.points.size(); ++i) {
      const auto& point = result_.points[i];
      bool speaks = finding.what == CalibrationFinding::What::ice_temperature
                        ? point.of == CalibrationPoint::Of::temperature
                        : point.finding == index;
      if (!speaks || point.is_outlier) continue;
      ++finding.points;
      square += std::pow(point.factor - finding.value, 2);
    }
    if (finding.what == CalibrationFinding::What::ice_temperature) {
      finding.width = finding.error;
      return;
    }
    if (finding.points >= enough_for_scatter) {
      double scatter = std::sqrt(square / static_cast<double>(finding.points - 1));
      finding.width = std::max(std::hypot(finding.error, scatter), least_width * finding.value);
    } else {
      // Too few to know how they differ from one to the next: what is usual stays.
      const double usual = finding.what == CalibrationFinding::What::hold ? hold_share : melt_share;
      finding.width = std::max(usual * finding.value, finding.error);
    }
  }

  // ---- what to measure next

  struct Known {
    analysis::DrinkId drink;
    ChillMethod method;
    double strength_by_factor = 0;  ///< % abv for a factor of one more
    double measured_to = 0;         ///< what one measurement of this drink tells of its factor, ±
  };

  static std::optional<double> melt_effect(const DrinkFacts& drink) {
    for (const auto& influence : drink.influences)
      if (influence.cause.kind == Cause::Kind::melt && influence.width > 0)
        return influence.effect.abv_percent / influence.width;
    return std::nullopt;
  }

  std::vector<Known> drinks_that_melt() {
    std::vector<Known> known;
    for (const auto& drink : facts_.drinks) {
      const auto& declared = specs_[drink.drink];
      if (declared.head.from_library || !drink.valid || declared.status == analysis::Status::retired)
        continue;
      // Nobody weighs a bowl.
      auto effect = declared.serves > 1 ? std::nullopt : melt_effect(drink);
      if (!effect) continue;
      BuiltProgram built = builder_.build(declared);
      auto chill = first_melt(built.program);
      if (!chill) continue;
      ChillMethod method = built.program.operations[*chill].as<operation::Chill>()->method;
      double melt_g = drink.trace[*chill].melt_g;
      double after_g = drink.trace[*chill].after.masses.liquid();
      if (!(melt_g > 1)) continue;
      double error_g = std::hypot(scale_error_g, scale_error_g * after_g / std::max(after_g - melt_g, 1.0));
      known.push_back(
          {drink.drink, method, std::abs(*effect), std::hypot(error_g / melt_g, one_bar_scatter)});
    }
    return known;
  }

  void suggest() {
    const auto drinks = drinks_that_melt();
    if (drinks.empty()) return;
    std::array<double, chill_method_count> variance;
    variance.fill(melt_share * melt_share);
    for (const auto& finding : result_.findings)
      if (finding.what == CalibrationFinding::What::melt)
        variance[index_of(finding.method)] =
            std::min(finding.error * finding.error, variance[index_of(finding.method)]);
    auto doubt = [&] {
      double sum = 0;
      for (const auto& drink : drinks)
        sum += drink.strength_by_factor * drink.strength_by_factor * variance[index_of(drink.method)];
      return std::sqrt(sum / static_cast<double>(drinks.size()));
    };
    constexpr std::size_t wanted = 2;
    while (result_.next.size() < wanted) {
      const double before = doubt();
      double best = before;
      const Known* chosen = nullptr;
      for (const auto& drink : drinks) {
        if (std::any_of(result_.next.begin(), result_.next.end(),
                        [&](const auto& next) { return next.drink == drink.drink; }))
          continue;
        double& now = variance[index_of(drink.method)];
        const double kept = now;
        now = after_one_more(now, drink);
        if (double then = doubt(); then < best) best = then, chosen = &drink;
        now = kept;
      }
      if (!chosen) return;
      variance[index_of(chosen->method)] = after_one_more(variance[index_of(chosen->method)], *chosen);
      result_.next.push_back({chosen->drink, chosen->method, before, best});
    }
  }

  static double after_one_more(double variance, const Known& drink) {
    return 1 / (1 / variance + 1 / (drink.measured_to * drink.measured_to));
  }

  const analysis::Specs& specs_;
  const HouseFacts& facts_;
  diagnostics::DiagnosticSink unheard_;
  ProgramBuilder builder_;
  Calibration result_;
  std::vector<Case> cases_;
  /// By point.
  std::vector<std::size_t> case_of_;
};

}  // namespace

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
  return Calibrator(specs, units, facts, std::move(measured)).run();
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

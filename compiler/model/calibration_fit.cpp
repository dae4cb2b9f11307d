#include "model/calibration_fit.h"

#include <algorithm>
#include <cmath>

#include "base/least_squares.h"
#include "model/constants.h"

namespace gill::model {

namespace {

// A number so many of its own errors from a fit of the others, and so many instrument errors, is an outlier.
constexpr double outlier_studentized = 4, outlier_errors = 3;
// From so many on, their own scatter says how far the next one lies.
constexpr std::size_t enough_for_scatter = 3;
constexpr double least_width = 0.01;
constexpr double least_factor = 0.05, most_factor = 5, coldest_ice_c = -40;
constexpr std::size_t enough_temperatures = 2;

class CalibrationFit {
 public:
  CalibrationFit(const MeasuredRuns& runs, double house_ice_c, Calibration& result)
      : runs_(runs), house_ice_c_(house_ice_c), result_(result) {}

  void run() {
    choose_findings();
    fit();
    finish();
  }

 private:
  double said(std::size_t point, const Hands& hands, double ice_c) const {
    return runs_.said(point, result_.points[point], hands, ice_c);
  }

  /// Which factors the points speak for.
  void choose_findings() {
    std::size_t temperatures = 0;
    for (std::size_t i = 0; i < result_.points.size(); ++i) {
      auto& point = result_.points[i];
      const auto method = runs_.method_of(i);
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
    ice.value = std::clamp(house_ice_c_, coldest_ice_c, 0.0);
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
    return std::abs(said(point, more, house_ice_c_) - said(point, Hands(), house_ice_c_)) > something;
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
    return house_ice_c_;
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
      point.usual = said(i, Hands(), house_ice_c_);
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

  const MeasuredRuns& runs_;
  const double house_ice_c_;
  Calibration& result_;
};

}  // namespace

void fit_calibration(const MeasuredRuns& runs, double house_ice_c, Calibration& result) {
  CalibrationFit(runs, house_ice_c, result).run();
}

}  // namespace gill::model

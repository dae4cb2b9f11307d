#include "plan/timetable.h"

#include <algorithm>
#include <cmath>

namespace gill::plan {
namespace {

/// Work is told in steps of five minutes.
constexpr double steps_an_hour = 12;

double up(double h) { return std::ceil(h * steps_an_hour - 1e-6) / steps_an_hour; }
double down(double h) { return std::floor(h * steps_an_hour + 1e-6) / steps_an_hour; }

double opening(int day) { return 24.0 * day; }

}  // namespace

int bar_day(double hour, const PlanOptions& options) {
  double service_h = options.closes_h - options.opens_h;
  return static_cast<int>(std::floor((hour + 24 - service_h - 1e-9) / 24));
}

double hands_on_factor(int batches) { return (1 + batches) / 2.0; }

/// The latest end no later than `bound` at which somebody is there: before the service, or (where waiting longer would
/// do harm) until the bar closes.
double Timetable::fit_end(double bound, double hands_on_h, bool may_be_late) const {
  double service_h = options_.closes_h - options_.opens_h;
  int day = bar_day(bound, options_);
  if (bound > opening(day)) return may_be_late ? bound : opening(day);
  if (bound - hands_on_h >= opening(day) - options_.shift_h - 1e-9) return bound;
  return may_be_late ? std::min(bound, opening(day - 1) + service_h) : opening(day - 1);
}

std::vector<Interval> Timetable::lay_out(const Item& item, const std::vector<double>& hands_on_h, double ready_by,
                                         const std::vector<int>* days) const {
  std::size_t n = item.stages.size();
  std::vector<Interval> hours(n);
  double bound = ready_by;
  for (std::size_t i = n; i-- > 0;) {
    const auto& stage = item.stages[i];
    bound -= stage.wait_h;
    bool is_exact = stage.wait_is_exact && stage.wait_h > 0;
    bool may_be_late = is_exact || item.keeps_h.has_value();
    double end = down(days ? std::min(bound, opening((*days)[i]) + (may_be_late ? options_.closes_h - options_.opens_h : 0))
                           : fit_end(bound, hands_on_h[i], may_be_late));
    if (is_exact && i + 1 < n && bound - end > 1e-9) {
      // An infusion must not wait for the next shift: the work after it moves up instead, as far as its own shift goes.
      auto& after = hours[i + 1];
      double floor = opening(bar_day(after.first, options_)) - options_.shift_h;
      double earlier = down(std::clamp(bound - end, 0.0, std::max(0.0, after.first - floor)));
      after.first -= earlier;
      after.second -= earlier;
    }
    hours[i] = {end - hands_on_h[i], end};
    bound = hours[i].first;
  }
  return hours;
}

std::vector<Interval> Timetable::latest(const Item& item, double ready_by) const {
  std::vector<double> hands_on_h;
  for (const auto& stage : item.stages) hands_on_h.push_back(up(stage.hands_on_h));
  return lay_out(item, hands_on_h, ready_by, nullptr);
}

void Timetable::book(Make& make, const Item& item, double ready_by, const std::vector<Interval>& latest) {
  std::vector<double> hands_on_h;
  std::vector<int> days;
  // More than a shift of work is shared out: it takes more hands, not more days.
  const double most_h = std::max(1.0, 0.9 * options_.shift_h);
  make.needs_more_hands = false;
  for (std::size_t i = 0; i < item.stages.size(); ++i) {
    double h = item.stages[i].hands_on_h * hands_on_factor(make.batches) + item.hands_on_h_per_g * make.make_g;
    if (h > most_h) make.needs_more_hands = true;
    hands_on_h.push_back(up(std::clamp(h, 1.0 / steps_an_hour, most_h)));
    days.push_back(bar_day(latest[i].second, options_));
  }
  auto& booked = booked_[item.station];
  double shift = 0;
  auto hours = lay_out(item, hands_on_h, ready_by, &days);
  for (int tries = 0; tries < 500; ++tries) {
    double clash = 0;
    for (const auto& [start, end] : hours)
      for (const auto& [from, to] : booked)
        if (start < to - 1e-9 && from < end - 1e-9) clash = std::max(clash, end - from);
    if (clash <= 0) break;
    shift += clash;
    auto earlier = lay_out(item, hands_on_h, ready_by - shift, &days);
    bool fits = true;
    for (std::size_t i = 0; i < earlier.size(); ++i)
      fits = fits && earlier[i].first >= std::min(opening(days[i]) - options_.shift_h, hours[i].first) - 1e-9 &&
             bar_day(earlier[i].second, options_) == days[i];
    if (!fits) {
      hours = lay_out(item, hands_on_h, ready_by, &days);
      make.needs_more_hands = true;
      break;
    }
    hours = std::move(earlier);
  }
  booked.insert(booked.end(), hours.begin(), hours.end());
  make.work = hours;
  make.ready_h = hours.back().second + item.stages.back().wait_h;
}

}  // namespace gill::plan

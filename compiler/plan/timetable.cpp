#include "plan/timetable.h"

#include <algorithm>
#include <cmath>

namespace gill::plan {
namespace {

/// Work is told in steps of five minutes.
constexpr double steps_an_hour = 12;

/// What is lost in rounding to such a step delays nothing.
constexpr double rounding_h = 1 / steps_an_hour - 1e-6;

/// An infusion that stands longer than stated by more than this, and by more than this share, is another
/// infusion. Common practice, no source.
constexpr double stood_too_long_h = 0.25, stood_too_long_share = 0.1;
/// What keeps less is not made a day sooner for that.
constexpr int keeps_a_day_more = 3;

double up(double h) { return std::ceil(h * steps_an_hour - 1e-6) / steps_an_hour; }
double down(double h) { return std::floor(h * steps_an_hour + 1e-6) / steps_an_hour; }

double opening(int day) { return 24.0 * day; }

}  // namespace

int calendar_day(double hour, const PlanOptions& options) {
  return static_cast<int>(std::floor((options.opens_h + hour) / 24 + 1e-9));
}

int bar_day(double hour, const PlanOptions& options) {
  double service_h = options.closes_h - options.opens_h;
  return static_cast<int>(std::floor((hour + 24 - service_h - 1e-9) / 24));
}

double hands_on_factor(int batches) { return (1 + batches) / 2.0; }

/// The latest end no later than `bound` at which somebody is there: before the service, or (where waiting
/// longer would do harm) until the bar closes.
double Timetable::fit_end(double bound, double hands_on_h, bool may_be_late) const {
  double service_h = options_.closes_h - options_.opens_h;
  int day = bar_day(bound, options_);
  auto end_of = [&](int open_day) {
    return may_be_late ? std::min(bound, opening(open_day) + service_h) : opening(open_day);
  };
  if (calendar_.is_closed(day)) return end_of(calendar_.open_before(day));
  if (bound > opening(day)) return may_be_late ? bound : opening(day);
  if (bound - hands_on_h >= opening(day) - options_.shift_h - 1e-9) return bound;
  return end_of(calendar_.open_before(day));
}

int most_at_once(const std::vector<Interval>& intervals, double from_h, double to_h) {
  // It changes only where one begins.
  std::vector<double> starts = {from_h};
  for (const auto& [from, to] : intervals)
    if (from > from_h && from < to_h - 1e-9) starts.push_back(from);
  int most = 0;
  for (double at : starts)
    most = std::max(most, static_cast<int>(std::count_if(
                              intervals.begin(), intervals.end(), [&](const Interval& interval) {
                                return interval.first <= at + 1e-9 && interval.second > at + 1e-9;
                              })));
  return most;
}

bool Timetable::all_hands_are_busy(double from_h, double to_h) const {
  return options_.hands && most_at_once(at_work_, from_h, to_h) >= *options_.hands;
}

/// One item's stages on their way to their hours.
struct Timetable::Placing {
  std::vector<double> hands_on_h;
  double ready_by = 0;
  /// The bar days on which the stages must stay; without them they are chosen.
  const std::vector<int>* days = nullptr;
  /// What the station is doing already.
  const std::vector<Interval>* booked = nullptr;
  bool clashes = false;
};

/// The latest end from `end` back at which the station is free, within the shift; `end` itself, and a clash,
/// where there is none.
double Timetable::free_end(double end, double hands_on_h, int day, Placing& placing) const {
  if (!placing.booked) return end;
  double at = end;
  for (bool moved = true; moved;) {
    moved = false;
    for (const auto& [from, to] : *placing.booked) {
      if (at - hands_on_h >= to - 1e-9 || from >= at - 1e-9) continue;
      at = from;
      moved = true;
    }
    if (!moved && all_hands_are_busy(at - hands_on_h, at) &&
        at - hands_on_h >= opening(day) - options_.shift_h) {
      at -= 1 / steps_an_hour;
      moved = true;
    }
  }
  if (at - hands_on_h >= opening(day) - options_.shift_h - 1e-9) return at;
  placing.clashes = true;
  return end;
}

std::vector<Interval> Timetable::place(const Product& product, Placing& placing) const {
  std::size_t n = product.stages.size();
  std::vector<Interval> hours(n);
  std::vector<double> latest_end(n, 1e300);
  for (int tries = 0;; ++tries) {
    placing.clashes = false;
    double bound = placing.ready_by;
    bool again = false;
    for (std::size_t i = n; i-- > 0 && !again;) {
      const auto& stage = product.stages[i];
      double h = placing.hands_on_h[i];
      bound -= stage.wait_h;
      bool is_exact = stage.wait_is_exact && stage.wait_h > 0;
      bool may_be_late = is_exact;
      double limit = std::min(bound, latest_end[i]);
      // What keeps for hours is made when it is wanted, whoever has to come in for it.
      double end =
          down(product.keeps_h ? limit
               : placing.days  ? std::min(limit, opening((*placing.days)[i]) +
                                                     (may_be_late ? options_.closes_h - options_.opens_h : 0))
                               : fit_end(limit, h, may_be_late));
      if (!product.keeps_h)
        end = down(free_end(end, h, placing.days ? (*placing.days)[i] : bar_day(end, options_), placing));
      if (is_exact && i + 1 < n && bound - end > rounding_h && tries < 50) {
        // An infusion must not wait for the next shift: the work after it moves up, as far as its own shift
        // goes.
        const auto& after = hours[i + 1];
        double earliest_end =
            opening(bar_day(after.second, options_)) - options_.shift_h + placing.hands_on_h[i + 1];
        double moved = std::max(after.second - (bound - end), earliest_end);
        // Where it would stand too long even so, and the whole of it fits into a shift, it is done in the
        // shift before.
        bool too_long = bound - end > std::max(stood_too_long_h, stood_too_long_share * stage.wait_h);
        bool fits = h + stage.wait_h + placing.hands_on_h[i + 1] <= options_.shift_h;
        if (moved >= after.second - 1e-6 && too_long && fits && !placing.days &&
            product.keeps_days >= keeps_a_day_more)
          moved = opening(calendar_.open_before(bar_day(after.second, options_)));
        if (moved < after.second - 1e-6) {
          latest_end[i + 1] = moved;
          again = true;
          continue;
        }
      }
      hours[i] = {end - h, end};
      bound = hours[i].first;
    }
    if (!again) return hours;
  }
}

/// The worst of an item's waits that must not be longer, where it is by more than hands notice.
void Timetable::find_standing(Make& make, const Product& product) {
  for (std::size_t i = 0; i + 1 < product.stages.size(); ++i) {
    const auto& stage = product.stages[i];
    if (!stage.wait_is_exact || stage.wait_h <= 0) continue;
    const double stands_h = make.work[i + 1].first - make.work[i].second, longer_h = stands_h - stage.wait_h;
    if (longer_h <= std::max(stood_too_long_h, stood_too_long_share * stage.wait_h)) continue;
    if (!make.stands_too_long || longer_h > make.stands_too_long->stands_h - make.stands_too_long->stated_h)
      make.stands_too_long = Make::Standing{stands_h, stage.wait_h};
  }
}

std::vector<Interval> Timetable::latest(const Product& product, double ready_by) const {
  Placing placing;
  for (const auto& stage : product.stages) placing.hands_on_h.push_back(up(stage.hands_on_h));
  placing.ready_by = ready_by;
  return place(product, placing);
}

void Timetable::book(Make& make, const Product& product, double ready_by,
                     const std::vector<Interval>& latest) {
  Placing placing;
  std::vector<int> days;
  // More than a shift of work is shared out: it takes more hands, not more days.
  const double max_h = std::max(1.0, 0.9 * options_.shift_h);
  bool too_much = false;
  for (std::size_t i = 0; i < product.stages.size(); ++i) {
    double h =
        product.stages[i].hands_on_h * hands_on_factor(make.batches) + product.hands_on_h_per_g * make.make_g;
    too_much = too_much || h > max_h;
    placing.hands_on_h.push_back(up(std::clamp(h, 1.0 / steps_an_hour, max_h)));
    days.push_back(bar_day(latest[i].second, options_));
  }
  auto& booked = booked_[product.station];
  placing.ready_by = ready_by;
  placing.days = &days;
  placing.booked = &booked;
  make.work = place(product, placing);
  make.needs_more_hands = too_much || placing.clashes;
  booked.insert(booked.end(), make.work.begin(), make.work.end());
  at_work_.insert(at_work_.end(), make.work.begin(), make.work.end());
  find_standing(make, product);
  make.ready_h = make.work.back().second + product.stages.back().wait_h;
  // What rests longer than it must is taken up when it is wanted.
  if (product.stages.back().wait_h > 0 && !product.stages.back().wait_is_exact)
    make.ready_h = std::max(make.ready_h, ready_by);
}

}  // namespace gill::plan

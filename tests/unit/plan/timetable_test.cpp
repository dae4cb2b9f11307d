// When the work of a make is done: hours worked out by hand on a service of 8 h (18 to 2 o'clock) and a team
// that comes in 8 h before it. Hours count from the opening of the first service, so that the shift of the
// second day is 16 to 24.
#include "plan/timetable.h"

#include <catch2/catch.hpp>

using namespace gill;
using plan::Interval;
using plan::Make;
using plan::PlanOptions;
using plan::Product;
using plan::Timetable;

namespace {

/// A bar that is never closed.
const plan::Calendar every_day({}, {});

PlanOptions options_of() {
  PlanOptions options;
  options.opens_h = 18;
  options.closes_h = 26;
  options.shift_h = 8;
  return options;
}

const PlanOptions options = options_of();

Product product_of(std::vector<Product::Stage> stages, int keeps_days = 30) {
  Product product;
  product.stages = std::move(stages);
  product.keeps_days = keeps_days;
  product.station = "bench";
  return product;
}

Product::Stage rest(double hands_on_h, double wait_h) { return {hands_on_h, wait_h, false, ""}; }
Product::Stage infusion(double hands_on_h, double wait_h) { return {hands_on_h, wait_h, true, ""}; }

void check_hours(const std::vector<Interval>& hours, const std::vector<Interval>& expected) {
  REQUIRE(hours.size() == expected.size());
  for (std::size_t i = 0; i < hours.size(); ++i) {
    INFO("stage " << i << ": " << hours[i].first << " to " << hours[i].second);
    CHECK(hours[i].first == Approx(expected[i].first).margin(1e-9));
    CHECK(hours[i].second == Approx(expected[i].second).margin(1e-9));
  }
}

std::vector<Interval> latest(const Product& product, double ready_by) {
  return Timetable(options, every_day).latest(product, ready_by);
}

Make booked(Timetable& timetable, const Product& product, double ready_by, int batches = 1) {
  Make make;
  make.batches = batches;
  timetable.book(make, product, ready_by, timetable.latest(product, ready_by));
  return make;
}

}  // namespace

TEST_CASE("work ends when it is wanted, on the clock's five minutes") {
  check_hours(latest(product_of({rest(0.5, 0)}), 24), {{23.5, 24}});
  check_hours(latest(product_of({rest(0.25, 0)}), 20.02), {{19.75, 20}});
  // 20 min and a bit are told as 25.
  check_hours(latest(product_of({rest(0.34, 0)}), 24), {{24 - 5 / 12., 24}});
}

TEST_CASE(
    "what rests may stand through the night, so its work is done before the service of the day before") {
  // 12 h before 24 nobody is there: the service closed at 8, the team comes in at 16.
  check_hours(latest(product_of({rest(0.5, 12)}), 24), {{-0.5, 0}});
}

TEST_CASE("an infusion must not stand too long, so it is begun as late as the bar is open") {
  check_hours(latest(product_of({infusion(0.5, 12)}), 24), {{7.5, 8}});
}

TEST_CASE("hands are on no infusion that does not wait") {
  // Without a wait it is work as any other: done before the service, not during it.
  check_hours(latest(product_of({infusion(0.5, 0)}), 4), {{-0.5, 0}});
  check_hours(latest(product_of({infusion(0.5, 1)}), 4), {{2.5, 3}});
}

TEST_CASE("an infusion that would stand too long and fits into a shift is made in the shift before") {
  // Straining ends at 20 at the latest; 6.5 h and its own hour before that nobody is there. At the shift's
  // begin (16 to 17) it would have stood from 8 on, 8 h; the whole of it, 8 h, fits before the service at 0.
  auto stages = {infusion(0.5, 6.5), rest(1, 0)};
  check_hours(latest(product_of(stages), 20), {{-8, -7.5}, {-1, 0}});
  // What keeps two days is not made a day sooner for that.
  check_hours(latest(product_of(stages, 2), 20), {{7.5, 8}, {16, 17}});
  check_hours(latest(product_of(stages, 3), 20), {{-8, -7.5}, {-1, 0}});
  // What does not fit into a shift stands too long rather.
  check_hours(latest(product_of({infusion(0.5, 6.75), rest(1, 0)}), 20), {{7.5, 8}, {16, 17}});
}

TEST_CASE("a tenth of its time or a quarter of an hour too long is no other infusion") {
  // From 8 to 16: 0.6 h over 7.4 h are less than a tenth, 0.8 h over 7.2 h are more.
  check_hours(latest(product_of({infusion(0.25, 7.4), rest(0.25, 0)}), 20), {{7.75, 8}, {16, 16.25}});
  check_hours(latest(product_of({infusion(0.25, 7.2), rest(0.25, 0)}), 20), {{-7.75, -7.5}, {-0.25, 0}});
}

TEST_CASE("an infusion of seven minutes is strained when it is wanted, not hours before") {
  // It begins on the clock's five minutes, so it stands three minutes more: that moves nothing.
  check_hours(latest(product_of({infusion(0.25, 7 / 60.), rest(0.25, 0)}), 24),
              {{23.25 + 1 / 12., 23.5 + 1 / 12.}, {23.75, 24}});
}

TEST_CASE("two makes at one station do not meet, those of two stations may") {
  Timetable timetable(options, every_day);
  auto hour = product_of({rest(1, 0)});
  check_hours(booked(timetable, hour, 24).work, {{23, 24}});
  check_hours(booked(timetable, hour, 24).work, {{22, 23}});
  // One that is wanted sooner goes before both where it would meet them.
  check_hours(booked(timetable, hour, 22.5).work, {{21, 22}});
  auto elsewhere = hour;
  elsewhere.station = "well";
  check_hours(booked(timetable, elsewhere, 24).work, {{23, 24}});
}

TEST_CASE("where a shift is full, more hands are asked for and nothing is put off") {
  Timetable timetable(options, every_day);
  auto long_one = product_of({rest(5, 0)});
  auto first = booked(timetable, long_one, 24);
  CHECK_FALSE(first.needs_more_hands);
  check_hours(first.work, {{19, 24}});
  auto second = booked(timetable, long_one, 24);
  CHECK(second.needs_more_hands);
  check_hours(second.work, {{19, 24}});
  // Three hours are left of the shift.
  auto third = booked(timetable, product_of({rest(3, 0)}), 24);
  CHECK_FALSE(third.needs_more_hands);
  check_hours(third.work, {{16, 19}});
}

TEST_CASE("a second batch takes half as long again, and more than a shift's work takes more hands") {
  // Common practice, no source.
  Timetable timetable(options, every_day);
  check_hours(booked(timetable, product_of({rest(1, 0)}), 24, 3).work, {{22, 24}});
  Timetable other(options, every_day);
  auto much = booked(other, product_of({rest(5, 0)}), 24, 3);
  CHECK(much.needs_more_hands);
  // Nine tenths of the shift are booked.
  check_hours(much.work, {{24 - 87 / 12., 24}});
}

TEST_CASE("what keeps for hours is made for the hour, whoever has to come in for it") {
  auto product = product_of({rest(0.5, 0)});
  product.keeps_h = 6;
  check_hours(latest(product, 13), {{12.5, 13}});
}

TEST_CASE("a service belongs to the day on which it opens, down to its last minute") {
  CHECK(plan::bar_day(0, options) == 0);
  CHECK(plan::bar_day(8, options) == 0);
  CHECK(plan::bar_day(8.1, options) == 1);
  CHECK(plan::bar_day(24, options) == 1);
  CHECK(plan::bar_day(-16, options) == -1);
  CHECK(plan::bar_day(-15.9, options) == 0);
}

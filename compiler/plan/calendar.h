#pragma once
#include <chrono>
#include <optional>
#include <set>

namespace gill::plan {

/// When the bar is closed: on weekdays (0 is Monday) and on single dates.
struct ClosedDays {
  std::set<std::size_t> weekdays;
  std::set<std::chrono::sys_days> dates;
};

/// The bar days of a plan, by their number: 0 is the first that is planned for, negative ones are before it.
class Calendar {
 public:
  /// Without a date day 0 is a Monday.
  Calendar(std::optional<std::chrono::sys_days> first, ClosedDays closed)
      : first_(first), closed_(std::move(closed)) {}

  std::optional<std::chrono::sys_days> date(int day) const {
    return first_ ? std::optional(*first_ + std::chrono::days(day)) : std::nullopt;
  }
  /// The number of a day; nothing where no date is known.
  std::optional<int> day(std::chrono::sys_days date) const {
    return first_ ? std::optional(static_cast<int>((date - *first_).count())) : std::nullopt;
  }
  std::size_t weekday(int day) const {
    if (first_) return std::chrono::weekday(*date(day)).iso_encoding() - 1;
    return static_cast<std::size_t>((day % 7 + 7) % 7);
  }
  bool is_closed(int day) const {
    return closed_.weekdays.contains(weekday(day)) || (first_ && closed_.dates.contains(*date(day)));
  }
  /// The last day before that one on which somebody is in; the day before where there is none for a year.
  int open_before(int day) const {
    for (int before = day - 1; before >= day - 366; --before)
      if (!is_closed(before)) return before;
    return day - 1;
  }

 private:
  std::optional<std::chrono::sys_days> first_;
  ClosedDays closed_;
};

}  // namespace gill::plan

#include "base/date.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "base/characters.h"

namespace gill::base {

std::string iso_date(std::chrono::sys_days day) {
  std::chrono::year_month_day date(day);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::optional<std::chrono::sys_days> read_iso_date(std::string_view text) {
  static constexpr std::string_view form = "dddd-dd-dd";
  bool has_form = std::equal(text.begin(), text.end(), form.begin(), form.end(),
                             [](char c, char place) { return place == 'd' ? is_digit(c) : c == place; });
  if (!has_form) return std::nullopt;
  auto number = [&](std::size_t at, std::size_t length) {
    unsigned value = 0;
    std::from_chars(text.data() + at, text.data() + at + length, value);
    return value;
  };
  std::chrono::year_month_day date{std::chrono::year(static_cast<int>(number(0, 4))),
                                   std::chrono::month(number(5, 2)), std::chrono::day(number(8, 2))};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date);
}

}  // namespace gill::base

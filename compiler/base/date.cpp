#include "base/date.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <vector>

#include "base/characters.h"

namespace gill::base {
namespace {

std::optional<std::chrono::sys_days> day_of(unsigned year, unsigned month, unsigned day) {
  std::chrono::year_month_day date{std::chrono::year(static_cast<int>(year)), std::chrono::month(month),
                                   std::chrono::day(day)};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date);
}

/// `5.12.2026`, `5/12/26`, `2026/12/5`: the days that it may be, as ISO 8601 writes them. A full stop parts
/// the day from the month, in that order; with any other sign it may be the other way round.
std::vector<std::string> read_as_numbers(std::string_view text) {
  std::vector<unsigned> numbers;
  std::string signs;
  for (std::size_t at = 0; at < text.size();) {
    unsigned value = 0;
    auto [end, error] = std::from_chars(text.data() + at, text.data() + text.size(), value);
    if (error != std::errc()) return {};
    numbers.push_back(value);
    at = static_cast<std::size_t>(end - text.data());
    if (at < text.size()) signs += text[at++];
  }
  constexpr std::size_t parts = 3;
  const bool has_form = numbers.size() == parts && signs.size() == parts - 1 && signs[0] == signs[1] &&
                        std::string_view("./- ").find(signs[0]) != std::string_view::npos;
  if (!has_form) return {};
  // A year of two digits is of this century.
  constexpr unsigned most_days = 31, century = 2000;
  auto year = [](unsigned number) { return number < 100 ? number + century : number; };
  std::vector<std::optional<std::chrono::sys_days>> readings;
  if (numbers[0] > most_days) {
    readings = {day_of(year(numbers[0]), numbers[1], numbers[2])};
  } else {
    readings = {day_of(year(numbers[2]), numbers[1], numbers[0])};
    if (signs[0] != '.') readings.push_back(day_of(year(numbers[2]), numbers[0], numbers[1]));
  }
  std::vector<std::string> days_written;
  for (const auto& day : readings)
    if (day && std::find(days_written.begin(), days_written.end(), iso_date(*day)) == days_written.end())
      days_written.push_back(iso_date(*day));
  return days_written;
}

}  // namespace

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
  return day_of(number(0, 4), number(5, 2), number(8, 2));
}

bool is_day_of_numbers(std::string_view text) {
  return read_iso_date(text) || !read_as_numbers(text).empty();
}

std::string not_a_date(std::string_view text) {
  auto forms = read_as_numbers(text);
  if (forms.empty()) forms.emplace_back("2026-03-19");
  return fmt::format("`{}` is no date; write it as {}", text, fmt::join(forms, " or "));
}

}  // namespace gill::base

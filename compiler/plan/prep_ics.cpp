#include "plan/prep_ics.h"

#include <fmt/format.h>

#include <cmath>

#include "base/fingerprint.h"
#include "plan/prep_page.h"

namespace gill::plan {
namespace {

/// RFC 5545, 3.1: a line has at most 75 octets; what is longer goes on behind a blank. No character is
/// parted.
constexpr std::size_t max_octets = 75;

std::string folded_line(std::string_view line) {
  std::string text;
  std::size_t room = max_octets;
  while (line.size() > room) {
    std::size_t end = room;
    while (end > 1 && (static_cast<unsigned char>(line[end]) & 0xC0) == 0x80) --end;
    text += line.substr(0, end);
    text += "\r\n ";
    line.remove_prefix(end);
    room = max_octets - 1;
  }
  return text + std::string(line) + "\r\n";
}

/// RFC 5545, 3.3.11: TEXT.
std::string escaped(std::string_view text) {
  std::string result;
  for (char c : text) {
    if (c == '\n') {
      result += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') result += '\\';
    if (static_cast<unsigned char>(c) >= 0x20) result += c;
  }
  return result;
}

/// `20260319T170000`: an hour of the plan, in the bar's own time.
std::string local_time(double hour, const PrepPlan& plan) {
  auto minutes = std::lround((plan.options.opens_h + hour) * 60);
  auto time =
      std::chrono::sys_time<std::chrono::minutes>(*plan.days.front().date) + std::chrono::minutes(minutes);
  auto day = std::chrono::floor<std::chrono::days>(time);
  std::chrono::year_month_day date{day};
  auto of_day = (time - day).count();
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}00", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), of_day / 60,
                     of_day % 60);
}

/// Tells events apart that begin at once.
std::uint64_t event_value(const std::string& bar, const WorkLine& work) {
  base::Fingerprint fingerprint;
  for (std::string_view part :
       {std::string_view(bar), std::string_view(work.station), std::string_view(work.words)})
    fingerprint.add(part);
  return fingerprint.value();
}

}  // namespace

std::optional<std::string> prep_ics(const PrepPlan& plan, const House& house) {
  if (plan.days.empty() || !plan.days.front().date) return std::nullopt;
  std::string text;
  auto line = [&](std::string_view name, const std::string& value) {
    text += folded_line(fmt::format("{}:{}", name, value));
  };
  line("BEGIN", "VCALENDAR");
  line("VERSION", "2.0");
  line("PRODID", "-//Gill//Prep plan//EN");
  const auto& bar = house.specs.house.head.name;
  // When it was made would change its bytes from run to run: the day that it is for stands in its place.
  std::string stamp = local_time(-plan.options.opens_h, plan) + "Z";
  std::size_t number = 0;
  for (const auto& work : work_lines(plan, house)) {
    std::string from = local_time(work.from_h, plan);
    line("BEGIN", "VEVENT");
    line("UID", fmt::format("{}-{}-{:016x}@gill.invalid", from, ++number, event_value(bar, work)));
    line("DTSTAMP", stamp);
    line("DTSTART", from);
    line("DTEND", local_time(work.to_h, plan));
    line("SUMMARY", escaped(work.words));
    if (!work.station.empty()) line("LOCATION", escaped(work.station));
    line("END", "VEVENT");
  }
  line("END", "VCALENDAR");
  return text;
}

}  // namespace gill::plan
